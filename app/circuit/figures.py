"""The figures of one part under its settings: admittances, thresholds, ratings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.catalogue.catalogue import figure, line_share, supply_of
from app.catalogue.kind import Choice, Coil, Contact, Fuse, Input, JumperElement, Load, Source
from app.circuit.impedance import CONTACT_OHMS, FUSE_OHMS, JUMPER_OHMS, load_siemens, source_behind
from app.circuit.template import SlotElement, Template

INPUT_LETS_GO = 0.8
"""An input is off below this share of its threshold."""


@dataclass(frozen=True, slots=True)
class SourceFigures:
    """A source: open-circuit volts (negative for 180°), series siemens, rated VA, and whether its phase is known."""

    slot: int
    emf: float
    siemens: float
    va: float
    phase_known: bool
    mains: str


@dataclass(frozen=True, slots=True)
class PartFigures:
    """Figures by slot of the kind, by judged element, by fuse.

    ``on`` and ``off`` are siemens with the slot on (closed, pulled in, whole, live) and off. ``rises`` and ``falls``
    are the volts from which a judged element is on and below which it is off; in between it keeps.
    """

    on: tuple[complex, ...]
    off: tuple[complex, ...]
    rises: tuple[float, ...]
    falls: tuple[float, ...]
    fuse_amps: tuple[float, ...]
    sources: tuple[SourceFigures, ...]


def figures_of(template: Template, values: Mapping[str, Choice], dead: frozenset[str] = frozenset()) -> PartFigures:
    """Return the figures of a part.

    Args:
        template: of its kind.
        values: its settings, by name.
        dead: names of coils that an injected fault has cut or shorted; they conduct nothing and never pull in.
    """
    elements = [slot.element for slot in template.slots]
    siemens = [(0j, 0j) if slot.name in dead else _siemens(slot.element, values) for slot in template.slots]
    limits = [
        (float("inf"), float("inf")) if template.slots[at].name in dead else _limits(elements[at], values)
        for at in template.judged
    ]
    return PartFigures(
        on=tuple(on for on, _ in siemens),
        off=tuple(off for _, off in siemens),
        rises=tuple(rises for rises, _ in limits),
        falls=tuple(falls for _, falls in limits),
        fuse_amps=tuple(figure(e.amps, values) for e in elements if isinstance(e, Fuse)),
        sources=tuple(_source(at, e, values) for at, e in enumerate(elements) if isinstance(e, Source)),
    )


def _siemens(element: SlotElement, values: Mapping[str, Choice]) -> tuple[complex, complex]:
    """Return (on, off) of a slot."""

    def of(value: float | str) -> float:
        return figure(value, values)

    match element:
        case Source():
            return complex(source_behind(of(element.volts), of(element.va), of(element.regulation))[1]), 0j
        case JumperElement():
            return complex(1 / JUMPER_OHMS), 0j
        case Fuse():
            return complex(1 / FUSE_OHMS), 0j
        case Contact():
            leak = element.off_leak_ohms
            return complex(1 / CONTACT_OHMS), complex(0 if leak is None else 1 / of(leak))
        case Coil():
            volts = of(element.volts)
            sealed = load_siemens(volts, of(element.va_sealed), of(element.power_factor_sealed))
            inrush = load_siemens(volts, of(element.va_inrush), of(element.power_factor_inrush))
            return sealed, inrush
        case Load():
            steady = load_siemens(of(element.volts), of(element.va), of(element.power_factor))
            return steady, steady
        case Input():
            steady = complex(1 / of(element.ohms))
            return steady, steady


def _limits(element: SlotElement, values: Mapping[str, Choice]) -> tuple[float, float]:
    """Return the volts from which a judged element is on, and below which it is off."""

    def of(value: float | str) -> float:
        return figure(value, values)

    match element:
        case Coil():
            volts = of(element.volts)
            return of(element.pull_in) * volts, of(element.drop_out) * volts
        case Input():
            return of(element.threshold_volts), INPUT_LETS_GO * of(element.threshold_volts)
        case Load(powers_above=float() | int() | str() as above):
            return of(above), of(above)
        case _:
            raise ValueError(f"{element.is_} is never judged by its volts")


def _source(at: int, element: Source, values: Mapping[str, Choice]) -> SourceFigures:
    va = figure(element.va, values)
    emf, siemens = source_behind(figure(element.volts, values), va, figure(element.regulation, values))
    emf *= line_share(element, values)
    phase: Choice = element.phase_deg
    if isinstance(phase, str) and phase != "unknown":
        phase = _phase(values[phase])
    return SourceFigures(at, -emf if phase == 180 else emf, siemens, va, phase != "unknown", supply_of(element, values))


def _phase(value: Choice) -> Choice:
    """A setting that holds a phase may hold the word for one that nobody knows."""
    return 180 if value in (180, "180") else 0 if value in (0, "0") else "unknown"
