"""A change in the words in which a technician would say it; ``Change.words`` are those in which it was asked for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from app.catalogue.setting_words import setting_called, value_words
from app.catalogue.spoken import plain
from app.circuit.network import Circuit
from app.circuit.situation import Fault
from app.job.temperatures import Units, temperature_words
from app.sequence.change import Change


def change_words(change: Change, circuit: Circuit, units: Units) -> str:
    """Return what a change does: ``tc calls heat 1 and fan``, ``outdoors 23 °F``, ``supply main off``."""
    return ", ".join(_said(change, circuit, units))


def calls_words(calls: Sequence[str]) -> str:
    """Return what a control asks for: ``heat 1 and aux heat``, ``idle`` for nothing."""
    return " and ".join(plain(call) for call in calls) or "idle"


def fault_words(fault: Fault) -> str:
    """Return what is broken: ``conductor open w3``."""
    at = [fault.at] if isinstance(fault.at, str) else fault.at
    return f"{plain(fault.is_)} {', '.join(at)}"


def _said(change: Change, circuit: Circuit, units: Units) -> Iterator[str]:
    for part, calls in change.calls.items():
        yield f"{part} calls {calls_words(calls)}" if calls else f"{part} idle"
    for name, value in change.set.items():
        part, _, own = name.partition(".")
        kind = circuit.catalogue.kind_of(circuit.layout.parts[part]) if part in circuit.layout.parts else None
        yield f"{part} {setting_called(kind, own)} {value_words(kind, own, value, units)}"
    for state in ("off", "on"):
        supplies = [supply for supply, now in change.mains.items() if now == state]
        if supplies:
            yield f"supply {' and '.join(supplies)} {state}"
    if change.supply_percent is not None:
        yield f"supply at {change.supply_percent:g} %"
    if change.outdoor_c is not None:
        yield f"outdoors {temperature_words(change.outdoor_c, units)}"
    yield from (fault_words(fault) for fault in change.faults)
