"""What is said of a defrost that brings no heat: the lead that is missing, never one that is there."""

from __future__ import annotations

from app.checks.facts.frosted import first_defrost
from app.checks.samples import Parts, heat_pump, with_wires
from app.job.model import Layout
from tests.checks.bench import context, found

BANKS: Parts = {
    "xf": {"kind": "control-transformer", "settings": {"va": 75}},
    "hs": "heat-sequencer",
    "ir": "isolation-relay",
    "za": "zone-valve",
    "zb": "zone-valve",
    "zc": "zone-valve",
}
"""A second bank of electric heat, brought in by a relay, and three dampers on the call of the first."""


def two_banks(lead: str | None) -> Layout:
    """Return a heat pump over two banks, with a thin cable of sixty metres to the outdoor unit."""
    wires = {"r1": "tc.W ir.A1", "r2": "ir.A2 ah.C", "r3": "ah.R ir.COM", "r4": "ir.NO hs.W", "r5": "hs.C ah.C"}
    dampers = {f"{each}1": f"ah.W1 {each}.M1" for each in ("za", "zb", "zc")}
    dampers |= {f"{each}2": f"{each}.M2 ah.C" for each in ("za", "zb", "zc")}
    cable = "w9 w10 w11" if lead else "w9 w10"
    return with_wires(heat_pump({**wires, **dampers, "w11": lead}, BANKS), cable, length_m=60.0, size_awg=24)


def test_a_lead_that_brings_too_few_volts_is_not_told_as_one_that_is_missing() -> None:
    layout = two_banks("ou.W ah.W1")
    (defrost,) = first_defrost(context(layout), "ou")
    assert defrost.outputs == ("ou.W",)
    assert defrost.point.runs("electric-heat") == []
    assert found("defrost-without-tempering", layout) == ()


def test_the_lead_of_the_same_system_is_told_where_it_is_missing() -> None:
    (missing,) = found("defrost-without-tempering", two_banks(None))
    assert missing.subjects == ("part:ou", "terminal:ou.W")
