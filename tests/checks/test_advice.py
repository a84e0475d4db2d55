"""Advice and check tell the same: danger is advised exactly where landing there makes a new danger."""

from __future__ import annotations

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.checks.advice import landing_advice
from app.checks.check import check_layout
from app.checks.samples import boiler_zone, dual_fuel, gas_and_cooling, heat_pump, two_transformers
from app.job.model import Conductor, Layout
from app.job.refusal import Refused
from app.job.sketch import sketch, sketch_job

SYSTEMS = {
    "gas-and-cooling": gas_and_cooling(),
    "heat-pump": heat_pump(),
    "dual-fuel": dual_fuel(),
    "two-transformers": two_transformers(),
    "boiler-zone": boiler_zone(),
    "half-wired": gas_and_cooling({"w2": None, "w4": None, "w5": "fb.Y -", "w8": None}),
}
STARTS = {
    "gas-and-cooling": ["fb.R", "fb.W", "ou.C"],
    "heat-pump": ["tc.O/B", "ou.L"],
    "dual-fuel": ["tc.S1", "tc.H1"],
    "two-transformers": ["tc.RC", "fb.C", "xf2.L1"],
    "boiler-zone": ["bc.T1", "bc.T2", "tc.W"],
    "half-wired": ["fb.R", "ou.C", "tc.Y"],
}


def advised(layout: Layout, start: str) -> dict[str, str]:
    """Return the verdict for every terminal when a new conductor is pulled from ``start``."""
    advice = landing_advice(sketch_job(layout), "as-left", builtin_catalogue(), start=start)
    return {terminal: said.verdict for terminal, said in advice.items()}


def dangers(layout: Layout) -> set[tuple[str, str]]:
    """Return the dangers of a layout by rule and main subject."""
    report = check_layout(sketch_job(layout), "as-left", builtin_catalogue())
    return {(each.rule, each.subjects[0]) for each in report.findings if each.severity == "danger"}


def landed(layout: Layout, start: str, goal: str) -> Layout:
    return layout.model_copy(update={"conductors": {**layout.conductors, "new": Conductor(ends=(start, goal))}})


PULLED = [pytest.param(system, start, id=f"{system}/{start}") for system, starts in STARTS.items() for start in starts]


def assert_advice_agrees_with_check(layout: Layout, start: str) -> None:
    before = dangers(layout)
    verdicts = advised(layout, start)
    for goal, verdict in verdicts.items():
        if goal != start:
            assert (verdict == "danger") == bool(dangers(landed(layout, start, goal)) - before), (start, goal)


@pytest.mark.parametrize(("system", "start"), PULLED)
def test_danger_is_advised_exactly_where_it_would_be_found(system: str, start: str) -> None:
    assert_advice_agrees_with_check(SYSTEMS[system], start)


@pytest.mark.slow
@pytest.mark.parametrize("system", SYSTEMS)
def test_danger_is_advised_from_every_terminal(system: str) -> None:
    layout = SYSTEMS[system]
    for start in builtin_terminals(layout):
        assert_advice_agrees_with_check(layout, start)


def builtin_terminals(layout: Layout) -> list[str]:
    catalogue = builtin_catalogue()
    return [f"{part}.{letter}" for part in layout.parts for letter in catalogue.terminals_of(layout, part)]


def test_the_rightful_place_of_a_missing_wire_is_fine() -> None:
    for system in (gas_and_cooling(), heat_pump(), dual_fuel(), two_transformers(), boiler_zone()):
        for name, conductor in system.conductors.items():
            start, goal = conductor.landed()
            without = {each: other for each, other in system.conductors.items() if each != name}
            assert advised(system.model_copy(update={"conductors": without}), start)[goal] == "fine", (start, goal)


def test_a_call_for_nobody_is_odd() -> None:
    verdicts = advised(gas_and_cooling({"w7": None}), "fb.R")
    assert verdicts["ou.Y"] == "odd"


def test_a_jumper_past_the_thermostat_is_a_danger() -> None:
    verdicts = advised(gas_and_cooling(), "fb.R")
    assert verdicts["ou.Y"] == "danger"
    assert verdicts["tc.W"] == "danger"


def test_a_way_around_a_float_is_a_danger() -> None:
    layout = gas_and_cooling({"w7": "fb.Y fl.A", "w9": "fl.B ou.Y"}, {"fl": "float-switch"})
    assert advised(layout, "fb.Y")["ou.Y"] == "danger"
    assert advised(layout, "fl.A")["fl.B"] == "danger"
    assert advised(layout, "fl.A")["tc.Y"] == "odd"


def test_crossing_heat_and_cooling_is_odd() -> None:
    assert advised(gas_and_cooling({"w4": None}), "fb.W")["tc.Y"] == "odd"


def test_a_full_terminal_is_odd() -> None:
    layout = gas_and_cooling({"w9": "ou.C fb.C"})
    assert advised(layout, "xf.C")["ou.C"] == "odd"


def test_moving_an_end_starts_from_the_other_end() -> None:
    job = sketch_job(gas_and_cooling())
    moved = landing_advice(job, "as-left", builtin_catalogue(), conductor="w4", end=1)
    pulled = landing_advice(sketch_job(gas_and_cooling({"w4": "fb.W -"})), "as-left", builtin_catalogue(), start="fb.W")
    assert {name: said.verdict for name, said in moved.items() if name != "tc.W"} == {
        name: said.verdict for name, said in pulled.items() if name != "tc.W"
    }
    assert moved["tc.W"].verdict == "fine"


def test_an_end_that_comes_from_nowhere_does_no_harm() -> None:
    job = sketch_job(gas_and_cooling({"w9": "- -"}))
    advice = landing_advice(job, "as-left", builtin_catalogue(), conductor="w9", end=0)
    assert {said.verdict for said in advice.values()} <= {"fine", "odd"}
    assert set(advice) == set(builtin_terminals(job.layouts["as-left"]))


def test_every_verdict_says_why() -> None:
    advice = landing_advice(sketch_job(dual_fuel()), "as-left", builtin_catalogue(), start="tc.W1")
    assert all(said.why.endswith(".") and len(said.why) > 8 for said in advice.values())


@pytest.mark.parametrize(
    ("code", "asked"),
    [
        ("unknown-conductor", {"conductor": "w99", "end": 0}),
        ("unknown-end", {"conductor": "w1", "end": 2}),
        ("unknown-terminal", {"start": "fb.Q"}),
    ],
)
def test_what_does_not_exist_is_refused(code: str, asked: dict[str, object]) -> None:
    layout = sketch({"fb": "furnace-board", "xf": "control-transformer"}, "xf.R fb.XF")
    with pytest.raises(Refused) as refused:
        landing_advice(sketch_job(layout), "as-left", builtin_catalogue(), **asked)  # type: ignore[arg-type]
    assert refused.value.code == code


def test_a_landing_behind_the_fuse_of_a_board_is_said() -> None:
    loose = gas_and_cooling({"w1": None})
    said = landing_advice(sketch_job(loose), "as-left", builtin_catalogue(), start="xf.R")
    assert said["fb.XF"].verdict == "fine"
    assert said["fb.R"].verdict == "odd"
    assert (
        said["fb.R"].why == "A way around the fuse of Furnace control board, one stage: on a short nothing would open."
    )


def test_a_wire_across_a_fuse_is_said() -> None:
    said = landing_advice(sketch_job(gas_and_cooling()), "as-left", builtin_catalogue(), start="xf.R")
    assert "A way around the fuse" in said["fb.R"].why
    assert "A way around the fuse" in said["tc.R"].why
    assert "A way around the fuse" not in said["fb.XF"].why
