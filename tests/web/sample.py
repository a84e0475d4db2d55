"""The jobs with which the web is tried."""

from __future__ import annotations

from typing import Any

from app.job.reading import document_of
from app.job.sketch import sketch, sketch_job

FOUR_WIRES = (
    "xf.R fb.XF",
    "xf.C fb.C",
    "fb.R tc.R",
    "fb.W tc.W",
    "fb.Y tc.Y",
    "fb.G tc.G",
    "fb.Y ou.Y",
    "fb.C ou.C",
)


def gas_and_cooling(*more: str) -> dict[str, Any]:
    """Return a sound job: gas heat and cooling with four conductors to the room; w7 is that to the compressor."""
    parts = {"xf": "control-transformer", "fb": "furnace-board", "tc": "thermostat-heat-cool", "ou": "condensing-unit"}
    return document_of(sketch_job(sketch(parts, *FOUR_WIRES, *more)))


def shorted() -> dict[str, Any]:
    """Return the same job with hot landed on common."""
    return gas_and_cooling("fb.R fb.C")
