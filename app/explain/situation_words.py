"""A situation said in the options of the commands."""

from __future__ import annotations

from app.circuit.situation import Situation

IDLE = "idle"


def said_in_options(situation: Situation) -> str:
    """Return ``tc=cool-1 fb.limit=open``, ``idle`` where nothing is asked."""
    calls = [f"{part}={call}" for part, names in sorted(situation.calls.items()) for call in names]
    return " ".join([*calls, *(f"{name}={value}" for name, value in sorted(situation.set.items()))]) or IDLE
