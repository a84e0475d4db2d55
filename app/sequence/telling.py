"""A run in words: one line an event, in the order in which a person at the equipment would see and hear it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from app.catalogue.called import called
from app.catalogue.kind import Contact, Input, JumperElement
from app.catalogue.spoken import effect_words, plain, upper_first
from app.circuit.network import Circuit
from app.job.temperatures import Units
from app.sequence.change import Change
from app.sequence.change_words import made_by, said_of
from app.sequence.event import CHANGE, TIMER, Event
from app.sequence.moments import milliseconds
from app.sequence.run import Run


def clock_words(seconds: float) -> str:
    """Return seconds as minutes and seconds: ``2:05``, with as many decimals as there are: ``0:00.05``."""
    minutes, rest = divmod(milliseconds(seconds), 60_000)
    whole, thousandths = divmod(rest, 1000)
    return f"{minutes}:{whole:02d}" + (f".{thousandths:03d}".rstrip("0") if thousandths else "")


Line = tuple[str, str, str, str, str]
"""When, part, what, what it has become, because of what."""


def lines_of(
    run: Run, circuit: Circuit, changes: Sequence[Change] = (), *, everything: bool = False, units: Units = "si"
) -> Iterator[Line]:
    """Yield a line for each change from outside, and for each event behind those of its instant.

    Args:
        run: the run.
        circuit: its layout.
        changes: those of the run; the lines of a change have no cause.
        everything: all contacts, jumpers and inputs too; without them a line is told of what hums, burns or turns, of
            the states in between, and of the contacts and inputs by which that begins.
        units: those of the job.
    """
    told = set(range(len(run.events))) if everything else worth_telling(run.events, circuit)
    said = said_of(changes, circuit, units)
    ahead = sorted(changes, key=lambda change: milliseconds(change.at_s))
    for at, event in enumerate(run.events):
        while ahead and milliseconds(ahead[0].at_s) <= milliseconds(event.at_s):
            yield from _change_lines(ahead.pop(0), circuit, units)
        if at in told:
            part, words = subject_words(event.what, circuit)
            because = because_words(event.cause, part, circuit, said)
            yield clock_words(event.at_s), part, words, plain(event.now), because
    for change in ahead:
        yield from _change_lines(change, circuit, units)


def runs_words(run: Run) -> str:
    """Return what runs at the end, as a sentence."""
    point = run.moments[-1].point
    runs = _effects_words(point.effects)
    unknown = _effects_words(point.effects_in_doubt)
    said = f"Then runs: {runs}." if runs else "Then nothing runs."
    return f"{said} Not known: {unknown}." if unknown else said


def end_words(run: Run) -> str:
    """Return how a run ended, as a sentence."""
    at = clock_words(run.until_s)
    if run.ends == "settled":
        return f"Ends settled: nothing more comes after {at}."
    if run.ends == "cut off":
        return f"Cut off at {at}, with something still to come."
    if not run.period_s:
        return f"Never settles: at {at} something pulls in and lets go without end."
    return f"Cycles: at {at} it stands as it did {clock_words(run.period_s)} before, and so on without end."


def warning_words(run: Run) -> Iterator[str]:
    """Yield what did not settle, and what the run takes for granted, as sentences."""
    circuit = run.moments[0].circuit
    for at_s, unsettled in run.unsettled:
        elements = _joined(_element_words(element, circuit) for element in unsettled.elements)
        if unsettled.why == "race":
            first = _element_words(min(unsettled.outcomes), circuit)
            yield f"At {clock_words(at_s)} {elements} race: {first} is taken to move first."
        elif unsettled.why == "chatter":
            yield f"At {clock_words(at_s)} {elements} chatter: they pull in and let go in turn."
        else:
            yield f"At {clock_words(at_s)} no settled state was found ({elements})."
    for assumed in run.assumes:
        yield f"Taken for granted: {assumed}."


def _effects_words(effects: Iterable[tuple[str, str]]) -> str:
    return _joined(f"{part} {effect_words(effect)}" for part, effect in effects)


def _change_lines(change: Change, circuit: Circuit, units: Units) -> Iterator[Line]:
    """Yield what a change makes otherwise, a line each."""
    for made in made_by(change, circuit, units):
        yield clock_words(change.at_s), *made, ""


def worth_telling(events: Sequence[Event], circuit: Circuit) -> set[int]:
    """Return the places of what a person sees and hears, and of the contacts and inputs by which that begins."""
    causes = list(causes_of(events))
    told: set[int] = set()
    begun: set[int] = set()
    for at, event in enumerate(events):
        if not _is_small(event, circuit):
            told.add(at)
        elif event.cause.startswith(CHANGE) or causes[at] in begun:
            begun.add(at)
    for at in reversed(range(len(events))):
        cause = causes[at]
        if at in told and cause is not None and cause in begun:
            told.add(cause)
    return told


def causes_of(events: Sequence[Event]) -> Iterator[int | None]:
    """Yield for each event the place of the earlier event of its instant that moved it."""
    last: dict[tuple[float, str], int] = {}
    for at, event in enumerate(events):
        yield last.get((event.at_s, event.cause))
        last[event.at_s, event.what] = at


def _is_small(event: Event, circuit: Circuit) -> bool:
    sort, _, name = event.what.partition(":")
    return sort == "element" and isinstance(circuit.elements.get(name), Contact | JumperElement | Input)


def subject_words(what: str, circuit: Circuit) -> tuple[str, str]:
    """Return (part, name in words) of a subject string: ``("tc", "contact R to W")``."""
    sort, _, name = what.partition(":")
    if sort == "effect":
        part, _, effect = name.partition(":")
        return part, upper_first(effect_words(effect))
    part, _, own = name.partition(".")
    kind = circuit.catalogue.kind_of(circuit.layout.parts[part]) if part in circuit.layout.parts else None
    return part, called(kind, own)


def because_words(cause: str, part: str, circuit: Circuit, said: Mapping[str, str]) -> str:
    """Return a cause in words, as they stand behind something of ``part``: ``contact R to W (tc)``.

    ``said`` gives the words of changes by those in which they were asked for.
    """
    if cause.startswith(CHANGE):
        asked = cause.removeprefix(CHANGE)
        return said.get(asked, asked)
    if cause.startswith(TIMER):
        return "its time is up"
    other, words = subject_words(cause, circuit)
    return words if other == part else f"{words} ({other})"


def _element_words(name: str, circuit: Circuit) -> str:
    part, words = subject_words(f"element:{name}", circuit)
    return f"{words} of {part}"


def _joined(names: Iterable[str]) -> str:
    return ", ".join(names)
