"""How many situations are looked at where ends were not seen, and each situation may stand in several ways."""

from __future__ import annotations

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.checks.check import LayoutReport, check_layout
from app.checks.outcome import MOST_IN_DOUBT, MOST_WAYS_IN_DOUBT
from app.checks.samples import dual_fuel
from app.circuit.worlds import MOST_WORLDS
from app.job.model import End, Layout, UnknownEnd
from app.job.names import part_of
from app.job.sketch import Parts, sketch_job
from tests.demo_jobs.demos import NAMES, SCHOOL_ROW, demo


def with_relays(count: int) -> LayoutReport:
    """A dual-fuel system with relays of which nobody has seen what calls them, each in the lead of the next; a second
    thermostat makes its situations more."""
    relays: Parts = {
        "t2": "thermostat-heat-only",
        **dict.fromkeys((f"k{at}" for at in range(count)), "isolation-relay"),
    }
    wires = {"supply2": "fb.R t2.R", "heat2": "t2.W fb.W"}
    wires |= {f"call{at}": f"k{at}.A1 ?" for at in range(count)}
    wires |= {f"back{at}": f"k{at}.A2 fb.C" for at in range(count)}
    wires |= {f"lead{at}": f"{'fb.R' if at == 0 else f'k{at - 1}.NO'} k{at}.COM" for at in range(count)}
    return check_layout(sketch_job(dual_fuel(wires, relays)), "as-left", builtin_catalogue())


def is_limited(report: LayoutReport) -> bool:
    return any(finding.rule == "situation-limit-reached" for finding in report.findings)


def test_where_the_ways_are_too_many_the_simplest_situations_are_looked_at_and_that_is_said() -> None:
    few, many = with_relays(1), with_relays(4)
    assert MOST_WORLDS >= 2**4
    assert not is_limited(few)
    assert few.coverage.situations_made == few.coverage.situations_possible
    assert is_limited(many)
    assert many.coverage.situations_made < min(MOST_IN_DOUBT, many.coverage.situations_possible)
    assert few.coverage.situations_possible * 2**4 > MOST_WAYS_IN_DOUBT


def nothing_followed(layout: Layout, part: str) -> Layout:
    """The same layout as somebody knows it who has looked behind one part and followed no wire from there."""
    conductors = {
        name: conductor.model_copy(update={"ends": _seen_at(conductor.ends, part)})
        for name, conductor in layout.conductors.items()
    }
    return layout.model_copy(update={"conductors": conductors})


def _seen_at(ends: tuple[End, End], part: str) -> tuple[End, End]:
    here = [isinstance(end, str) and part_of(end) == part for end in ends]
    if sum(here) != 1:
        return ends
    unseen = UnknownEnd(unknown="not followed")
    return (ends[0], unseen) if here[0] else (unseen, ends[1])


@pytest.mark.parametrize("name", [name for name in NAMES if name != SCHOOL_ROW])
def test_a_thermostat_of_which_no_wire_was_followed_is_looked_at_in_every_situation(name: str) -> None:
    opened = demo(name)
    chosen = opened.job.default_layout()
    layout = opened.job.layouts[chosen]
    controls = [part for part, said in layout.parts.items() if said.kind.startswith("thermostat")]
    for control in controls[:1]:
        half_seen = {**opened.job.layouts, chosen: nothing_followed(layout, control)}
        report = check_layout(opened.job.model_copy(update={"layouts": half_seen}), chosen, opened.catalogue)
        assert not is_limited(report)
        assert report.coverage.situations_made == report.coverage.situations_possible
