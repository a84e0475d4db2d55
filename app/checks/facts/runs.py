"""Runs: the way from a source to a coil and back, the ohms that lie in it, and what they leave for the coil."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from app.catalogue.catalogue import figure
from app.catalogue.kind import Choice, Coil
from app.checks.context import CheckContext
from app.checks.facts.fed import Fed, way_to
from app.checks.facts.joins import Join, Winding
from app.circuit.impedance import CONTACT_OHMS, FUSE_OHMS, JUMPER_OHMS, load_siemens, source_behind, wire_ohms

_OHMS_OF_SORT = {"contact": CONTACT_OHMS, "fuse": FUSE_OHMS, "jumper": JUMPER_OHMS, "trace": 0.0}
_GAUGES = range(24, 13, -2)
"""The gauges that are proposed, thinnest first: what is thicker than 14 hardly goes under a screw of a 24 V control.
Common practice, no source."""
_FEET_PER_METRE = 1 / 0.3048


@dataclass(frozen=True, slots=True)
class Run:
    """What lies between a source and a coil, out and back.

    ``wires`` are the conductors that have a length as (id, metres, AWG), the one with most ohms first; ``other_ohms``
    are those of contacts, fuses and jumpers.
    """

    wires: tuple[tuple[str, float, int], ...]
    other_ohms: float

    def wire_ohms(self) -> float:
        """Return the ohms of the conductors."""
        return sum(wire_ohms(length_m, size_awg) for _, length_m, size_awg in self.wires)

    def ohms(self) -> float:
        """Return all its ohms."""
        return self.wire_ohms() + self.other_ohms

    def names(self) -> tuple[str, ...]:
        """Return the conductors, the one with most ohms first."""
        return tuple(name for name, _, _ in self.wires)

    def gauge_for(self, ohms: float) -> int | None:
        """Return the thinnest gauge with which the run has at most ``ohms``; None where none of the usual ones does."""
        for size_awg in _GAUGES:
            wires = sum(wire_ohms(length_m, min(size_awg, own)) for _, length_m, own in self.wires)
            if wires + self.other_ohms <= ohms:
                return size_awg
        return None

    def longest_for(self, ohms: float) -> float:
        """Return how many metres its worst conductor may have if all are shortened alike to come to ``ohms``."""
        present = self.wire_ohms()
        return max(0.0, ohms - self.other_ohms) / present * self.wires[0][1] if present else 0.0


@dataclass(frozen=True, slots=True)
class PullIn:
    """A coil as it pulls in: its volts then, those of its source, and the ohms in between that would leave enough."""

    volts: float
    source_volts: float
    ohms_for: float


def run_of(context: CheckContext, fed: Fed) -> Run | None:
    """Return the run of a fed coil at its point: of several ways the one with fewest joins on either side. None where
    it is fed through something that is no join."""
    way = way_to(context, fed)
    return None if way is None else _run(context, (*way.out, *way.back))


def most_run_ohms(context: CheckContext, fed: Fed, source_volts: float) -> float:
    """Return the ohms that the run of a pulled-in coil has at most: those that lose what is lost if only its own
    sealed amps lost it. The resistance of the run takes volts from the part of the amps that is in step with them."""
    values = context.wiring.settings[fed.device.part]
    sealed = _siemens(fed.coil, values, "sealed")
    in_step = fed.volts * sealed.real
    return (source_volts - fed.volts) / in_step if in_step else math.inf


def pull_in_of(context: CheckContext, fed: Fed, ohms: float, least_volts: float) -> PullIn:
    """Return what a coil behind a run of so many ohms has while it pulls in and all else works as at the point.

    The volts that would stand there without the coil follow from those that it has now and the ohms of run and
    winding; what else hangs on the run bears a little of them, so the true volts are never below these. Where a coil
    does not pull in, others that share its run are held down by it, and what would do is told for a source that gives
    its rated volts.
    """
    values = context.wiring.settings[fed.device.part]
    inrush, sealed = _siemens(fed.coil, values, "inrush"), _siemens(fed.coil, values, "sealed")
    inner = winding_ohms(context, fed.winding)
    without = fed.volts * abs(1 + (inner + ohms) * sealed)
    now = without / abs(1 + (inner + ohms) * inrush)
    if not fed.pulled_in:
        rated = figure(fed.winding.element.volts, context.wiring.settings[fed.winding.part])
        return PullIn(fed.volts, fed.volts * abs(1 + ohms * inrush), _series_ohms(rated / least_volts, inrush))
    return PullIn(now, now * abs(1 + ohms * inrush), _series_ohms(without / least_volts, inrush) - inner)


def _siemens(coil: Coil, values: Mapping[str, Choice], when: Literal["sealed", "inrush"]) -> complex:
    va, factor = getattr(coil, f"va_{when}"), getattr(coil, f"power_factor_{when}")
    return load_siemens(figure(coil.volts, values), figure(va, values), figure(factor, values))


def _series_ohms(ratio: float, siemens: complex) -> float:
    """Return the ohms in series with an admittance at which it is left 1/``ratio`` of the volts: |1 + R·Y| = ratio."""
    if ratio <= 1:
        return 0.0
    size = abs(siemens) ** 2
    return (math.sqrt(siemens.real**2 + size * (ratio**2 - 1)) - siemens.real) / size if size else math.inf


def winding_ohms(context: CheckContext, winding: Winding) -> float:
    """Return the series resistance of a source."""
    values, element = context.wiring.settings[winding.part], winding.element
    return 1 / source_behind(*(figure(each, values) for each in (element.volts, element.va, element.regulation)))[1]


def length_words(context: CheckContext, length_m: float) -> str:
    """Return a length in the units of the job: ``131 ft`` or ``40 m``."""
    if context.job.settings.units == "us":
        return f"{length_m * _FEET_PER_METRE:.0f} ft"
    return f"{length_m:.0f} m"


def _run(context: CheckContext, joins: Iterable[Join]) -> Run:
    other = 0.0
    wires: dict[str, tuple[float, str, float, int]] = {}
    for join in joins:
        if join.sort != "conductor":
            other += _OHMS_OF_SORT[join.sort]
            continue
        name = join.by.partition(":")[2]
        found = context.layout.conductors[name].length_and_size(context.layout.cables)
        if found is not None:
            wires[name] = (-wire_ohms(*found), name, *found)
    return Run(tuple((name, length_m, awg) for _, name, length_m, awg in sorted(wires.values())), other)
