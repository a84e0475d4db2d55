"""What moves the blade of a switch, each drawn small under it."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from app.drawing.symbols.ink import Ink

TOP, BOTTOM = 12, 21
"""Between these, in u below the line of the connection points, lies what moves a blade."""

JIC = "after the JIC list of device symbols and IEEE 315 (shape from memory)"
OWN = "our own; no standard shape is known to us"


class Mover(NamedTuple):
    """What moves a blade. ``draw`` is None where nothing is known of it; ``linked`` draws the link dashed."""

    name: str
    meaning: str
    basis: str
    draw: Callable[[Ink], None] | None
    linked: bool = False


def _temperature(ink: Ink) -> None:
    """Draw the bent strip of a thermostat."""
    ink.line((30, TOP), (23, TOP), (23, 17), (37, 17), (37, BOTTOM), (30, BOTTOM))


def _pressure(ink: Ink) -> None:
    """Draw a dome on which something presses."""
    ink.arch((22, 20), (38, 20))
    ink.line((22, 20), (38, 20))


def _level(ink: Ink) -> None:
    """Draw a float."""
    ink.ring(30, 17, 5)


def _flow(ink: Ink) -> None:
    """Draw a paddle."""
    ink.line((30, TOP), (30, BOTTOM), (43, BOTTOM), (30, TOP))


def _position(ink: Ink) -> None:
    """Draw a cam."""
    ink.line((30, TOP), (21, BOTTOM), (39, BOTTOM), (30, TOP))


def _door(ink: Ink) -> None:
    """Draw a plunger."""
    ink.line((30, TOP), (30, 19))
    ink.line((21, 19), (39, 19))


def _hand(ink: Ink) -> None:
    """Draw a handle."""
    ink.line((21, BOTTOM), (21, 14), (39, 14), (39, BOTTOM))
    ink.line((30, TOP), (30, 14))


def _call(ink: Ink) -> None:
    """Draw the control that asks: a solid box."""
    ink.block(23, TOP, 37, BOTTOM)


def _late_on(ink: Ink) -> None:
    """Draw a head that points up."""
    ink.line((30, TOP), (30, BOTTOM))
    ink.line((22, 20), (30, TOP), (38, 20))


def _late_off(ink: Ink) -> None:
    """Draw a head that points down."""
    ink.line((30, TOP), (30, BOTTOM))
    ink.line((22, 13), (30, BOTTOM), (38, 13))


def _timed(ink: Ink) -> None:
    """Draw a sand glass."""
    ink.line((23, TOP), (37, TOP), (23, BOTTOM), (37, BOTTOM), (23, TOP))


MOVERS = (
    Mover("switch", "switch", JIC, None),
    Mover("temperature", "temperature switch", JIC, _temperature),
    Mover("pressure", "pressure switch", JIC, _pressure),
    Mover("level", "float switch", JIC, _level),
    Mover("flow", "flow switch", JIC, _flow),
    Mover("position", "limit or end switch", JIC, _position),
    Mover("door", "door switch", OWN, _door),
    Mover("hand", "switch that a hand moves", OWN, _hand),
    Mover("call", "contact that a call moves", OWN, _call, linked=True),
    Mover("late-on", "contact that moves late when asked", JIC, _late_on),
    Mover("late-off", "contact that moves late when no longer asked", JIC, _late_off),
    Mover("timed", "contact that moves in a timed sequence", OWN, _timed, linked=True),
)
