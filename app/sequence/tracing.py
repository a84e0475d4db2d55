"""From the passes of a network at an instant to what is told of it: what moved, in which order, and what moved it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from app.catalogue.kind import Coil, Contact, Fuse, JumperElement, Load, Source
from app.catalogue.terms import Value
from app.circuit.cast import local_bits
from app.circuit.logic import Memory, PartScene
from app.circuit.network import Network, Place
from app.circuit.settle import Snapshot
from app.circuit.state import State, numbers
from app.circuit.template import SlotElement
from app.circuit.timing import Phases
from app.sequence.causes import Known, PartMoves, change_of, electrical_cause
from app.sequence.change import News
from app.sequence.event import TIMER
from app.sequence.stage import Played
from app.sequence.standing import Standing, on_of, state_of
from app.sequence.teller import Teller

CHATTERS = "chatters"
UNKNOWN = "unknown"


def word_of(element: SlotElement, is_on: bool) -> str:
    """Return the state of an element in the word of an operating point; empty for what has none."""
    match element:
        case Coil():
            return "pulled-in" if is_on else "released"
        case Contact() | JumperElement():
            return "closed" if is_on else "open"
        case Fuse():
            return "whole" if is_on else "open"
        case Load(powers_above=None):
            return ""
        case _:
            return "on" if is_on else "off"


def on_or_off(value: Value) -> str:
    """Return the word for a state or an effect."""
    return "on" if value else "off"


@dataclass(slots=True, eq=False)
class Tracer:
    """Follows one network through the passes of one instant.

    ``known`` gives for each part the value of each name as last told; it is brought up to date on the way.
    ``phases`` are those of the timers at the last instant.
    """

    network: Network
    news: News
    teller: Teller
    known: dict[str, Known]
    phases: Mapping[str, Phases]
    moves: dict[str, PartMoves] = field(default_factory=dict)
    """The parts in which a name has moved in the present pass."""
    still: set[str] = field(default_factory=set)
    """What chatters as it did at the last instant, of which nothing is told."""
    due: str | None = None
    elements: Mapping[str, SlotElement] = field(init=False)
    judged_or_fuse: int = field(init=False)

    def __post_init__(self) -> None:
        places = self.network.places
        self.elements = slots_of(self.network)
        self.judged_or_fuse = sum(
            1 << place.branch + at for place in places for at in (*place.template.judged, *place.template.fuses)
        )

    def trace(self, played: Played, standings: Mapping[str, Standing]) -> None:
        """Tell what moved from how the parts stood until the end of an instant."""
        start_known = dict(self.known)
        state, on = state_of(self.network, standings, 0), on_of(self.network, standings)
        # An instant begins without doubt; what then stays known has become known, which is told at its end.
        state = state._replace(doubt=played.passes[0].state.doubt)
        self.still = {
            what for what, now in ends_of(played) if now == CHATTERS and self.teller.shown.get(what) == CHATTERS
        }
        self.due = next(self._run_out(played), None)
        before: Snapshot | None = None
        moved = 0
        looked: dict[str, tuple[int, Memory]] = {}
        for number, snapshot in enumerate(played.passes):
            if played.mover is not None and number == played.moved_at:
                self._tell(f"element:{played.mover}", "moves first", None)
            self.moves.clear()
            self._fuses(state, snapshot.state)
            self._judged(state, snapshot.state, before, moved)
            self._parts(snapshot, looked)
            moved = snapshot.on ^ on
            self._contacts(moved & ~self.judged_or_fuse, snapshot)
            before, state, on = snapshot, snapshot.state, snapshot.on
        self._end(played, start_known)

    def _tell(self, what: str, now: str, cause: str | None) -> None:
        if what not in self.still:
            known = None if cause in self.still else cause
            self.teller.tell(self.network.number, what, now, known or self._fallback())

    def _fallback(self) -> str | None:
        """Return what to blame where nothing nearer is found: the event before, a change, a timer that ran out."""
        if self.network.number in self.teller.last:
            return None
        return change_of(self.news.any()) or self.due

    def _run_out(self, played: Played) -> Iterator[str]:
        """Yield the timers of which the phase is another than at the last instant."""
        for place, part in zip(self.network.places, played.scene.cast.parts, strict=True):
            for timer, was, now in zip(place.template.timers, self.phases[place.part], part.phases or (), strict=True):
                if was != now:
                    yield f"{TIMER}{place.part}.{timer.state}"

    def _fuses(self, before: State, now: State) -> None:
        for fuse in numbers(now.opened & ~before.opened):
            self._tell(f"element:{self.network.branches[self.network.fuse_branches[fuse]].name}", "open", None)

    def _judged(self, before: State, now: State, snapshot: Snapshot | None, moved: int) -> None:
        doubtful = now.doubt & ~before.doubt
        for judged in numbers((now.held ^ before.held) | doubtful | (before.doubt & ~now.doubt)):
            name = self.network.judged_names[judged]
            word = UNKNOWN if now.doubt >> judged & 1 else word_of(self.elements[name], bool(now.held >> judged & 1))
            cause = None if snapshot is None else electrical_cause(snapshot, moved, judged, self._was_told)
            self._tell(f"element:{name}", word, cause or change_of(self.news.trouble()))

    def _was_told(self, name: str) -> bool:
        return f"element:{name}" in self.teller.shown

    def _parts(self, snapshot: Snapshot, looked: dict[str, tuple[int, Memory]]) -> None:
        state = snapshot.state
        for place, part, memory in zip(self.network.places, snapshot.scene.cast.parts, state.memory, strict=True):
            seen = local_bits(place, state.held, state.opened), memory
            if looked.get(place.part) == seen:
                continue
            is_first = place.part not in looked
            looked[place.part] = seen
            phases = self.phases[place.part] if is_first else part.phases or ()
            self._states(place, part, seen, phases)

    def _states(self, place: Place, part: PartScene, seen: tuple[int, Memory], phases: Phases) -> None:
        before = self.known[place.part]
        now, _ = part.look(*seen)
        self.known[place.part] = now
        if now == before:
            return
        moves = self.moves[place.part] = PartMoves(place, part, before, now, seen[1], phases, self.news)
        for state, _ in place.template.states:
            if now[state] != before[state]:
                # A loop reads what the pass before had; that was told at this instant, but has not moved in this pass.
                cause = moves.of_state(state) or self.teller.latest(moves.subjects(state))
                self._tell(f"state:{place.part}.{state}", on_or_off(now[state]), cause)

    def _contacts(self, moved: int, snapshot: Snapshot) -> None:
        for branch in numbers(moved):
            name = self.network.branches[branch].name
            element = self.elements[name]
            word = word_of(element, bool(snapshot.on >> branch & 1))
            if word:
                part, _, slot = name.partition(".")
                moves = self.moves.get(part)
                cause = moves.of_slot(slot, element) if moves is not None else None
                self._tell(f"element:{name}", word, cause or self._outside(part, element))

    def _outside(self, part: str, element: SlotElement) -> str | None:
        """Return the change that moves an element of a part in which no name has moved."""
        if isinstance(element, Source):
            supplies = [name for change in self.news.changes for name in change.mains]
            return change_of(self.news.mains(supplies[-1])) if supplies else change_of(self.news.trouble())
        return change_of(self.news.trouble())

    def _end(self, played: Played, start_known: Mapping[str, Known]) -> None:
        if played.unsettled is not None and played.mover is None:
            self._let_go(played)
        for what, now in ends_of(played):
            if self.teller.shown.get(what) == now:
                continue
            self._tell(
                what, now, self._cause_of_effect(what, played, start_known) if what.startswith("effect:") else None
            )

    def _let_go(self, played: Played) -> None:
        """Tell what the states of the parts are with that let go which never settles: from there the run goes on."""
        end = played.onward
        for place, part, memory in zip(self.network.places, played.scene.cast.parts, end.memory, strict=True):
            now, _ = part.look(local_bits(place, end.held, end.opened), memory)
            self.known[place.part] = now
            for state, _ in place.template.states:
                self._tell(f"state:{place.part}.{state}", on_or_off(now[state]), None)

    def _cause_of_effect(self, what: str, played: Played, start_known: Mapping[str, Known]) -> str | None:
        _, part, effect = what.split(":")
        at = next(at for at, place in enumerate(self.network.places) if place.part == part)
        place, scene = self.network.places[at], played.scene.cast.parts[at]
        moves = PartMoves(place, scene, start_known[part], self.known[part], (), (), self.news)
        return moves.of_effect(effect)


def ends_of(played: Played) -> Iterator[tuple[str, str]]:
    """Yield the subject string of every element and effect of a network, and what it is at the end of an instant."""
    network, cycle = played.scene.network, played.settled.snapshots
    elements = slots_of(network)
    always, ever = cycle[0].on, cycle[0].on
    for snapshot in cycle[1:]:
        always &= snapshot.on
        ever |= snapshot.on
    doubtful = _doubtful(network, cycle[-1])
    for at, branch in enumerate(network.branches):
        element = elements.get(branch.name)
        word = "" if element is None else word_of(element, bool(always >> at & 1))
        if word:
            chatters = (always ^ ever) >> at & 1
            yield f"element:{branch.name}", UNKNOWN if doubtful >> at & 1 else CHATTERS if chatters else word
    words = [_effect_words(snapshot) for snapshot in cycle]
    for place in network.places:
        for effect, _ in place.template.effects:
            said = {each.get((place.part, effect), "off") for each in words}
            yield f"effect:{place.part}:{effect}", said.pop() if len(said) == 1 else CHATTERS


def slots_of(network: Network) -> dict[str, SlotElement]:
    """Return the elements of a network that are branches, by ``part.element``."""
    return {f"{p.part}.{slot.name}": slot.element for p in network.places for slot in p.template.slots}


def _doubtful(network: Network, snapshot: Snapshot) -> int:
    """Return the branches (bits) of which it is not known whether they are on."""
    doubt = snapshot.doubt
    doubtful = doubt.branches
    if not network.touched:
        return doubtful
    for place in network.places:
        for number, slot in enumerate(place.template.judged, start=place.judged):
            doubtful |= (doubt.judged >> number & 1) << place.branch + slot
        for number, slot in enumerate(place.template.fuses, start=place.fuse):
            doubtful |= (doubt.fuses >> number & 1) << place.branch + slot
    return doubtful


def _effect_words(snapshot: Snapshot) -> dict[tuple[str, str], str]:
    """Return the word for each effect that holds or may hold."""
    state, doubt = snapshot.state, snapshot.doubt
    sure, unsure = snapshot.scene.cast.effects(state.held, state.opened, state.memory, doubt.judged, doubt.fuses)
    return {**dict.fromkeys(sure, "on"), **dict.fromkeys(unsure, UNKNOWN)}
