"""How a part stands between two instants, and a network as the sum of its parts.

Rules of the file: what is kept, is kept by part, because a fault may join networks or make another layout, and then
the bits of a network mean something else.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from typing import NamedTuple

from app.catalogue.kind import Choice
from app.circuit.cast import local_bits
from app.circuit.logic import Memory, PartScene
from app.circuit.network import Network, Place
from app.circuit.state import State
from app.circuit.template import Template
from app.circuit.timing import Phases, Timer
from app.sequence.clock import (
    FRESH_CLOCK,
    Clock,
    after_instant,
    due,
    left_to_run,
    memory_after_instant,
    phase,
    shifted,
)
from app.sequence.moments import milliseconds


class Standing(NamedTuple):
    """A part between two instants.

    ``bits`` are its judged elements that are on, then its fuses that are open; ``doubt`` those of which that is not
    known. ``on`` are its slots as they conducted. ``clocks`` stand by the number of the timer.
    """

    bits: int
    doubt: int
    on: int
    memory: Memory
    clocks: tuple[Clock, ...]


def resting(template: Template) -> Standing:
    """Return a part before anything has happened."""
    states = len(template.states) if template.loops else 0
    return Standing(0, 0, 0, (0,) * (states + len(template.timers)), (FRESH_CLOCK,) * len(template.timers))


def later(standing: Standing, by_ms: int) -> Standing:
    """Return a part as it would stand had everything happened that much later."""
    return standing._replace(clocks=tuple(shifted(clock, by_ms) for clock in standing.clocks))


def amount_of(timer: Timer, values: Mapping[str, Choice]) -> int:
    """Return what a timer waits for under the settings of its part: milliseconds, or how often."""
    amount = values[timer.amount] if isinstance(timer.amount, str) else timer.amount
    return int(float(amount)) if timer.function == "times" else milliseconds(float(amount))


def phases_of(scene: PartScene, standing: Standing, now: int) -> Phases:
    """Return how far the timers of a part have run."""
    timers = scene.template.timers
    return tuple(
        phase(timer.function, clock, amount_of(timer, scene.values), now)
        for timer, clock in zip(timers, standing.clocks, strict=True)
    )


def state_of(network: Network, standings: Mapping[str, Standing], opened: int) -> State:
    """Return the state from which a network goes on; ``opened`` are fuses (bits) that a fault holds open."""
    held = doubt = 0
    memory = []
    for place in network.places:
        standing = standings[place.part]
        count = len(place.template.judged)
        judged = (1 << count) - 1
        held |= (standing.bits & judged) << place.judged
        opened |= standing.bits >> count << place.fuse
        doubt |= (standing.doubt & judged) << place.judged
        memory.append(standing.memory)
    return State(held & ~doubt, opened, tuple(memory), doubt)


def on_of(network: Network, standings: Mapping[str, Standing]) -> int:
    """Return the branches (bits) that conducted at the end of the last instant."""
    return sum(standings[place.part].on << place.branch for place in network.places)


def standing_after(
    scene: PartScene, before: Standing, state: State, place: Place, memory: Memory, now: int
) -> Standing:
    """Return how a part stands at the end of an instant.

    Args:
        scene: the part at this instant.
        before: how it stood until now.
        state: of its network, at the end.
        place: where it stands in the network.
        memory: its own, at the end.
        now: the instant.
    """
    template = place.template
    bits = local_bits(place, state.held, state.opened)
    doubt = local_bits(place, state.doubt, 0)
    outcome = scene.outcome(bits, memory)
    if not template.timers:
        return Standing(bits, doubt, outcome.on, outcome.memory, ())
    _, watch = scene.look(bits, memory)
    if watch is None:
        raise ValueError("a part stands at an instant only where its timers have phases")
    states = outcome.memory[: len(outcome.memory) - len(template.timers)]
    kept = tuple(memory_after_instant(t.function, m) for t, m in zip(template.timers, watch.after, strict=True))
    clocks = tuple(
        after_instant(t.function, clock, amount_of(t, scene.values), now, watch.asks[t.number], watch.after[t.number])
        for t, clock in zip(template.timers, before.clocks, strict=True)
    )
    return Standing(bits, doubt, outcome.on, states + kept, clocks)


def next_due(scene: PartScene, standing: Standing, now: int) -> int | None:
    """Return the next instant at which a timer of a part runs out."""
    found = [
        at
        for timer, clock in zip(scene.template.timers, standing.clocks, strict=True)
        if (at := due(timer.function, clock, amount_of(timer, scene.values), now)) is not None
    ]
    return min(found, default=None)


def to_come(scene: PartScene, standing: Standing, now: int) -> Hashable:
    """Return what tells two standings apart for all that is to come."""
    left = tuple(
        left_to_run(timer.function, clock, amount_of(timer, scene.values), now)
        for timer, clock in zip(scene.template.timers, standing.clocks, strict=True)
    )
    return standing.bits, standing.doubt, standing.memory, left
