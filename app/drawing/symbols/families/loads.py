"""What takes power, and what only looks whether there is some: load, heater, lamp, input of electronics."""

from __future__ import annotations

from app.drawing.surface.verbs import HEAVY, THIN
from app.drawing.symbols.ink import Ink
from app.drawing.symbols.symbol import Symbol


def _load(ink: Ink, on: bool | None) -> None:
    ink.box(14, -9, 46, 9)
    if on:
        ink.block(19, -4, 41, 4)


def _heater(ink: Ink, on: bool | None) -> None:
    peaks = [(12 + 6 * number, 8 if number % 2 else -8) for number in range(1, 6)]
    ink.line((12, 0), *peaks, (48, 0), pen=HEAVY if on else THIN)


def _lamp(ink: Ink, on: bool | None) -> None:
    ink.ring(30, 0, 12, HEAVY if on else THIN)
    ink.line((22, -8), (38, 8), pen=HEAVY if on else THIN)
    ink.line((22, 8), (38, -8), pen=HEAVY if on else THIN)


def _input(ink: Ink, on: bool | None) -> None:
    ink.box(16, -12, 44, 12)
    ink.line((20, 6), (30, 6), (30, -6), (40, -6))
    if on:
        ink.block(30, -6, 40, 6)


SYMBOLS = (
    Symbol("load", "load", "a box, IEC 60617 impedance (from memory)", _load, 14, 46, has_states=True),
    Symbol("heater", "heater or heat motor", "IEEE 315 resistor (from memory)", _heater, 12, 48, has_states=True),
    Symbol("lamp", "lamp", "a cross in a ring, IEC 60617 (from memory)", _lamp, 18, 42, has_states=True),
    Symbol(
        "input",
        "input that looks for 24 V",
        "a step in a box, after the threshold of IEC 60617 (from memory)",
        _input,
        16,
        44,
        has_states=True,
    ),
)
