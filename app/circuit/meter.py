"""What a meter shows between two terminals."""

from __future__ import annotations

from app.circuit.dead_windings import dead_between
from app.circuit.meter_loading import IMPEDANCE_OHMS, read_loaded
from app.circuit.meter_ohms import read_ohms
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint, TerminalState
from app.circuit.reading import METERS, Meter, Reading
from app.job.refusal import Refused

__all__ = ["METERS", "Meter", "Reading", "read", "read_with"]


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


def read_with(meter: Meter, circuit: Circuit, point: OperatingPoint, a: str, b: str) -> Reading:
    """Return what a meter of some sort shows from terminal ``a`` to terminal ``b``.

    Args:
        meter: ``ideal`` draws nothing; ``high`` has 10 MΩ and ``low`` 3 kΩ, and both see what comes through the
            insulation of a cable; ``ohms`` measures resistance and wants the power off.
        circuit: the layout as it is without the faults of the situation.
        point: what the circuit does, settled or at a moment of a sequence.
        a: a terminal.
        b: another one.

    Raises:
        Refused: code ``unknown-terminal``; ``power-on`` for ohms where a source is live.
    """
    ideal = read(point, a, b)
    if ideal.unknown:
        return ideal
    if meter == "ideal":
        return Reading(floating=True, why=dead_between(circuit, point, a, b)) if ideal.floating else ideal
    if meter == "ohms":
        return read_ohms(circuit, point, a, b)
    return read_loaded(circuit, point, a, b, IMPEDANCE_OHMS[meter])


def _terminal(point: OperatingPoint, name: str) -> TerminalState:
    state = point.terminals.get(name)
    if state is None:
        raise Refused(
            "unknown-terminal",
            f"There is no terminal {name} in this layout.",
            would_be_right="a terminal as part.LETTER, such as " + next(iter(sorted(point.terminals)), "fb.R"),
        )
    return state
