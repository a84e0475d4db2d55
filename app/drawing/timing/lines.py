"""What moved in a run, as lines: which of them a chart shows, and which go together as one.

Rules of the file: a line is shown whole or not at all, so the edges of a line that is shown are exactly the events of
its subject. Shown without ``everything`` is what ``app.sequence.telling`` tells of and whatever a change moves at
once, without states that are only a step from one state to the next. A state that moves at the same instants as what
it works in its own part (``inducer`` and its relay) is one line with it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Contact, Kind
from app.circuit.network import Circuit
from app.circuit.template import template_of
from app.drawing.timing.level import Level, level_of
from app.job.model import Layout
from app.job.names import part_of
from app.sequence.event import CHANGE, Event
from app.sequence.run import Run
from app.sequence.telling import causes_of, worth_telling
from app.sequence.tracing import ends_of

STATE, ELEMENT, EFFECT = "state", "element", "effect"


@dataclass(frozen=True, slots=True)
class MovedLine:
    """What one subject did: ``places`` are those of its events in the run."""

    what: str
    start: Level
    places: tuple[int, ...]

    @property
    def sort(self) -> str:
        """Return whether this is a state, an element or an effect."""
        return self.what.partition(":")[0]

    @property
    def part(self) -> str:
        """Return the part in which it is."""
        name = self.what.partition(":")[2]
        return name.partition(":")[0] if self.sort == EFFECT else part_of(name)


def moved_lines(run: Run) -> list[MovedLine]:
    """Return a line for each subject that moved, in the order in which they first moved."""
    places: dict[str, list[int]] = {}
    for at, event in enumerate(run.events):
        places.setdefault(event.what, []).append(at)
    stood = dict(each for played in run.moments[0].played for each in ends_of(played))
    return [MovedLine(what, _start(what, stood, run.events[at[0]]), tuple(at)) for what, at in places.items()]


def levels_of(line: MovedLine, events: Sequence[Event]) -> Iterator[Level]:
    """Yield the level of a line after each of its events."""
    level = line.start
    for place in line.places:
        level = level_of(events[place].now, level)
        yield level


def shown_of(
    lines: Sequence[MovedLine], run: Run, layout: Layout, catalogue: Catalogue, circuit: Circuit
) -> list[MovedLine]:
    """Return the lines that a chart shows where not everything is asked for."""
    told = worth_telling(run.events, circuit)
    told |= {at for at, event in enumerate(run.events) if event.cause.startswith(CHANGE)}
    return [line for line in lines if not told.isdisjoint(line.places) and not _is_step(line, layout, catalogue)]


def folded(lines: Sequence[MovedLine], events: Sequence[Event]) -> list[list[MovedLine]]:
    """Return the lines in groups, in the order of their first events: what a state works stands before the state."""
    parents = list(causes_of(events))
    alike: dict[object, list[MovedLine]] = {}
    for line in lines:
        alike.setdefault(_course(line, events), []).append(line)
    into: dict[str, MovedLine] = {}
    for line in lines:
        if line.sort == STATE:
            worked = [other for other in alike[_course(line, events)] if _works(line, other, parents)]
            if worked:
                into[line.what] = min(worked, key=lambda other: (_preference(other), other.places))
    groups = {line.what: [line] for line in lines if line.what not in into}
    for line in lines:
        if line.what in into:
            groups[_end(line, into).what].append(line)
    return list(groups.values())


def _start(what: str, stood: Mapping[str, str], first: Event) -> Level:
    """Return the level of a subject before anything has happened."""
    if what in stood:
        return level_of(stood[what], "off")
    # A state is on or off, and is told of only when it changes.
    return "off" if first.now == "on" else "on"


def _is_step(line: MovedLine, layout: Layout, catalogue: Catalogue) -> bool:
    """Return whether a line is a state that only leads on to other states."""
    kind = catalogue.kind_of(layout.parts[line.part]) if line.sort == STATE else None
    return kind is not None and line.what.partition(".")[2] in _steps_of(kind)


def _steps_of(kind: Kind) -> frozenset[str]:
    """Return the states that neither wait, count or remember, nor work a contact or an effect, but are read."""
    template = template_of(kind)
    works = {element.by for element in kind.elements.values() if isinstance(element, Contact)}
    works |= {name for effect in kind.effects for name in template.reads[effect]}
    read = {name for state in kind.states for name in template.reads[state] if name != state}
    timed = {timer.state for timer in template.timers}
    return frozenset(name for name in kind.states if name in read and name not in works | timed)


def _course(line: MovedLine, events: Sequence[Event]) -> tuple[object, ...]:
    """Return what two lines of a part share where they go together."""
    when = [events[place].at_s for place in line.places]
    return line.part, line.start, *zip(when, levels_of(line, events), strict=True)


def _works(line: MovedLine, other: MovedLine, parents: Sequence[int | None]) -> bool:
    """Return whether each event of ``other`` comes of the same event of ``line``."""
    return other is not line and all(
        _comes_of(after, before, parents) for before, after in zip(line.places, other.places, strict=True)
    )


def _comes_of(after: int, before: int, parents: Sequence[int | None]) -> bool:
    place: int | None = after
    while place is not None and place > before:
        place = parents[place]
    return place == before


def _preference(line: MovedLine) -> int:
    return (ELEMENT, EFFECT, STATE).index(line.sort)


def _end(line: MovedLine, into: Mapping[str, MovedLine]) -> MovedLine:
    # What a state works comes after it in every instant, so that this leads on and on, never around.
    while line.what in into:
        line = into[line.what]
    return line
