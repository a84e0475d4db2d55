"""The table of what drawings come to: the hard rules hold in it, and the plain router is what it says it is."""

from __future__ import annotations

import pytest

from app.drawing.connection.plan import plan_connection
from app.drawing.surface.geometry import Box, Point
from app.job.sketch import sketch
from tests.demo_jobs.demos import demo
from tests.drawing.generated import CATALOGUE, generated_layout
from tests.drawing.plain_router import Lines as PlainLines
from tests.drawing.plain_router import plain_courses
from tests.drawing.seen import Seen, crossings
from tests.drawing.table import Row, chance_rows, closed_boxes, demo_rows, lines_of, measured, total

SLICE = ("post-office-dual-fuel", "customs-house-three-valves", "net-loft-electric-heat")


def keeps_the_rules(row: Row) -> None:
    """Assert what must come to nothing, and that no way is shorter than the shortest."""
    assert row.broken_rules() == (0, 0, 0, 0), row
    assert row.ours.shared == 0, row
    assert row.ours.length_u >= row.plain.length_u, row


@pytest.mark.parametrize("name", SLICE)
def test_demos_in_the_table_keep_the_rules(name: str) -> None:
    keeps_the_rules(measured(name, demo(name).job.layouts["as-left"], demo(name).catalogue))


@pytest.mark.parametrize(("seed", "parts"), [(101, 12), (102, 17)])
def test_layouts_by_chance_in_the_table_keep_the_rules(seed: int, parts: int) -> None:
    keeps_the_rules(measured("by chance", generated_layout(seed, parts), CATALOGUE))


@pytest.mark.slow
def test_everything_in_the_table_keeps_the_rules() -> None:
    for row in [*demo_rows(), *chance_rows()]:
        keeps_the_rules(row)


def test_the_table_counts_crossings_as_they_are_seen() -> None:
    opened = demo("post-office-dual-fuel")
    layout = opened.job.layouts["as-left"]
    assert measured("", layout, opened.catalogue).ours.crossings == crossings(Seen(layout, opened.catalogue))


def test_lines_on_each_other_are_counted_where_two_plain_ways_share_a_channel() -> None:
    opened = demo("post-office-dual-fuel")
    plan = plan_connection(opened.job.layouts["as-left"], opened.catalogue)
    assert lines_of(plain_courses(plan, closed_boxes(plan)), plan).shared > 0


def test_a_plain_way_is_straight_where_nothing_is_in_its_way() -> None:
    plan = plan_connection(
        sketch(
            {
                "xf": {"kind": "control-transformer", "at": (0, 0)},
                "fb": {"kind": "furnace-board", "at": (600, 0)},
            },
            "xf.R fb.XF",
        ),
        CATALOGUE,
    )
    ((name, course),) = plain_courses(plan, closed_boxes(plan)).items()
    assert len(course) == 2
    assert course[0] == plan.courses[name].pieces[0][0]


def test_a_box_between_two_lines_is_seen() -> None:
    first, last = Point(0, 24), Point(60, 24)
    lines = PlainLines([Box(20, 20, 5, 5)], [first, last])
    assert any(lines.taken[place] for place in range(lines.place(first), lines.place(last), lines.rows))


def test_a_total_is_the_sum_of_its_rows() -> None:
    opened = demo("bell-loft-heat-only")
    row = measured("one", opened.job.layouts["as-left"], opened.catalogue)
    twice = total("two", [row, row])
    assert twice.ours.length_u == 2 * row.ours.length_u
    assert twice.plain.bends == 2 * row.plain.bends
