"""The node patterns of sneak circuit analysis, each with a clean twin."""

from __future__ import annotations

from functools import partial

from app.checks.samples import heat_pump
from app.checks.sneak_samples import (
    AROUND_OUTDOORS,
    ON_ONE_CALL,
    OUTDOORS,
    RELAY_BETWEEN,
    two_sources,
    two_valves,
    with_relays,
)
from app.job.model import Layout
from tests.outside.record import Check, Exactly, Source
from tests.outside.sources.class_2 import named

PATTERNS: dict[str, tuple[Layout, Layout]] = {
    "ground dome (two loads that share a common which opens)": (
        with_relays(),
        with_relays({"a2": "i1.A2 fb.C", "a4": "i2.A2 fb.C"}),
    ),
    "power dome (two sources that meet on one call)": (two_sources(ON_ONE_CALL), two_sources(RELAY_BETWEEN)),
    "both domes (end switches fed from their own calls)": (
        two_valves(),
        two_valves({"e1": "xf.R za.E1", "e2": "za.E1 zb.E1"}),
    ),
    "H (a contact across two calls)": (
        heat_pump(AROUND_OUTDOORS, OUTDOORS),
        heat_pump({"w8": "tc.W ot.A", "w12": "ot.B ah.W1"}, OUTDOORS),
    ),
}

SOURCE = Source(
    title="Sneak Circuit Analysis Handbook, D2-118341-1 (1970): node patterns",
    status="published (seen, secondary)",
    how="the findings of a check of the pattern built from parts of the catalogue, and of its clean twin",
    note="The fifth pattern, the single line, is the clean twin of the ground dome: one path with its own way back.",
    checks=tuple(
        Check(f"{name}{words}", Exactly(said), partial(named, "sneak-path", layout))
        for name, twins in PATTERNS.items()
        for layout, words, said in zip(twins, ("", ", clean twin"), ("named", "not named"), strict=True)
    ),
)
