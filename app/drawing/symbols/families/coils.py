"""Coils and what they move: a relay or contactor, a valve, a motor. Pulled in, the body is heavy and filled."""

from __future__ import annotations

from app.drawing.surface.verbs import HEAVY, THIN
from app.drawing.symbols.ink import Ink
from app.drawing.symbols.symbol import Symbol

RING = "a ring, as IEEE 315 and the JIC list show a coil (from memory); the core is our own"


def _coil(ink: Ink, pulled_in: bool | None) -> None:
    ink.ring(30, 0, 12, HEAVY if pulled_in else THIN)
    if pulled_in:
        ink.dot(30, 0, 6)


def _solenoid(ink: Ink, pulled_in: bool | None) -> None:
    for start in (15, 25, 35):
        ink.arch((start, 0), (start + 10, 0), HEAVY if pulled_in else THIN)
    if pulled_in:
        ink.block(18, 5, 42, 11)
    else:
        ink.box(18, 5, 42, 11)


def _motor(ink: Ink, runs: bool | None) -> None:
    ink.ring(30, 0, 12, HEAVY if runs else THIN)
    ink.word(30, 5, "M")


SYMBOLS = (
    Symbol("coil", "coil of a relay or contactor", RING, _coil, 18, 42, has_states=True),
    Symbol(
        "solenoid",
        "coil of a valve",
        "a winding over its plunger, after the windings of IEEE 315 (from memory)",
        _solenoid,
        15,
        45,
        has_states=True,
    ),
    Symbol("motor", "motor", "M in a ring, IEC 60617 and IEEE 315 (from memory)", _motor, 18, 42, has_states=True),
)
