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

Amounts = tuple[tuple[str, int], ...]
"""The function of each timer of a part, and what it waits for: milliseconds, or how often."""


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
    memory = (0,) * (len(template.carried_in_time) + len(template.timers))
    return Standing(0, 0, 0, memory, (FRESH_CLOCK,) * len(template.timers))


def later(standing: Standing, by_ms: int) -> Standing:
    """Return a part as it would stand had everything happened that much later."""
    return standing._replace(clocks=tuple(shifted(clock, by_ms) for clock in standing.clocks))


def amounts_of(scene: PartScene) -> Amounts:
    """Return the timers of a part with what each waits for under its settings."""
    return tuple((timer.function, _amount(timer, scene.values)) for timer in scene.template.timers)


def _amount(timer: Timer, values: Mapping[str, Choice]) -> int:
    amount = values[timer.amount] if isinstance(timer.amount, str) else timer.amount
    return int(float(amount)) if timer.function == "times" else milliseconds(float(amount))


def phases_of(amounts: Amounts, standing: Standing, now: int) -> Phases:
    """Return how far the timers of a part have run."""
    clocks = zip(amounts, standing.clocks, strict=True)
    return tuple(phase(function, clock, amount, now) for (function, amount), clock in clocks)


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
    scene: PartScene, amounts: Amounts, before: Standing, played: tuple[Place, State, Memory], now: int
) -> Standing:
    """Return how a part stands at the end of an instant.

    Args:
        scene: the part at this instant.
        amounts: of its timers.
        before: how it stood until now.
        played: where it stands in its network, the state of the network at the end, its own memory at the end.
        now: the instant.
    """
    place, state, memory = played
    bits = local_bits(place, state.held, state.opened)
    doubt = local_bits(place, state.doubt, 0)
    outcome = scene.outcome(bits, memory)
    if not amounts:
        return Standing(bits, doubt, outcome.on, outcome.memory, ())
    _, watch = scene.look(bits, memory)
    if watch is None:
        raise ValueError("a part stands at an instant only where its timers have phases")
    states = outcome.memory[: len(outcome.memory) - len(amounts)]
    kept = tuple(memory_after_instant(each[0], m) for each, m in zip(amounts, watch.after, strict=True))
    clocks = tuple(
        after_instant(function, clock, amount, now, asks, m)
        for (function, amount), clock, asks, m in zip(amounts, before.clocks, watch.asks, watch.after, strict=True)
    )
    return Standing(bits, doubt, outcome.on, states + kept, clocks)


def next_due(amounts: Amounts, standing: Standing, now: int) -> int | None:
    """Return the next instant at which a timer of a part runs out."""
    clocks = zip(amounts, standing.clocks, strict=True)
    found = (due(function, clock, amount, now) for (function, amount), clock in clocks)
    return min((at for at in found if at is not None), default=None)


def to_come(amounts: Amounts, standing: Standing, now: int) -> Hashable:
    """Return what tells two standings apart for all that is to come."""
    clocks = zip(amounts, standing.clocks, strict=True)
    left = tuple(left_to_run(function, clock, amount, now) for (function, amount), clock in clocks)
    return standing.bits, standing.doubt, standing.memory, left
