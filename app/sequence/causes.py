"""What moved a contact, a state or a coil: the one thing without which it would have stayed.

Rules of the file: a cause is something that is told too: a change, a timer, or an event of the same instant. Where
several things moved at once, each is put back in turn; the first of which this undoes the effect is the cause.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from app.catalogue.kind import Contact, JumperElement, Source
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Value, names_in
from app.circuit.logic import Memory, PartScene
from app.circuit.network import Place
from app.circuit.pure import solve_each
from app.circuit.settle import Snapshot, judged_on
from app.circuit.state import Question, numbers
from app.circuit.template import SlotElement, Template
from app.circuit.timing import Phases, Watch
from app.sequence.change import News
from app.sequence.event import CHANGE, TIMER

Known = Mapping[str, Value]
MOST_TRIED = 8
"""Of more branches than this that moved in one pass, only these are put back."""


@dataclass(frozen=True, slots=True, eq=False)
class PartMoves:
    """A part in one pass: the value of each name before and now, its scene, and the phases of its timers before."""

    place: Place
    scene: PartScene
    before: Known
    now: Known
    memory: Memory
    phases_before: Phases
    news: News

    @property
    def template(self) -> Template:
        """Return the kind as the engine reads it."""
        return self.place.template

    def of_state(self, state: str) -> str | None:
        """Return what moved a state."""
        order = [name for name, _ in self.template.states]
        # What comes later in the order was read as it was in the pass before, so it moved nothing in this one.
        later = order[order.index(state) :]
        moved = self._moved(name for name in self.template.reads[state] if name not in later)
        if len(moved) > 1:
            moved = [name for name in moved if self._state_without(state, name) == self.before[state]] or moved
        if moved:
            return self.subject(moved[0])
        return self._timer_of(state)

    def subjects(self, state: str) -> list[str]:
        """Return the subjects of all that a state asks for."""
        part, kind = self.place.part, self.template.kind
        names = self.template.reads[state]
        return [f"state:{part}.{name}" if name in kind.states else f"element:{part}.{name}" for name in names]

    def of_effect(self, effect: str) -> str | None:
        """Return what moved an effect."""
        holds = dict(self.template.effects)[effect]
        now = holds(self.now)
        moved = self._moved(self.template.reads[effect])
        moved = [name for name in moved if holds({**self.now, name: self.before[name]}) != now] or moved
        return self.subject(moved[0]) if moved else None

    def of_slot(self, name: str, element: SlotElement) -> str | None:
        """Return what moved a contact, a jumper or a source."""
        match element:
            case Contact(by="calls"):
                closing = {
                    call: said.closes[name] for call, said in self.template.kind.calls.items() if name in said.closes
                }
                asked = [read for text in closing.values() for read in names_in(parse_term(text))]
                moved = self._moved([*closing, *asked])
                return self.subject(moved[0]) if moved else change_of(self.news.call(self.place.part))
            case Contact() | JumperElement():
                return self.subject(element.by) if element.by in self._moved([element.by]) else None
            case Source():
                supply = str(self.scene.values.get(element.mains, element.mains))
                return change_of(self.news.mains(supply))
            case _:
                return None

    def subject(self, name: str) -> str | None:
        """Return the subject string of a name, or the change that moved it."""
        part, template = self.place.part, self.template
        if name in template.kind.states:
            return f"state:{part}.{name}"
        if name in template.kind.elements:
            return f"element:{part}.{name}"
        if name == "outdoor_c":
            return change_of(self.news.outdoor())
        if name in template.calls:
            said = self.news.call(part)
            woken = self._moved(template.awake_by)
            return change_of(said) if said is not None else f"element:{part}.{woken[0]}" if woken else None
        return change_of(self.news.set(f"{part}.{name}"))

    def _moved(self, names: Iterable[str]) -> list[str]:
        return [name for name in dict.fromkeys(names) if self.before.get(name) != self.now.get(name)]

    def _state_without(self, state: str, name: str) -> bool:
        """Return what a state would be had one name not moved."""
        return self._try(state, {**self.now, name: self.before[name]})

    def _try(self, state: str, known: Known) -> bool:
        if self.scene.phases is None:
            return bool(known[state])
        holds = dict(self.template.states_in_time)[state]
        return holds(known, Watch(self.scene.phases, self.memory[len(self.template.carried_in_time) :]))

    def _timer_of(self, state: str) -> str | None:
        phases = self.scene.phases or ()
        if any(t.state == state and self.phases_before[t.number] != phases[t.number] for t in self.template.timers):
            return f"{TIMER}{self.place.part}.{state}"
        return None


def change_of(words: str | None) -> str | None:
    """Return a change, said in its words, as a cause."""
    return None if words is None else CHANGE + words


def electrical_cause(
    snapshot: Snapshot, moved_branches: int, judged: int, is_moved: Callable[[str], bool]
) -> str | None:
    """Return which of the branches that moved in a pass changed what a judged element (its number) sees."""
    scene = snapshot.scene
    network = scene.network
    tried = [branch for branch in numbers(moved_branches) if is_moved(network.branches[branch].name)]
    after = judged_on(scene, snapshot.state.held, snapshot.solution) >> judged & 1
    if len(tried) > 1:
        for branch in tried[:MOST_TRIED]:
            question = Question(scene.figures, snapshot.on ^ 1 << branch, scene.extras)
            answer = network.known.get(question)
            if answer is None:
                [answer] = solve_each(network, [question])
                network.known[question] = answer
            if judged_on(scene, snapshot.state.held, answer) >> judged & 1 != after:
                return f"element:{network.branches[branch].name}"
    return f"element:{network.branches[tried[0]].name}" if tried else None
