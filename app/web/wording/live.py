"""What an operating point says of a screw or a conductor, in words; a floating screw is never called 0 V."""

from __future__ import annotations

from app.circuit.operating_point import OperatingPoint, TerminalState

HOT_VOLTS = 1.0
"""Below this a screw is not called hot; it is what a plain meter shows beside its last digit."""


def terminal_state(point: OperatingPoint | None, terminal: str) -> TerminalState | None:
    """Return what stands at a terminal, None where nothing was computed."""
    return point.terminals.get(terminal) if point is not None else None


def short_volts(state: TerminalState | None) -> str:
    """Return ``26.1 V``, ``floating``, ``not known`` or nothing."""
    if state is None:
        return ""
    if state.floating:
        return "floating"
    if state.unknown or state.volts is None:
        return "not known"
    return f"{abs(state.volts):.1f} V"


def spoken_volts(state: TerminalState | None) -> str:
    """Return a sentence on the volts of a screw, or nothing."""
    if state is None:
        return ""
    if state.floating:
        return "Floating: no source reaches this."
    if state.unknown or state.volts is None:
        return f"Volts not known{': ' + state.why if state.why else ''}."
    return f"{abs(state.volts):.1f} volts to common."


def is_hot(state: TerminalState | None) -> bool:
    """Return whether a screw stands above common."""
    return state is not None and state.volts is not None and abs(state.volts) >= HOT_VOLTS
