"""Two devices put the first things into a collection that the job lacks: neither loses what the other put there."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import Visit
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES
from tests.bench.serving import Serving, away, start_pull

PARTS = {name: {"kind": part} if isinstance(part, str) else part for name, part in HEATING.items()}
TOLD = "This job was also changed elsewhere (1 edit). Yours were put on top."


def opened(visits: Visit, count: int) -> list[Hands]:
    """Return so many devices at one job that has parts and no collection of conductors."""
    devices = [visits() for _ in range(count)]
    job = devices[0].make_job({"as-left": {"parts": PARTS}})
    for hands in devices:
        hands.open_job(job)
    return devices


def ends(hands: Hands) -> list[list[str]]:
    return sorted(sorted(one["ends"]) for one in hands.layout()["conductors"].values())


def test_the_first_conductors_of_two_devices_are_both_kept(visits: Visit) -> None:
    ada, ben = opened(visits, 2)
    ada.pull("fb.G", "tc.G")
    ben.expects_refusal = True
    start_pull(ben, "fb.Y", "tc.Y")
    expect(ben.state()).to_have_text(TOLD)
    assert ends(ada) == [["fb.G", "tc.G"], ["fb.Y", "tc.Y"]]


@pytest.mark.slow
def test_undoing_the_first_one_leaves_that_of_the_other(visits: Visit) -> None:
    ada, ben = opened(visits, 2)
    ada.pull("fb.G", "tc.G")
    ben.expects_refusal = ada.expects_refusal = True
    start_pull(ben, "fb.Y", "tc.Y")
    expect(ben.state()).to_have_text(TOLD)
    ada.press("Control+z")
    expect(ada.state()).to_have_text(TOLD)
    assert ends(ada) == [["fb.Y", "tc.Y"]]


def test_undo_by_oneself_leads_back_to_the_same_document(visits: Visit) -> None:
    (hands,) = opened(visits, 1)
    before = hands.document()
    hands.pull("fb.G", "tc.G")
    with hands.saved():
        hands.press("Control+z")
    assert hands.document() == before


def set_aside(hands: Hands, rule: str, button: str, reason: str) -> None:
    hands.page.locator(f'[data-rule="{rule}"]').get_by_role("button", name=button).click()
    hands.page.keyboard.type(reason)
    hands.press("Enter")


def test_the_first_reasons_of_two_devices_are_both_kept_and_undone_one_by_one(visits: Visit) -> None:
    ada, ben = visits(), visits()
    job = ada.open_parts(HEATING, *HEATING_WIRES, ("fb.G", None), ("fb.R", "fb.C"))
    ben.open_job(job)
    with ada.saved():
        set_aside(ada, "conductor-end-unlanded", "Set aside", "for the fan, next week")
    ada.expects_refusal = ben.expects_refusal = True
    set_aside(ben, "hot-to-common-short", "Known, still open", "breaker locked until Monday")
    expect(ben.state()).to_have_text(TOLD)
    reasons = [one["reason"] for one in ada.document()["records"]["accepted"]]
    assert reasons == ["for the fan, next week", "breaker locked until Monday"]
    ada.page.click("#undo")
    expect(ada.state()).to_have_text(TOLD)
    assert [one["reason"] for one in ada.document()["records"]["accepted"]] == ["breaker locked until Monday"]


@pytest.mark.slow
def test_two_first_ones_of_a_device_without_a_server_are_both_kept(visits: Visit, serving: Serving) -> None:
    (hands,) = opened(visits, 1)
    hands.page.wait_for_function(
        r"() => performance.getEntriesByType('resource').some(({name}) => /\/api\/jobs\/[^/?]+$/.test(name))"
    )
    serving.stop()
    start_pull(hands, "fb.G", "tc.G")
    away(hands, "1 edit")
    start_pull(hands, "fb.Y", "tc.Y")
    away(hands, "2 edits")
    serving.start()
    expect(hands.state()).to_have_text("Back. 2 edits saved and checked.")
    assert ends(hands) == [["fb.G", "tc.G"], ["fb.Y", "tc.Y"]]
