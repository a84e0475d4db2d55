"""What keeps a compressor off for some minutes after it has stopped: any timer in the chain from the control's call to
the compressor.

Rules of the file: a guard is a term that asks for a time apart, or a delay before it holds, of at least
``LEAST_GUARD_S``; which part has it does not matter.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from app.catalogue.catalogue import figure
from app.catalogue.kind import CallName, Choice, Contact, Kind
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Timed, Tree, names_in, timers_in
from app.checks.context import Called, CheckContext
from app.checks.facts.driven import Drive, drive_behind, drive_of, hot_now

LEAST_GUARD_S = 180.0
"""Anti-short-cycle times are 3 to 5 min. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Guard:
    """A timer in a chain: its part, its seconds, and the setting that gives them, empty where the kind fixes them."""

    part: str
    seconds: float
    setting: str

    def is_enough(self) -> bool:
        """Return whether it guards."""
        return self.seconds >= LEAST_GUARD_S


def guards_of(context: CheckContext, called: Called, part: str) -> Iterator[Guard]:
    """Yield the timers between a call and the compressor of a part, those of the part itself first, then those of
    the control, then those of the relays on the way."""
    drive = drive_of(context.wiring.kinds[part], "compressor")
    yield from _guards_in(drive.terms, part, context.wiring.settings[part])
    yield from _guards_in(_call_terms(context, called), called.control, context.wiring.settings[called.control])
    yield from _on_the_way(context, called, part, drive, {(part, drive)})


def parts_on_the_way(context: CheckContext, called: Called, part: str) -> tuple[str, ...]:
    """Return the parts whose contacts pass the call on, the control among them."""
    drive = drive_of(context.wiring.kinds[part], "compressor")
    return tuple(dict.fromkeys(each for each, _ in _links(context, called, part, drive)))


def _guards_in(terms: Iterable[Tree], part: str, settings: Mapping[str, Choice]) -> Iterator[Guard]:
    for term in terms:
        for timer in timers_in(term):
            if isinstance(timer, Timed) and timer.function in ("apart", "after"):
                named = timer.seconds if isinstance(timer.seconds, str) else ""
                yield Guard(part, figure(timer.seconds, settings), named)


def _call_terms(context: CheckContext, called: Called) -> list[Tree]:
    """Return the terms by which a control closes the contacts of a call, with the states that they ask for."""
    kind = context.wiring.kinds[called.control]
    terms: list[Tree] = []
    seen: set[str] = set()
    ahead = list(_closing(kind, called.call))
    while ahead:
        text = ahead.pop()
        if text not in seen:
            seen.add(text)
            terms.append(parse_term(text))
            ahead.extend(kind.states[name] for name in names_in(terms[-1]) if name in kind.states)
    return terms


def _closing(kind: Kind, call: CallName) -> Iterable[str]:
    return kind.calls[call].closes.values() if call in kind.calls else ()


def _on_the_way(
    context: CheckContext, called: Called, part: str, drive: Drive, seen: set[tuple[str, Drive]]
) -> Iterator[Guard]:
    """Follow relay after relay, each once: relays that move each other would lead around without end."""
    for link in _links(context, called, part, drive):
        other, behind = link
        if other != called.control and link not in seen:
            seen.add(link)
            yield from _guards_in(behind.terms, other, context.wiring.settings[other])
            yield from _on_the_way(context, called, other, behind, seen)


def _links(context: CheckContext, called: Called, part: str, drive: Drive) -> Iterator[tuple[str, Drive]]:
    """Yield the parts through whose contacts hot comes to what drives a part, each with what moves that contact."""
    islands = context.islands_at(called.point)
    for terminal in hot_now(context, called, part, drive.letters):
        paths = (islands.path(winding.hot, terminal) for winding in context.windings)
        for join, _ in next((path for path in paths if path is not None), []):
            kind = context.wiring.kinds.get(join.part)
            element = kind.elements.get(join.inner) if kind is not None and join.sort == "contact" else None
            if kind is not None and isinstance(element, Contact):
                yield join.part, drive_behind(kind, element.by if element.by != "calls" else "false")
