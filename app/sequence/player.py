"""Plays one instant after another: how all parts stand, what is told, and when the next timer runs out."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence

from app.circuit.cast import local_bits
from app.circuit.network import Circuit, Network
from app.circuit.operating_point import Unsettled
from app.circuit.scene import Scene
from app.circuit.situation import Situation
from app.circuit.timing import Phases
from app.sequence.causes import Known
from app.sequence.change import Change, News
from app.sequence.moment import Moment
from app.sequence.moments import LONGEST_BEFORE_MS, MOST_INSTANTS, MOST_INSTANTS_BEFORE, REST_MS
from app.sequence.stage import Played, play, scene_at, stage_of
from app.sequence.standing import Standing, later, next_due, phases_of, resting, standing_after, state_of, to_come
from app.sequence.teller import Teller
from app.sequence.tracing import Tracer, ends_of, on_or_off


class Player:
    """The circuit in a situation, going from instant to instant. Times are in milliseconds."""

    def __init__(self, circuit: Circuit, situation: Situation) -> None:
        self.circuit = circuit
        self.stage = stage_of(circuit, situation)
        self.standings: dict[str, Standing] = {
            place.part: resting(place.template) for network in circuit.networks for place in network.places
        }
        self.known: dict[str, Known] = {}
        self.phases: dict[str, Phases] = {}
        self.amounts = self.stage.amounts()
        self.due: dict[Network, int | None] = {}
        self.left: dict[Network, Hashable] = {}
        self.last: dict[Network, Played] = {}
        self.teller = Teller()
        self.moments: list[Moment] = []
        self.blown: dict[str, float] = {}
        self.unsettled: list[tuple[float, Unsettled]] = []
        self.now = 0
        self.instants = 0

    def stand(self) -> None:
        """Begin: let the situation settle from rest, and a day pass, of which nothing is told."""
        self._settle_all(News(), told=False)
        while (
            (due := self.next_due()) is not None and due <= LONGEST_BEFORE_MS and self.instants < MOST_INSTANTS_BEFORE
        ):
            self.now = due
            self._settle_all(News(), told=False)
        waited = self.now + (REST_MS if self.next_due() is None else 0)
        self.standings = {part: later(standing, -waited) for part, standing in self.standings.items()}
        self.now = self.instants = 0
        self.due = {network: None if at is None else at - waited for network, at in self.due.items()}
        for played in self.last.values():
            self._show(played)
        self._note()

    def instant(self, now: int, changes: Sequence[Change]) -> None:
        """Play an instant: make the changes, let what is due run out, settle, and tell what moved."""
        self.now = now
        self.teller.begin(now)
        if changes:
            situation = self.stage.situation
            for change in changes:
                situation = change.made_to(situation)
            self.stage = stage_of(self.circuit, situation, self.stage)
            self.amounts = self.stage.amounts()
            self.due, self.left = {}, {}
        self._settle_all(News(tuple(changes)), told=True)
        self._note()

    def next_due(self) -> int | None:
        """Return the next instant at which a timer runs out."""
        return min((at for at in self.due.values() if at is not None), default=None)

    def to_come(self) -> Hashable:
        """Return what tells two instants apart for all that is to come without further changes."""
        for network, due in self.due.items():
            # Where no clock runs, nothing changes by itself.
            if network not in self.left or due is not None:
                self.left[network] = tuple(
                    to_come(self.amounts[place.part], self.standings[place.part], self.now) for place in network.places
                )
        return tuple(self.left[network] for network in self.due)

    def is_weary(self) -> bool:
        """Return whether there have been so many instants that the run is to be cut off."""
        return self.instants >= MOST_INSTANTS

    def chatters(self) -> bool:
        """Return whether something chatters for good, or never settles, as it stands now."""
        return any(played.unsettled is not None and played.mover is None for played in self.last.values())

    def _settle_all(self, news: News, *, told: bool) -> None:
        """Settle the networks that a change may concern, and those in which a timer is due."""
        self.instants += 1
        everything = not self.last or bool(news.changes)
        before, self.last = self.last, {} if everything else self.last
        for scene in self.stage.scenes:
            network = scene.network
            if everything or self.due[network] == self.now:
                at = scene_at(scene, self.amounts, self.standings, self.now)
                last = before.get(network)
                if last is None or not _stays(last, at, self.standings):
                    last = self._settle(at, last, news, told=told)
                self.last[network] = last
                self._wind(at)

    def _wind(self, scene: Scene) -> None:
        """Note how far the timers of a network have run, and which is the next to run out."""
        found: list[int] = []
        for place in scene.network.places:
            # As they are once the instant is over: a timer that ran out and was started again in it runs anew.
            self.phases[place.part] = phases_of(self.amounts[place.part], self.standings[place.part], self.now)
            due = next_due(self.amounts[place.part], self.standings[place.part], self.now)
            found += () if due is None else (due,)
        self.due[scene.network] = min(found, default=None)
        self.left.pop(scene.network, None)

    def _settle(self, scene: Scene, before: Played | None, news: News, *, told: bool) -> Played:
        played = play(scene, self.standings)
        network, end = scene.network, played.onward
        if told:
            Tracer(network, news, self.teller, self.known, self.phases).trace(played, self.standings)
            was = before.unsettled if before is not None else None
            if played.unsettled is not None and played.unsettled != was:
                self.unsettled.append((self.now / 1000, played.unsettled))
        for fuse, amps in played.settled.blown.items():
            self.blown[network.branches[network.fuse_branches[fuse]].name] = amps
        for place, part, memory in zip(network.places, scene.cast.parts, end.memory, strict=True):
            stood, amounts = self.standings[place.part], self.amounts[place.part]
            self.standings[place.part] = standing_after(part, amounts, stood, (place, end, memory), self.now)
        return played

    def _show(self, played: Played) -> None:
        """Note how everything in a network stands at the beginning."""
        scene = played.scene
        for place, part, memory in zip(scene.network.places, scene.cast.parts, played.onward.memory, strict=True):
            known, _ = part.look(local_bits(place, played.onward.held, played.onward.opened), memory)
            self.known[place.part] = known
            for state, _ in place.template.states:
                self.teller.show(f"state:{place.part}.{state}", on_or_off(known[state]))
        for what, now in ends_of(played):
            self.teller.show(what, now)

    def _note(self) -> None:
        played = tuple(self.last.values())
        self.moments.append(Moment(self.now, self.stage.circuit, self.stage.situation, played, dict(self.blown)))


def _stays(last: Played, scene: Scene, standings: Mapping[str, Standing]) -> bool:
    """Return whether a network, asked again from where it had come to, would stay there."""
    before = last.scene
    same = (
        before.cast is scene.cast
        and before.figures == scene.figures
        and before.supply == scene.supply
        and before.extras == scene.extras
        and before.opened == scene.opened
    )
    return same and state_of(scene.network, standings, scene.opened) == last.onward._replace(fuse_doubt=0)
