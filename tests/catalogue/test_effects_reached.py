"""Every packed kind on a bench of its own: its call terminals are tried hot in all combinations.

The bench feeds what is a supply, leads what is a common back, and has a hand switch for each call and each dry pair.
Every effect that the kind names is reached by some of them, every contact moves, everything settles, and a part
without calls is at rest.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import combinations, product
from typing import Any

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.check_kind import BY_CALLS
from app.catalogue.kind import Choice, Contact, Kind
from app.catalogue.reading import kind_from
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.sketch import sketch
from tests.catalogue.kinds import KIND_IDS

BUSY = 2
"""How many hand switches are closed at once at most; no effect asks for more."""
WITH_EFFECTS = [name for name in KIND_IDS if builtin_catalogue().kind(name).effects]
WITH_CONTACTS = [
    name
    for name in KIND_IDS
    if any(isinstance(e, Contact) and e.by != BY_CALLS for e in builtin_catalogue().kind(name).elements.values())
]
MOVED_BY_WEATHER = {"outdoor_c_contact"}
OPEN_AT_REST = {"zone-damper-spring-open": {"zone-open"}}
"""What a part does while nobody asks: a damper that a spring holds open."""


def bench_for(kind: Kind) -> tuple[dict[str, Any], list[str]]:
    """Return the kind of a bench (as plain data) and the conductors from it, ``b``, to the part ``p``."""
    calls = [letter for letter, terminal in kind.terminals.items() if terminal.function == "call"]
    dry = [letter for letter, terminal in kind.terminals.items() if terminal.function == "dry"]
    pairs = list(zip(dry[::2], dry[1::2], strict=True))
    terminals = {"R": "supply", "C": "common"}
    contacts = {}
    wires = []
    for letter, terminal in kind.terminals.items():
        if terminal.function.startswith("supply"):
            wires.append(f"b.R p.{letter}")
        elif terminal.function == "common":
            wires.append(f"b.C p.{letter}")
    for at, letter in enumerate(calls):
        terminals[f"T{at}"] = "call"
        contacts[f"s{at}"] = ("R", f"T{at}")
        wires.append(f"b.T{at} p.{letter}")
    for at, (one, other) in enumerate(pairs):
        terminals |= {f"P{at}": "dry", f"Q{at}": "dry"}
        contacts[f"d{at}"] = (f"P{at}", f"Q{at}")
        wires += [f"b.P{at} p.{one}", f"b.Q{at} p.{other}"]
    bench = {
        "title": "Bench",
        "summary": "A supply and a hand switch for each call and each pair.",
        "terminals": {letter: {"function": what, "use": "bench", "holds": 40} for letter, what in terminals.items()},
        "switches": {switch: {"rest": "open"} for switch in contacts},
        "elements": {
            "secondary": {"is": "source", "between": ["R", "C"], "va": 100},
            **{f"c_{switch}": {"is": "contact", "between": at, "by": switch} for switch, at in contacts.items()},
        },
    }
    return bench, wires


def set_ups(kind: Kind) -> Iterator[dict[str, Choice]]:
    """Yield every combination of the settings that decide what a part does, not how much."""
    deciding = {
        name: setting.choices
        for name, setting in kind.settings.items()
        if setting.choices and not setting.unit and name not in ("mains_supply", "phase_deg", "limiting")
    }
    for values in product(*deciding.values()):
        yield dict(zip(deciding, values, strict=True))


def positions(kind: Kind, switches: list[str]) -> Iterator[dict[str, str]]:
    """Yield which hand switches are closed, and each switch of the part away from its rest, one at a time."""
    for count in range(BUSY + 1):
        for closed in combinations(switches, count):
            hands = {f"b.{switch}": "closed" for switch in closed}
            yield hands
            for name, switch in kind.switches.items():
                if not switch.safety or count < BUSY:
                    yield from ({**hands, f"p.{name}": to} for to in switch.positions if to != switch.rest)


@dataclass(frozen=True)
class Tried:
    """What the bench saw: effects in any position, effects at rest, contacts in both positions, whether all settled."""

    effects: frozenset[str]
    at_rest: frozenset[str]
    moving: frozenset[str]
    settled: bool


@cache
def tried(name: str) -> Tried:
    """Try a kind on the bench, once."""
    kind = builtin_catalogue().kind(name)
    bench, wires = bench_for(kind)
    catalogue = builtin_catalogue().with_kinds({"bench": kind_from("bench", bench)})
    found: set[str] = set()
    stood: set[tuple[str, str]] = set()
    at_rest: set[str] = set()
    settled = True
    for settings in set_ups(kind):
        layout = sketch({"b": "bench", "p": {"kind": name, "settings": settings}}, *wires)
        circuit = build_circuit(layout, catalogue)
        for set_to in positions(kind, list(bench["switches"])):
            point = solve(circuit, Situation(set=set_to))
            effects = {effect for part, effect in point.effects if part == "p"}
            found |= effects
            stood |= {(element, state.state) for element, state in point.elements.items() if element.startswith("p.")}
            settled = settled and point.settled
            if not set_to:
                at_rest |= effects
    moving = {element[2:] for element, state in stood if state == "open"} & {
        element[2:] for element, state in stood if state == "closed"
    }
    return Tried(frozenset(found), frozenset(at_rest), frozenset(moving), settled)


@pytest.mark.parametrize("name", WITH_EFFECTS)
def test_every_effect_of_a_kind_is_reached_by_some_call(name: str) -> None:
    assert tried(name).effects == set(builtin_catalogue().kind(name).effects)


@pytest.mark.parametrize("name", WITH_EFFECTS)
def test_a_part_that_nobody_calls_does_nothing(name: str) -> None:
    assert tried(name).at_rest == OPEN_AT_REST.get(name, set())


@pytest.mark.parametrize("name", WITH_CONTACTS)
def test_every_contact_that_no_call_moves_stands_open_and_closed(name: str) -> None:
    contacts = {
        key
        for key, element in builtin_catalogue().kind(name).elements.items()
        if isinstance(element, Contact) and element.by != BY_CALLS
    }
    assert contacts - MOVED_BY_WEATHER - tried(name).moving == set()


@pytest.mark.parametrize("name", WITH_EFFECTS)
def test_a_part_settles_whatever_is_hot(name: str) -> None:
    assert tried(name).settled
