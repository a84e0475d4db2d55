"""A run in words: one line an event, in the order in which a person at the equipment would see and hear it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from app.catalogue.kind import Contact, Input, JumperElement
from app.catalogue.spoken import effect_words, plain, upper_first
from app.circuit.network import Circuit
from app.sequence.event import CHANGE, TIMER, Event
from app.sequence.run import Run


def clock_words(seconds: float) -> str:
    """Return seconds as minutes and seconds: ``2:05``, with tenths where there are any."""
    tenths = round(seconds * 10)
    minutes, rest = divmod(tenths, 600)
    whole, tenth = divmod(rest, 10)
    return f"{minutes}:{whole:02d}" + (f".{tenth}" if tenth else "")


def lines_of(run: Run, circuit: Circuit, *, everything: bool = False) -> Iterator[tuple[str, str, str, str, str]]:
    """Yield (when, part, what, what it has become, because of what) for each event.

    Args:
        run: the run.
        circuit: its layout.
        everything: contacts, jumpers and inputs too; without them a line is told of what hums, burns or turns, and of
            the states in between.
    """
    for event in run.events:
        if everything or not _is_small(event, circuit):
            part, words = _subject(event.what)
            yield clock_words(event.at_s), part, words, plain(event.now), _because(event.cause, part)


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
    for at_s, unsettled in run.unsettled:
        elements = _joined(unsettled.elements)
        if unsettled.why == "race":
            yield f"At {clock_words(at_s)} {elements} race: {min(unsettled.outcomes)} is taken to move first."
        elif unsettled.why == "chatter":
            yield f"At {clock_words(at_s)} {elements} chatter: they pull in and let go in turn."
        else:
            yield f"At {clock_words(at_s)} no settled state was found ({elements})."
    for assumed in run.assumes:
        yield f"Taken for granted: {assumed}."


def _is_small(event: Event, circuit: Circuit) -> bool:
    sort, _, name = event.what.partition(":")
    return sort == "element" and isinstance(circuit.elements.get(name), Contact | JumperElement | Input)


def _subject(what: str) -> tuple[str, str]:
    """Return (part, name in words) of a subject string."""
    sort, _, name = what.partition(":")
    if sort == "effect":
        part, _, effect = name.partition(":")
        return part, upper_first(effect_words(effect))
    part, _, own = name.partition(".")
    return part, plain(own)


def _because(cause: str, part: str) -> str:
    if cause.startswith(CHANGE):
        return cause.removeprefix(CHANGE)
    if cause.startswith(TIMER):
        return "its time is up"
    other, words = _subject(cause)
    return words if other == part else f"{words} ({other})"


def _joined(names: Iterable[str]) -> str:
    return ", ".join(names)
