"""Findings that were set aside: when they stay so, when they are back, and that a danger never is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.checks.accepting import judged, record_of
from app.checks.check import LayoutReport, check_layout
from app.checks.finding import Evidence, Finding
from app.checks.samples import gas_and_cooling, with_wires
from app.checks.told import Told
from app.circuit.situation import Situation
from app.job.model import Accepted, Job, Layout, Records
from app.job.sketch import sketch_job

LOOSE = {"w10": {"ends": ["fb.G", None]}}


def layout_with(*conductors: Mapping[str, Any]) -> Layout:
    """Return a sound layout with these conductors added or changed."""
    sound = gas_and_cooling()
    added = {name: each for several in conductors for name, each in several.items()}
    return Layout.model_validate(
        {**sound.model_dump(mode="json"), "conductors": {**sound.model_dump(mode="json")["conductors"], **added}}
    )


def report(layout: Layout, accepted: Sequence[Accepted] = (), name: str = "as-left") -> LayoutReport:
    job = sketch_job(layout).model_copy(
        update={"layouts": {name: layout}, "records": Records(accepted=tuple(accepted))}
    )
    assert isinstance(job, Job)
    return check_layout(job, name, builtin_catalogue())


def of(rule: str, found: LayoutReport) -> Told:
    (told,) = [each for each in found.told if each.finding.rule == rule]
    return told


def records(rule: str, found: LayoutReport, reason: str = "known to the owner") -> list[Accepted]:
    """Return what would be written down to set a finding aside."""
    return [Accepted(rule=rule, subjects=subjects, reason=reason) for subjects in of(rule, found).records]


UNLANDED = "conductor-end-unlanded"


def test_what_is_set_aside_is_still_among_the_findings() -> None:
    before = report(layout_with(LOOSE))
    after = report(layout_with(LOOSE), records(UNLANDED, before))
    assert after.findings == before.findings
    assert of(UNLANDED, after).is_aside
    assert (of(UNLANDED, after).reason, of(UNLANDED, after).back) == ("known to the owner", "")
    assert not of(UNLANDED, before).is_aside


def test_it_is_back_when_its_conductor_was_moved_and_aside_again_once_moved_back() -> None:
    written = records(UNLANDED, report(layout_with(LOOSE)))
    moved = of(UNLANDED, report(layout_with({"w10": {"ends": ["fb.Y", None]}}), written))
    assert not moved.is_aside
    assert moved.back == "w10 was moved"
    assert of(UNLANDED, report(layout_with(LOOSE), written)).is_aside


def test_what_happens_elsewhere_does_not_bring_it_back() -> None:
    written = records(UNLANDED, report(layout_with(LOOSE)))
    elsewhere = report(layout_with(LOOSE, {"w11": {"ends": [None, None]}}), written)
    assert of(UNLANDED, elsewhere).is_aside


def test_it_is_set_aside_in_one_layout_alone() -> None:
    written = records(UNLANDED, report(layout_with(LOOSE)))
    assert not of(UNLANDED, report(layout_with(LOOSE), written, "as-found")).is_aside


def test_a_record_with_the_subjects_alone_holds_in_every_layout() -> None:
    found = of(UNLANDED, report(layout_with(LOOSE))).finding
    by_hand = [Accepted(rule=UNLANDED, subjects=tuple(reversed(found.subjects)), reason="by hand")]
    for name in ("as-left", "as-found"):
        assert of(UNLANDED, report(layout_with(LOOSE), by_hand, name)).is_aside
    other = [Accepted(rule="chatter", subjects=found.subjects, reason="by hand")]
    assert not of(UNLANDED, report(layout_with(LOOSE), other)).is_aside


def test_it_is_back_when_a_meter_would_read_otherwise() -> None:
    rule = "coil-volts-low"

    def far(metres: float) -> Layout:
        return with_wires(gas_and_cooling(), "w7 w8", length_m=metres, size_awg=22)

    written = records(rule, report(far(60.0)))
    assert of(rule, report(far(60.0), written)).is_aside
    assert of(rule, report(far(60.1), written)).is_aside
    back = of(rule, report(far(90.0), written))
    assert not back.is_aside
    assert " V, not " in back.back


@pytest.mark.parametrize(
    ("volts", "back"), [(24.4, ""), (23.6, ""), (24.6, "R to C at fb now reads 24.6 V, not 24.0 V")]
)
def test_where_no_tolerance_is_named_half_a_volt_is_the_same(volts: float, back: str) -> None:
    def read(volts: float) -> Finding:
        evidence = Evidence(probe=("fb.R", "fb.C"), volts=volts)
        return Finding("chatter", "warning", ("part:fb",), "", "", Situation(), evidence=evidence)

    job = sketch_job(gas_and_cooling())
    then = Accepted(rule="chatter", subjects=record_of(read(24.0), job.layouts["as-left"], "as-left"), reason="known")
    known = job.model_copy(update={"records": Records(accepted=(then,))})
    (now,) = judged([read(volts)], known, "as-left")
    assert (now.is_aside, now.back) == (not back, back)


def test_a_danger_is_known_and_still_open() -> None:
    short = {"w10": {"ends": ["fb.R", "fb.C"]}}
    rule = "hot-to-common-short"
    found = report(layout_with(short), records(rule, report(layout_with(short)), "the breaker is off"))
    assert not of(rule, found).is_aside
    assert (of(rule, found).reason, of(rule, found).back) == ("the breaker is off", "")


def test_a_new_note_of_a_rule_stands_beside_those_that_are_set_aside() -> None:
    rule = "spare-unlabelled"
    two = {"w10": {"ends": [None, None]}, "w11": {"ends": [None, None]}}
    written = records(rule, report(layout_with(two)))
    assert len(written) == 2
    assert of(rule, report(layout_with(two), written)).is_aside
    three = report(layout_with(two, {"w12": {"ends": [None, None]}}), written)
    sides = {each.is_aside: each.finding.subjects for each in three.told if each.finding.rule == rule}
    assert sides == {True: ("conductor:w10", "conductor:w11"), False: ("conductor:w12",)}


@pytest.mark.parametrize("behind", [("layout:as-left", "terminal:fb.R"), ("layout:as-left", "reading:fb.R:fb.C:oops")])
def test_what_cannot_be_understood_behind_the_subjects_never_hides_a_finding(behind: tuple[str, ...]) -> None:
    found = of(UNLANDED, report(layout_with(LOOSE))).finding
    odd = [Accepted(rule=UNLANDED, subjects=(*found.subjects, *behind), reason="")]
    assert not of(UNLANDED, report(layout_with(LOOSE), odd)).is_aside
