"""What was done from outside, as lines: calls, supplies, switches, supply volts, weather, faults."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from app.catalogue.catalogue import Catalogue, settings_of
from app.catalogue.kind import Choice
from app.catalogue.setting_words import setting_called, value_words
from app.circuit.situation import Fault, Situation
from app.drawing.timing.level import Level, level_of_position
from app.job.model import Layout
from app.job.temperatures import Units, temperature_words
from app.sequence.change import Change
from app.sequence.change_words import calls_words, fault_words
from app.sequence.moments import milliseconds
from app.sequence.run import Run


class Stand(NamedTuple):
    """What something is made to be: in words, and as a level."""

    words: str
    level: Level


class Made(NamedTuple):
    """At a time something was made to stand otherwise. ``said`` are the words of the change, as causes name it."""

    at_ms: int
    said: str
    stand: Stand


@dataclass(frozen=True, slots=True)
class DoneLine:
    """One thing that changes move from outside; ``what`` is ``calls:tc``, ``set:fb.limit``, ``supply:main`` …"""

    what: str
    part: str
    words: str
    start: Stand
    made: list[Made] = field(default_factory=list)


def done_lines(run: Run, layout: Layout, catalogue: Catalogue, units: Units = "si") -> list[DoneLine]:
    """Return a line for each thing that the changes of a run move: calls, supplies, positions, weather, faults.

    What comes after the end of the run was never done. ``layout`` and ``catalogue`` say what the positions were before,
    ``units`` are those of the job.
    """
    start = run.moments[0].situation
    lines: dict[str, DoneLine] = {}
    for change in run.changes:
        at_ms = milliseconds(change.at_s)
        if at_ms > milliseconds(run.until_s):
            break
        for blank, stand in _made_by(change, start, layout, catalogue, units):
            lines.setdefault(blank.what, blank).made.append(Made(at_ms, change.words, stand))
    order = ("calls", "supply", "percent", "set", "outdoor", "fault")
    return sorted(lines.values(), key=lambda line: order.index(line.what.partition(":")[0]))


def _made_by(
    change: Change, start: Situation, layout: Layout, catalogue: Catalogue, units: Units
) -> Iterator[tuple[DoneLine, Stand]]:
    """Yield each thing that a change moves, as a line on which nothing has happened, and what it is made to be."""
    for part, calls in change.calls.items():
        yield DoneLine(f"calls:{part}", part, "calls", _called(start.calls.get(part, ()))), _called(calls)
    for supply, now in change.mains.items():
        was = start.mains.get(supply, "on")
        yield DoneLine(f"supply:{supply}", "", f"supply {supply}", _position(was, was)), _position(now, now)
    if change.supply_percent is not None:
        stands = (_value(f"{percent:g} %") for percent in (start.supply_percent, change.supply_percent))
        yield DoneLine("percent:", "", "supply volts", next(stands)), next(stands)
    rest = _positions(start, layout, catalogue, change.set)
    for name, value in change.set.items():
        part, _, own = name.partition(".")
        kind = catalogue.kind_of(layout.parts[part]) if part in layout.parts else None
        stands = (
            _position(one, "" if one is None else value_words(kind, own, one, units)) for one in (rest[name], value)
        )
        yield DoneLine(f"set:{name}", part, setting_called(kind, own), next(stands)), next(stands)
    if change.outdoor_c is not None:
        stands = (_value(temperature_words(outdoor_c, units)) for outdoor_c in (start.outdoor_c, change.outdoor_c))
        yield DoneLine("outdoor:", "", "outdoors", next(stands)), next(stands)
    for fault in change.faults:
        there = Stand("there", "on")
        before = there if fault in start.faults else Stand("not there", "off")
        yield DoneLine(_subject(fault), "", fault_words(fault, layout, catalogue), before), there


def _called(calls: Sequence[str]) -> Stand:
    return Stand(calls_words(calls), "on" if calls else "off")


def _value(words: str) -> Stand:
    return Stand(words, "value")


def _position(value: Choice | None, words: str) -> Stand:
    return Stand(words, level_of_position(value))


def _positions(
    start: Situation, layout: Layout, catalogue: Catalogue, names: Mapping[str, Choice]
) -> dict[str, Choice | None]:
    """Return in which position each of some names was at the beginning."""
    found: dict[str, Choice | None] = {}
    for name in names:
        part, _, own = name.partition(".")
        kind = catalogue.kind_of(layout.parts[part]) if part in layout.parts else None
        rest = settings_of(kind, layout.parts[part]).get(own) if kind is not None else None
        found[name] = start.set.get(name, rest)
    return found


def _subject(fault: Fault) -> str:
    return ":".join(("fault", fault.is_, *([fault.at] if isinstance(fault.at, str) else fault.at)))
