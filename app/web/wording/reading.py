"""What a meter should read between two screws, in words."""

from __future__ import annotations

from app.circuit.reading import Meter, Reading
from app.explain.phrases import sentence

FLOATING = {
    "ohms": "Open: no path joins the two.",
    "ideal": "Floating: nothing joins the two, so no figure stands still.",
}


def reading_words(meter: Meter, reading: Reading) -> str:
    """Return ``26.1 V should read.``, or why nothing that means anything is read."""
    why = f" {sentence(reading.why)}" if reading.why else ""
    if reading.between_ohms is not None:
        least, most = reading.between_ohms
        return f"From {_figure(least)} to {_figure(most)} Ω should read.{why}"
    if reading.unknown:
        return f"Not known.{why}"
    if reading.floating:
        return (
            f"Floating: {reading.why}." if reading.why and meter != "ohms" else FLOATING.get(meter, FLOATING["ideal"])
        )
    if reading.ohms is not None:
        return f"{_figure(reading.ohms)} Ω should read.{why}"
    assert reading.volts is not None
    return f"{reading.volts:.1f} V should read.{why}"


def _figure(ohms: float) -> str:
    """Return ohms with as many digits as a meter gives: ``0.3``, ``57.6``, ``3000``."""
    return f"{ohms:.1f}" if ohms < 1000 else f"{ohms:.0f}"
