"""What a meter shows between two terminals."""

from __future__ import annotations

from dataclasses import dataclass

from app.circuit.operating_point import OperatingPoint, TerminalState
from app.job.refusal import Refused


@dataclass(frozen=True, slots=True)
class Reading:
    """Exactly one of three holds: ``volts`` (RMS), ``floating``, or ``unknown`` with why."""

    volts: float | None = None
    floating: bool = False
    unknown: bool = False
    why: str = ""


def read(point: OperatingPoint, a: str, b: str) -> Reading:
    """Return what an ideal voltmeter shows from terminal ``a`` to terminal ``b``.

    It floats exactly when the two lie in different components; in one without a source it is 0 V.

    Raises:
        Refused: code ``unknown-terminal``.
    """
    first, second = _terminal(point, a), _terminal(point, b)
    for state in (first, second):
        if state.unknown:
            return Reading(unknown=True, why=state.why)
    volts = point.volts_between(a, b)
    return Reading(floating=True) if volts is None else Reading(volts=volts)


def _terminal(point: OperatingPoint, name: str) -> TerminalState:
    state = point.terminals.get(name)
    if state is None:
        raise Refused(
            "unknown-terminal",
            f"There is no terminal {name} in this layout.",
            would_be_right="a terminal as part.LETTER, such as " + next(iter(sorted(point.terminals)), "fb.R"),
        )
    return state
