"""Where a line is cut: the same mark on both sheets, which is the line's own name, such as that of a conductor.

Rules of the file: a conductor that is cut once is marked ``w14``; one that is cut in several places gets letters after
its name, ``w14 a``, ``w14 b``, so that a mark stands at one cut and nowhere else.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from string import ascii_lowercase
from typing import NamedTuple

from app.drawing.frame.measured import Segment
from app.drawing.frame.tiling import Border, Cut


class MatchMark(NamedTuple):
    """A mark where a line goes on: ``at`` is its place along the edge in u."""

    line: str
    words: str
    at: int


def marks_at(
    borders: Iterable[Border], segments: Sequence[Segment], called: Mapping[str, str]
) -> Mapping[Border, tuple[MatchMark, ...]]:
    """Return the marks of every border from its beginning to its end."""
    crossing = {border: _crossing(border, segments) for border in borders}
    places = sorted({(border.cut, at, name) for border, found in crossing.items() for at, name in found}, key=_in_order)
    # What came off may be called as something that is there now: then letters tell those two apart as well.
    often = Counter(called.get(name, name) for _cut, _at, name in places)
    told: Counter[str] = Counter()
    words = {}
    for cut, at, name in places:
        said = called.get(name, name)
        words[cut, at, name] = f"{said} {_letter(told[said])}" if often[said] > 1 else said
        told[said] += 1
    return {
        border: tuple(MatchMark(name, words[border.cut, at, name], at) for at, name in found)
        for border, found in crossing.items()
    }


def _crossing(border: Border, segments: Sequence[Segment]) -> list[tuple[int, str]]:
    """Return where lines cross a border, and which."""
    cut, along = border.cut, border.along
    return sorted(
        {
            (s.across, s.line)
            for s in segments
            if s.level is cut.level and along.start <= s.across <= along.end and _crosses(s, cut)
        }
    )


def _in_order(place: tuple[Cut, int, str]) -> tuple[int, int, int, str]:
    cut, at, name = place
    return -1 if cut.band is None else cut.band, cut.end, at, name


def _crosses(segment: Segment, cut: Cut) -> bool:
    return any(segment.along.start < at < segment.along.end for at in (cut.end, cut.start))


def _letter(number: int) -> str:
    """Return a, b, … z, then aa, ab, …"""
    more, last = divmod(number, len(ascii_lowercase))
    return (_letter(more - 1) if more else "") + ascii_lowercase[last]
