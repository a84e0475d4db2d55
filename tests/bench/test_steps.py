"""Undo and redo, to the beginning, over a reload, after somebody else."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, SCREENS, Open, in_the_long_run
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES


def edited(opens: Open) -> tuple[Hands, list[object]]:
    """Make four steps of four sorts; return the document after each, the start first."""
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    seen = [hands.document()]
    hands.pull("fb.G", "tc.G")
    seen.append(hands.document())
    pick(hands, "part:tc")
    hands.page.locator('[data-f="tc:label"]').fill("Hall thermostat")
    with hands.saved():
        hands.press("Enter")
    seen.append(hands.document())
    with hands.saved():
        hands.page.click("[data-action=delete]")
    seen.append(hands.document())
    hands.add_part("float-switch")
    seen.append(hands.document())
    return hands, seen


def pick(hands: Hands, key: str) -> None:
    hands.page.locator(f'[data-key="{key}"]').focus()
    hands.press("Space")


def test_to_the_beginning_and_forth_again(opens: Open) -> None:
    hands, seen = edited(opens)
    undo = hands.page.locator("[data-action=undo]")
    expect(undo).to_contain_text("Undo: add")
    for before in reversed(seen[:-1]):
        hands.undo()
        assert hands.document() == before
    expect(undo).to_have_attribute("aria-disabled", "true")
    with hands.nothing_sent():
        undo.click(force=True)
    for after in seen[1:]:
        hands.redo()
        assert hands.document() == after


def test_a_reload_keeps_undo_and_redo_with_their_names(opens: Open) -> None:
    hands, seen = edited(opens)
    hands.undo()
    undo, redo = hands.page.locator("[data-action=undo]"), hands.page.locator("[data-action=redo]")
    names = undo.inner_text(), redo.inner_text()
    hands.page.reload()
    hands.wait_ready()
    expect(undo).to_have_text(names[0])
    expect(redo).to_have_text(names[1])
    hands.redo()
    assert hands.document() == seen[-1]
    for before in reversed(seen[:-1]):
        hands.undo()
        assert hands.document() == before


def test_nudges_within_a_second_are_one_step(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    pick(hands, "part:xf")
    for _ in range(3):
        with hands.saved():
            hands.press("Shift+ArrowDown")
    assert hands.layout()["parts"]["xf"]["at"] == [0, 156]
    with hands.saved():
        hands.press("Control+z")
    assert hands.layout()["parts"]["xf"]["at"] == [0, 120]
    with hands.saved():
        hands.press("Control+Shift+z")
    assert hands.layout()["parts"]["xf"]["at"] == [0, 156]


def test_what_somebody_else_did_is_not_mine_to_undo(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.change_elsewhere({"op": "add", "path": "/layouts/as-left/parts/xf/note", "value": "theirs"})
    hands.page.reload()
    hands.wait_ready()
    expect(hands.page.locator("[data-action=undo]")).to_have_attribute("aria-disabled", "true")


def test_an_undo_after_somebody_else_is_refused_and_said(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.expects_refusal = True
    pick(hands, "part:tc")
    hands.page.locator('[data-f="tc:label"]').fill("Mine")
    with hands.saved():
        hands.press("Enter")
    hands.change_elsewhere({"op": "replace", "path": "/layouts/as-left/parts/tc/label", "value": "Theirs"})
    hands.page.click("[data-action=undo]")
    expect(hands.state()).to_contain_text("no longer fits: rename thermostat to Mine")
    assert hands.layout()["parts"]["tc"]["label"] == "Theirs"
    expect(hands.page.locator('[data-part="tc"] .name')).to_have_text("Theirs")


@pytest.mark.parametrize("screen", ["laptop", *in_the_long_run("tablet")])
def test_the_name_of_a_step_is_seen_as_far_as_there_is_room_and_is_told_whole(opens: Open, screen: str) -> None:
    hands = opens(SCREENS[screen])
    hands.open_parts({"ot": {"kind": "outdoor-temperature-switch", "label": "Switch on the north wall"}})
    pick(hands, "part:ot")
    field = hands.page.locator('[data-setting="switches_at_c"]')
    with hands.saved():
        field.fill("25")
        hands.press("Tab")
    undo, redo = (hands.page.locator(f"[data-action={does}]") for does in ("undo", "redo"))
    whole = "Undo: set to 25 °F: outdoor temperature at which it switches of switch on the north wall"
    expect(undo).to_have_attribute("title", whole)
    expect(undo).to_have_accessible_name(whole)
    lines = "node => node.clientHeight / parseFloat(getComputedStyle(node).lineHeight)"
    assert undo.locator(".step-words").evaluate(lines) > 2.5, "three lines of it are seen"
    before = undo.bounding_box()
    hands.undo()
    expect(redo).to_contain_text("Redo: set")
    assert undo.bounding_box() == pytest.approx(before, abs=0.5), "what one presses stays where it is"
