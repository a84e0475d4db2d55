"""Moving one part by one step changes the lines that touch it or share a channel with it, and leaves the others."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.demo_jobs.demos import SCHOOL_ROW, demo, layouts
from tests.drawing.channels import channels_of, in_channels_of
from tests.drawing.moves import Move, moves
from tests.drawing.seen import Seen

DUAL_FUEL = "post-office-dual-fuel"
OTHERS_MOST, AWAY_MOST = 0.05, 0.005
"""Shares of lines that may change over all demos. Where more conductors come to a strip than there are lanes, one of
them goes around elsewhere, and which one it is can change; and a line that makes room for another can push on a third.
So it is not nothing that changes away from the channels."""
CROWDED = (
    "assembly-rooms-zone-panel",
    "bathhouse-late-second-bank",
    "lifeboat-house-fresh-and-dry",
    "schoolmasters-house-one-supply",
)
"""Demos in which that happens."""


@pytest.mark.parametrize("name", [DUAL_FUEL, "toll-cottage-shared-conductor", "tannery-cold-in-winter"])
def test_a_step_changes_nothing_away_from_the_channels_of_the_part(name: str) -> None:
    opened = demo(name)
    found = list(moves(opened.job.layouts["as-left"], opened.catalogue))
    assert any(move.away for move in found)
    assert {(move.part, move.step): move.away & move.changed for move in found if move.away & move.changed} == {}


def test_the_channels_of_a_part_hold_its_own_lines_and_not_all_others() -> None:
    opened = demo(DUAL_FUEL)
    plan = Seen(opened.job.layouts["as-left"], opened.catalogue).plan
    assert in_channels_of(plan, ["xf"]) >= {"w1", "w2"}
    assert not in_channels_of(plan, ["xf"]) & {"w13", "w17", "w18"}
    assert all(channel.box.w >= 0 and channel.box.h >= 0 for part in plan.boxes for channel in channels_of(plan, part))


@pytest.mark.slow
def test_a_step_changes_hardly_anything_else_in_any_demo(tell: Callable[[str], None]) -> None:
    found: dict[str, list[Move]] = {}
    for name, layout in layouts():
        every = 10 if name == SCHOOL_ROW else 1
        found.setdefault(name, []).extend(moves(demo(name).job.layouts[layout], demo(name).catalogue, every))
    every_move = [move for each in found.values() for move in each]
    others, changed = _count(every_move, "others"), _count(every_move, "changed")
    away = _count(every_move, "away")
    far = sum(len(move.away & move.changed) for move in every_move)
    tell(f"one part moved by one step: {changed} of {others} lines of other parts change")
    tell(f"one part moved by one step: {far} of {away} lines away from its channels change")
    assert changed <= OTHERS_MOST * others
    assert far <= AWAY_MOST * away
    calm = {name for name, each in found.items() if not any(move.away & move.changed for move in each)}
    assert calm >= {name for name, _ in layouts()} - {*CROWDED, SCHOOL_ROW}


def _count(found: list[Move], what: str) -> int:
    return sum(len(getattr(move, what)) for move in found)
