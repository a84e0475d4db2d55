"""What happens in a run, one line an event, in the words of the bench."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from app.catalogue.spoken import plain, upper_first
from app.circuit.network import Circuit
from app.sequence.change import Change
from app.sequence.change_words import change_words
from app.sequence.event import TIMER, Event
from app.sequence.run import Run
from app.sequence.telling import because_words, clock_words, subject_words, worth_telling
from app.web.wording.naming import Naming

CONTACT = " c"
"""With this the name of a contact ends that is called by what closes it."""


def happened(run: Run, circuit: Circuit, naming: Naming) -> list[dict[str, Any]]:
    """Return what a person sees and hears in a run: ``at_s`` and ``words`` of each, changes before what they bring."""
    told = [at for at in sorted(worth_telling(run.events, circuit)) if _is_seen(run.events[at])]
    lines = [(change.at_s, 0, words) for change in run.changes for words in _change_words(change, circuit, naming)]
    lines += [(run.events[at].at_s, 1, _event_words(run.events[at], naming)) for at in told]
    lines.sort(key=lambda line: line[:2])
    return [{"at_s": at_s, "words": f"{clock_words(at_s)} {words}"} for at_s, _, words in lines]


def _is_seen(event: Event) -> bool:
    """A state between two elements is told where a timer ends it; what passes through it at once is not seen."""
    return not event.what.startswith("state:") or event.cause.startswith(TIMER)


def _event_words(event: Event, naming: Naming) -> str:
    part, what = subject_words(event.what)
    because = _named(because_words(event.cause, part), naming)
    return f"{upper_first(what.removesuffix(CONTACT))} of {naming.inner_part(part)} {plain(event.now)}: {because}."


def _named(because: str, naming: Naming) -> str:
    """Return a cause with the names of its parts for their ids."""
    part, equals, calls = because.partition("=")
    if equals and part in naming.layout.parts:
        return f"{naming.inner_part(part)} asks for {_calls_words(calls)}"
    head, bracket, rest = because.rpartition(" (")
    owner = rest.removesuffix(")")
    if bracket and owner in naming.layout.parts:
        return f"{head.removesuffix(CONTACT)}, {naming.inner_part(owner)}"
    return because.removesuffix(CONTACT)


def _calls_words(calls: str) -> str:
    return "nothing more" if calls in ("", "idle") else " and ".join(plain(call) for call in calls.split("+"))


def _change_words(change: Change, circuit: Circuit, naming: Naming) -> Iterator[str]:
    for part, calls in change.calls.items():
        yield f"{upper_first(naming.inner_part(part))} asks for {_calls_words('+'.join(calls))}."
    for name, value in change.set.items():
        part, _, own = name.partition(".")
        yield f"{upper_first(plain(own))} of {naming.inner_part(part)} goes {plain(str(value))}."
    if not change.calls and not change.set:
        yield f"{upper_first(change_words(change, circuit, naming.units))}."
