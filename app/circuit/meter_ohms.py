"""An ohmmeter: direct-current resistances with the power off, every path between the two terminals counted.

What an ohmmeter says of a coil is its copper, far below what the coil does at 60 Hz; of electronics it says nothing
that means anything. So resistances that are not known are taken from a least to a most, and the circuit is worked out
with both: a network of resistances never reads less when one of them grows (Rayleigh). Where both agree the figure
stands. Electronics are left out; where they would make a difference the reading is not meaningful.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from app.catalogue.catalogue import figure
from app.catalogue.kind import Choice, Coil, Contact, Input, Load, Source
from app.circuit.frozen import Frozen, Held, frozen_around, values_at
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.reading import Reading
from app.job.refusal import Refused

COPPER_SHARE = (0.15, 0.4)
"""Direct-current resistance of a coil as a share of its impedance at the line frequency; handbook 15 has 10 to 20 Ω
beside 57.6 Ω (common practice, no source). A heat motor is a resistance and has all of it."""
WINDING_SHARE = (0.5, 1.0)
"""The secondary's own copper as a share of the series resistance of the model, which holds the primary's too."""
RESISTIVE_FROM = 0.95
"""Power factor from which a coil is a heater."""
AGREES_WITHIN = 0.05
OPEN_OHMS = math.inf


@dataclass(frozen=True, slots=True)
class _Range:
    """Ohms from least to most, and whether it is electronics that make the difference."""

    least: float
    most: float
    electronics: bool = False


def read_ohms(circuit: Circuit, point: OperatingPoint, a: str, b: str) -> Reading:
    """Return the resistance between two known terminals.

    Raises:
        Refused: code ``power-on``, where a source is live.
    """
    frozen = frozen_around(circuit, point, (a, b), with_cables=False)
    _refuse_power(frozen, point)
    first, second = frozen.node_of[a], frozen.node_of[b]
    ranges = [(held, _ohms_of(frozen, held, point)) for held in frozen.held]
    unseen = _unseen_beside(frozen, ranges, first, second)
    if unseen:
        return Reading(unknown=True, why=unseen)
    least, with_electronics = (
        _between(frozen, [(held, _open_if(found, found.least, lifted)) for held, found in ranges], first, second)
        for lifted in (True, False)
    )
    most = _between(frozen, [(held, _open_if(found, found.most, True)) for held, found in ranges], first, second)
    if math.isinf(with_electronics):
        return Reading(floating=True, why="open: no path joins the two")
    if math.isinf(least):
        return Reading(unknown=True, why="not meaningful: the only path leads through electronics")
    if least - with_electronics > AGREES_WITHIN * least:
        return Reading(unknown=True, why="not meaningful: electronics lie beside what is measured; lift one end")
    if most - least <= AGREES_WITHIN * most:
        return Reading(ohms=most)
    return Reading(
        unknown=True,
        why=f"about {least:.2g} to {most:.2g} Ω: the copper of a coil or winding, of which nobody has given the figure",
        between_ohms=(least, most),
    )


def _open_if(found: _Range, ohms: float, lifted: bool) -> float:
    return OPEN_OHMS if found.electronics and lifted else ohms


def _refuse_power(frozen: Frozen, point: OperatingPoint) -> None:
    live = [held.name for held in frozen.held if isinstance(held.element, Source) and held.is_on]
    if live and frozen.supply > 0:
        raise Refused(
            "power-on",
            f"Resistance is measured with the power off, and {', '.join(sorted(live))} is live.",
            would_be_right="mains off (--supply 0), the meter proved on a live source first, and one end lifted where "
            "paths lie beside each other",
        )


def _ohms_of(frozen: Frozen, held: Held, point: OperatingPoint) -> _Range:
    match held.element:
        case Coil() | Load() | Input() | Source() as element:
            if not held.siemens and not isinstance(element, Source):
                return _Range(OPEN_OHMS, OPEN_OHMS)
            return _winding(element, values_at(frozen, held.name, point))
        case Contact() if not held.is_on:
            # What leaks across an open contact is a capacitor, which passes no direct current.
            return _Range(OPEN_OHMS, OPEN_OHMS)
        case _:
            ohms = 1 / held.siemens.real if held.siemens else OPEN_OHMS
            return _Range(ohms, ohms)


def _winding(element: Coil | Load | Input | Source, values: Mapping[str, Choice]) -> _Range:
    def of(value: float | str) -> float:
        return figure(value, values)

    match element:
        case Source():
            series = of(element.volts) ** 2 * of(element.regulation) / of(element.va)
            return _Range(WINDING_SHARE[0] * series, WINDING_SHARE[1] * series)
        case Coil():
            if element.dc_ohms is not None:
                return _Range(of(element.dc_ohms), of(element.dc_ohms))
            impedance = of(element.volts) ** 2 / of(element.va_sealed)
            if of(element.power_factor_sealed) >= RESISTIVE_FROM:
                return _Range(impedance, impedance)
            return _Range(COPPER_SHARE[0] * impedance, COPPER_SHARE[1] * impedance)
        case Load():
            if element.powers_above is not None:
                return _Range(of(element.volts) ** 2 / of(element.va), OPEN_OHMS, electronics=True)
            impedance = of(element.volts) ** 2 / of(element.va)
            share = 1.0 if of(element.power_factor) >= RESISTIVE_FROM else COPPER_SHARE[0]
            return _Range(share * impedance, impedance)
        case Input():
            return _Range(of(element.ohms), OPEN_OHMS, electronics=True)


def _between(frozen: Frozen, ohms: list[tuple[Held, float]], a: int, b: int) -> float:
    """Return the resistance between two nodes: the volts that one ampere makes."""
    if a == b:
        return 0.0
    branches = [(held.a, held.b, complex(1 / each)) for held, each in ohms if not math.isinf(each)]
    solution = frozen.solved(branches, [(b, a, 1 + 0j)] if _joined(frozen, branches, a, b) else [])
    if solution.root[a] != solution.root[b]:
        return OPEN_OHMS
    return (solution.volts[a] - solution.volts[b]).real


def _joined(frozen: Frozen, branches: list[tuple[int, int, complex]], a: int, b: int) -> bool:
    root = frozen.solved(branches, []).root
    return root[a] == root[b]


def _unseen_beside(frozen: Frozen, ranges: list[tuple[Held, _Range]], a: int, b: int) -> str:
    """Return why nothing may be said: something that nobody knows lies on one of the two sides."""
    branches = [(held.a, held.b, complex(1 / found.least)) for held, found in ranges if not math.isinf(found.least)]
    root = frozen.solved(branches, []).root
    return next((why for node, why in sorted(frozen.touched.items()) if root[node] in (root[a], root[b])), "")
