"""The secondary of a source as a nameplate and a meter tell it: volts, line and tap, what limits it, its terminals."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.catalogue.catalogue import figure, line_share, tap_marking
from app.checks.context import CheckContext
from app.checks.facts.joins import Winding
from app.checks.facts.strain import rated_volts
from app.circuit.impedance import LEAST_REGULATION

CLASS_2_VOLTS = 30.0
"""The most that a Class 2 source may have (NEC chapter 9 table 11(A); 30 V seen in secondary text)."""
LINE_TOLERANCE = 0.05
"""A line and a tap that differ by less than this are meant for each other: 230 V on a tap for 240 V. Common practice,
no source."""


@dataclass(frozen=True, slots=True)
class Tap:
    """A source whose line and tap are not meant for each other. ``right`` is the choice of the tap setting that is."""

    winding: Winding
    line_volts: float
    tap_volts: float
    setting: str
    right: str | int | float | None


def open_volts(context: CheckContext, winding: Winding) -> float:
    """Return the volts of a source with nothing on it, which are the most that it ever has."""
    values = context.wiring.settings[winding.part]
    regulation = max(LEAST_REGULATION, figure(winding.element.regulation, values))
    return rated_volts(context, winding) * (1 + regulation) * line_share(winding.element, values)


def most_va(volts: float) -> float:
    """Return the most that the nameplate of a Class 2 source of so many volts may say (table 11(A), from memory)."""
    return 5.0 * volts if volts <= 20 else 100.0


def most_amps(volts: float) -> float:
    """Return the largest fuse of a Class 2 source that does not limit itself (table 11(A), from memory)."""
    return 5.0 if volts <= 20 else 100.0 / volts


def limiting_of(context: CheckContext, winding: Winding) -> str:
    """Return what limits a source: ``inherent``, ``device`` or ``unknown``."""
    limiting = winding.element.limiting
    return str(context.wiring.settings[winding.part].get(limiting, limiting))


def wrong_taps(context: CheckContext) -> tuple[Tap, ...]:
    """Return the sources whose line is landed on a tap for another."""
    return tuple(tap for winding in context.windings if (tap := _tap(context, winding)) is not None)


def wrongly_tapped(context: CheckContext) -> frozenset[str]:
    """Return the names of the sources whose line is landed on a tap for another."""
    return frozenset(tap.winding.name for tap in context.once(wrong_taps))


def _tap(context: CheckContext, winding: Winding) -> Tap | None:
    element, values = winding.element, context.wiring.settings[winding.part]
    if element.line_volts is None or not element.tap or abs(line_share(element, values) - 1) <= LINE_TOLERANCE:
        return None
    line = figure(element.line_volts, values)
    choices = context.wiring.kinds[winding.part].settings[element.tap].choices
    fits = (each for each in choices if abs(line / element.taps[tap_marking(each)] - 1) <= LINE_TOLERANCE)
    return Tap(winding, line, element.taps[tap_marking(values[element.tap])], element.tap, next(fits, None))


def ends_of(context: CheckContext, winding: Winding) -> tuple[str, str] | None:
    """Return the terminals of the source's own part on its two sides, where it has them."""
    hot, common = (next(_own_terminals(context, winding.part, node), None) for node in (winding.hot, winding.common))
    return (hot, common) if hot is not None and common is not None else None


def _own_terminals(context: CheckContext, part: str, node: str) -> Iterator[str]:
    for terminal in context.wiring.terminals_of(part):
        if context.wired.same(terminal, node):
            yield terminal
