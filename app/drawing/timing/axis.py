"""How wide time is on the axis: to scale where that can be read, wider or cut short where it cannot.

Rules of the file: the axis runs through *columns*, one a step of an instant that something happens at. Between two
instants lies a *stretch*. Its width is its time times one scale for the whole chart; where that leaves too little room
it is drawn wider than it lasts, and where it would take too much it is cut, and either is marked on the axis. A longer
stretch never looks shorter than its own room needs.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import SMALL
from app.drawing.timing.chart import When
from app.drawing.timing.words import clock_of

Manner = Literal["to-scale", "wider", "cut", "no-time"]
"""How a stretch is drawn; ``no-time`` lies between two steps of one instant."""

CIRCLE_ROOM = 26
"""From an edge to the right: its numbered circle."""
WORDS_ROOM = 34
"""What every stretch leaves for words on the rows."""
AROUND_WORDS = 5
"""What stays free before and behind words on a row."""
HOOK_ROOM = 12
"""From an edge to the left, before the first lane of the links that end there."""
LANE = 6
LONGEST = 204
"""A stretch that would be wider is cut, where it does not need that much."""
TICK_GAP = 10
SCALES = tuple(digit * 10.0**power for power in range(-6, 4) for digit in (1, 2, 5))
"""Widths of a second in u, of which one is chosen: so many that there is one for milliseconds and one for days."""


class Stretch(NamedTuple):
    """The way from one column to the next: its width in u, and how it is drawn."""

    width: int
    manner: Manner


def left_room(lanes: int) -> int:
    """Return the room that a column needs to its left for the lanes of its links."""
    return HOOK_ROOM + lanes * LANE if lanes else 4


def stretches(columns: Sequence[When], lanes: Sequence[int], words: Sequence[int] | None = None) -> list[Stretch]:
    """Return the stretch from each column to the next.

    Args:
        columns: in the order of the axis.
        lanes: how many lanes of links end at each.
        words: how wide the words are that have to find room in each stretch, if there are any.
    """
    pairs = list(pairwise(range(len(columns))))
    wide = words or [0] * len(pairs)
    needs = [_need(columns[one], columns[other], lanes[other], wide[one]) for one, other in pairs]
    lasts_ms = [columns[other].at_ms - columns[one].at_ms for one, other in pairs]
    scale = _scale(lasts_ms, needs)
    return [_stretch(ms, need, scale) for ms, need in zip(lasts_ms, needs, strict=True)]


def _need(one: When, other: When, lanes: int, words: int) -> int:
    least = CIRCLE_ROOM + left_room(lanes)
    if one.at_ms == other.at_ms:
        return least
    ticks = (width_of(clock_of(one.at_ms), SMALL) + width_of(clock_of(other.at_ms), SMALL)) // 2 + TICK_GAP
    return max(least + WORDS_ROOM, least + words + 2 * AROUND_WORDS if words else 0, ticks)


def _scale(lasts_ms: Sequence[int], needs: Sequence[int]) -> float:
    """Return the scale under which most stretches are true, the smallest of several."""
    pairs = [(ms, need) for ms, need in zip(lasts_ms, needs, strict=True) if ms]

    def true_under(scale: float) -> int:
        return sum(need <= ms * scale / 1000 <= max(LONGEST, need) for ms, need in pairs)

    return max(SCALES, key=lambda scale: (true_under(scale), -scale))


def _stretch(ms: int, need: int, scale: float) -> Stretch:
    if not ms:
        return Stretch(need, "no-time")
    wide = ms * scale / 1000
    if wide < need:
        return Stretch(need, "wider")
    if wide > max(LONGEST, need):
        return Stretch(max(LONGEST, need), "cut")
    return Stretch(round(wide), "to-scale")
