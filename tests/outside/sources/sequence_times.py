"""Times of a furnace, a compressor and a fan in a run, against the ranges that are met in practice."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, partial

from app.catalogue.builtin import builtin_catalogue
from app.checks.samples import gas_and_cooling
from app.circuit.network import build_circuit
from app.sequence.change import Change
from app.sequence.event import Event
from app.sequence.run import run_sequence
from tests.outside.record import Check, Exactly, Source, Within

CHANGES = {
    change.words: change
    for change in (
        Change(0.0, "heat", calls={"tc": ("heat-1",)}),
        Change(600.0, "heat ends", calls={"tc": ()}),
        Change(0.0, "cool", calls={"tc": ("cool-1",)}),
        Change(300.0, "cool ends", calls={"tc": ()}),
        Change(310.0, "cool again", calls={"tc": ("cool-1",)}),
        Change(0.0, "no flame", set={"fb.flame": "open"}),
        Change(300.0, "limit opens", set={"fb.limit": "open"}),
    )
}


@cache
def events(*changes: str) -> tuple[Event, ...]:
    """Return what happens to a furnace with cooling in a run of three hours."""
    circuit = build_circuit(gas_and_cooling(), builtin_catalogue())
    return run_sequence(circuit, [CHANGES[words] for words in changes], for_s=10_800.0).events


def at(what: str, now: str, *changes: str, nth: int = 1) -> float:
    """Return when something became so for the nth time."""
    return [event.at_s for event in events(*changes) if (event.what, event.now) == (what, now)][nth - 1]


def between(first: tuple[str, str], then: tuple[str, str], *changes: str) -> float:
    """Return the seconds from one thing to another."""
    return at(*then, *changes) - at(*first, *changes)


def tries_before_lockout() -> int:
    """Return how often the gas valve opens, with no flame to be had, in the first half hour."""
    opened = [e.at_s for e in events("heat", "no flame") if (e.what, e.now) == ("element:fb.gas_valve", "pulled-in")]
    return sum(seconds < 1800 for seconds in opened)


def first_of(*names: tuple[str, str]) -> Callable[[], str]:
    """Return what tells whether things come in this order after a call for heat."""

    def ask() -> str:
        times = [at(*name, "heat") for name in names]
        return "in this order" if times == sorted(times) and len(set(times)) == len(times) else "in another order"

    return ask


INDUCER = ("element:fb.inducer_relay", "pulled-in")
DRAFT = ("element:fb.pressure_seen", "on")
IGNITER = ("state:fb.igniter", "on")
GAS = ("element:fb.gas_valve", "pulled-in")
FLAME = ("state:fb.flame_proved", "on")
BLOWER = ("effect:fb:indoor-fan", "on")

SOURCE = Source(
    title="Times and order of a furnace, a compressor and a fan, as met in practice",
    status="common practice, no source",
    how="the events of a run of a furnace board with an outdoor unit",
    note="Ranges are those of the handbook; the program must lie inside. The times are settings of the kinds.",
    checks=(
        Check(
            "inducer, draft, igniter, gas, flame, blower",
            Exactly("in this order"),
            first_of(INDUCER, DRAFT, IGNITER, GAS, FLAME, BLOWER),
        ),
        Check("igniter before gas", Within(15, 60, "s"), partial(between, IGNITER, GAS, "heat")),
        Check(
            "trial for ignition with no flame",
            Within(4, 7, "s"),
            lambda: at("element:fb.gas_valve", "released", "heat", "no flame") - at(*GAS, "heat", "no flame"),
            "from memory, unconfirmed",
        ),
        Check("tries before lockout", Within(3, 6, ""), tries_before_lockout, "from memory, unconfirmed"),
        Check(
            "lockout",
            Within(3000, 4200, "s"),
            partial(between, ("state:fb.locked_out", "on"), ("state:fb.locked_out", "off"), "heat", "no flame"),
            "from memory, unconfirmed",
        ),
        Check("blower after flame", Within(15, 90, "s"), partial(between, FLAME, BLOWER, "heat")),
        Check(
            "blower after the call for heat has ended",
            Within(60, 180, "s"),
            lambda: at("effect:fb:indoor-fan", "off", "heat", "heat ends") - 600.0,
        ),
        Check(
            "gas after the call for heat has ended",
            Within(0, 0, "s"),
            lambda: at("element:fb.gas_valve", "released", "heat", "heat ends") - 600.0,
        ),
        Check(
            "gas after the limit has opened",
            Within(0, 0, "s"),
            lambda: at("element:fb.gas_valve", "released", "heat", "limit opens") - 300.0,
        ),
        Check("compressor at a call for cooling", Within(0, 0, "s"), partial(at, "effect:ou:compressor", "on", "cool")),
        Check(
            "compressor off before it starts again",
            Within(180, 300, "s"),
            lambda: at("effect:ou:compressor", "on", "cool", "cool ends", "cool again", nth=2) - 300.0,
        ),
        Check(
            "indoor fan after a call for cooling has ended",
            Within(0, 90, "s"),
            lambda: at("effect:fb:indoor-fan", "off", "cool", "cool ends") - 300.0,
        ),
    ),
)
