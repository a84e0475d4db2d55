"""A change in the words in which a technician would say it; ``Change.words`` are those in which it was asked for.

Rules of the file: a change is worded in one place. Charts and the bench join what is told here to a line, the table of
a run has it in columns.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from app.catalogue.called import called
from app.catalogue.catalogue import Catalogue
from app.catalogue.setting_words import setting_called, value_words
from app.catalogue.spoken import plain
from app.circuit.network import Circuit
from app.circuit.situation import Fault
from app.job.model import Layout
from app.job.names import short_names
from app.job.temperatures import Units, temperature_words
from app.sequence.change import Change

CALLS, IDLE = "calls", "idle"


class Made(NamedTuple):
    """What a change makes otherwise: of which part (empty for what concerns all), what, and what it becomes."""

    part: str
    what: str
    now: str


def made_by(change: Change, circuit: Circuit, units: Units) -> Iterator[Made]:
    """Yield all that a change makes otherwise: ``tc``, ``calls``, ``heat 1 and fan``."""
    layout, catalogue = circuit.layout, circuit.catalogue
    for part, calls in change.calls.items():
        yield Made(part, CALLS, calls_words(calls))
    for name, value in change.set.items():
        part, _, own = name.partition(".")
        kind = catalogue.kind_of(layout.parts[part]) if part in layout.parts else None
        yield Made(part, setting_called(kind, own), value_words(kind, own, value, units))
    for state in ("off", "on"):
        supplies = [supply for supply, now in change.mains.items() if now == state]
        if supplies:
            yield Made("", f"supply {' and '.join(supplies)}", state)
    if change.supply_percent is not None:
        yield Made("", "supply", f"at {change.supply_percent:g} %")
    if change.outdoor_c is not None:
        yield Made("", "outdoors", temperature_words(change.outdoor_c, units))
    for fault in change.faults:
        yield Made("", plain(fault.is_), broken_words(fault, layout, catalogue))


def change_words(change: Change, circuit: Circuit, units: Units, named: Callable[[str], str] = str) -> str:
    """Return what a change does: ``tc calls heat 1 and fan``, ``outdoors 23 °F``, ``supply main off``.

    ``named`` gives the name of a part by its id.
    """
    return ", ".join(_joined(made, named) for made in made_by(change, circuit, units))


def said_of(
    changes: Iterable[Change], circuit: Circuit, units: Units, named: Callable[[str], str] = str
) -> Mapping[str, str]:
    """Return the words of each change by those in which it was asked for, which causes hold."""
    return {change.words: change_words(change, circuit, units, named) for change in changes}


def calls_words(calls: Sequence[str]) -> str:
    """Return what a control asks for: ``heat 1 and aux heat``, ``idle`` for nothing."""
    return " and ".join(plain(call) for call in calls) or IDLE


def fault_words(fault: Fault, layout: Layout, catalogue: Catalogue) -> str:
    """Return what is broken: ``conductor open w3``."""
    return f"{plain(fault.is_)} {broken_words(fault, layout, catalogue)}"


def broken_words(fault: Fault, layout: Layout, catalogue: Catalogue) -> str:
    """Return where something is broken: ``w3``, ``fb.R, fb.C``, ``gas valve of fb``."""
    at = [fault.at] if isinstance(fault.at, str) else fault.at
    return ", ".join(_subject_words(subject, layout, catalogue) for subject in at)


def _subject_words(subject: str, layout: Layout, catalogue: Catalogue) -> str:
    sort, _, name = subject.rpartition(":")
    part, _, own = name.partition(".")
    if sort == "element" and part in layout.parts:
        return f"{called(catalogue.kind_of(layout.parts[part]), own)} of {part}"
    return short_names(layout.conductors).get(name, name)


def _joined(made: Made, named: Callable[[str], str]) -> str:
    if made.what == CALLS and made.now == IDLE:
        return f"{named(made.part)} {IDLE}"
    return " ".join(words for words in (named(made.part) if made.part else "", made.what, made.now) if words)
