"""What happens in a run, one line an event, in the words of the bench."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.catalogue.spoken import plain, upper_first
from app.circuit.network import Circuit
from app.sequence.change_words import change_words, said_of
from app.sequence.event import TIMER, Event
from app.sequence.run import Run
from app.sequence.telling import because_words, clock_words, subject_words, worth_telling
from app.web.wording.naming import Naming


def happened(run: Run, circuit: Circuit, naming: Naming) -> list[dict[str, Any]]:
    """Return what a person sees and hears in a run: ``at_s`` and ``words`` of each, changes before what they bring."""
    told = [at for at in sorted(worth_telling(run.events, circuit)) if _is_seen(run.events[at])]
    said = said_of(run.changes, circuit, naming.units, naming.inner_part)
    lines = [
        (change.at_s, 0, f"{upper_first(change_words(change, circuit, naming.units, naming.inner_part))}.")
        for change in run.changes
    ]
    lines += [(run.events[at].at_s, 1, _event_words(run.events[at], circuit, naming, said)) for at in told]
    lines.sort(key=lambda line: line[:2])
    return [{"at_s": at_s, "words": f"{clock_words(at_s)} {words}"} for at_s, _, words in lines]


def _is_seen(event: Event) -> bool:
    """A state between two elements is told where a timer ends it; what passes through it at once is not seen."""
    return not event.what.startswith("state:") or event.cause.startswith(TIMER)


def _event_words(event: Event, circuit: Circuit, naming: Naming, said: Mapping[str, str]) -> str:
    part, what = subject_words(event.what, circuit)
    because = _named(because_words(event.cause, part, circuit, said), naming)
    return f"{upper_first(what)} of {naming.inner_part(part)} {plain(event.now)}: {because}."


def _named(because: str, naming: Naming) -> str:
    """Return a cause with the name of its part for the id."""
    head, bracket, rest = because.rpartition(" (")
    owner = rest.removesuffix(")")
    if bracket and owner in naming.layout.parts:
        return f"{head}, {naming.inner_part(owner)}"
    return because
