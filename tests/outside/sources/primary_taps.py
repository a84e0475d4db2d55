"""What a secondary gives when the line is landed on a tap for other volts."""

from __future__ import annotations

from functools import partial

from app.checks.samples import gas_and_cooling
from tests.circuit.bench import sketch
from tests.outside.asked import volts
from tests.outside.record import Check, Exactly, Near, Source
from tests.outside.sources.class_2 import named


def fed(line_volts: int, primary_tap: int, load_va: float | None = None) -> float | str:
    """Return the volts of a transformer of 40 VA and 10 %, open or with a load of so many VA at 24 V."""
    settings = {"line_volts": line_volts, "primary_tap": primary_tap}
    parts = {
        "xf": {"kind": "control-transformer", "settings": settings},
        "ld": {"kind": "lamp", "settings": {"va": load_va or 1.0}},
    }
    wires = ("xf.R ld.A", "xf.C ld.B") if load_va else ()
    return volts(sketch(parts, *wires), "xf.R", "xf.C")


def told(line_volts: int, primary_tap: int) -> str:
    """Return whether a check names the tap."""
    settings = {"line_volts": line_volts, "primary_tap": primary_tap}
    parts = {"xf": {"kind": "control-transformer", "settings": settings}}
    return named("primary-tap-wrong", gas_and_cooling(parts=parts))


SOURCE = Source(
    title="Line and primary tap",
    status="calculated",
    how="the volts of a transformer of 40 VA and 10 %, and the findings of a check",
    note="Rated volts are those at rated load: 40 VA at 24 V.",
    checks=(
        Check("208 V on a tap for 240 V, open", Near(22.9, "V", absolute=0.05), partial(fed, 208, 240)),
        Check("208 V on a tap for 240 V, rated load", Near(20.8, "V", absolute=0.05), partial(fed, 208, 240, 40.0)),
        Check("240 V on a tap for 208 V, open", Near(30.5, "V", absolute=0.05), partial(fed, 240, 208)),
        Check("240 V on a tap for 208 V, rated load", Near(27.7, "V", absolute=0.05), partial(fed, 240, 208, 40.0)),
        Check("240 V on a tap for 240 V, rated load", Near(24.0, "V", absolute=0.005), partial(fed, 240, 240, 40.0)),
        Check("208 V on a tap for 240 V is said", Exactly("named"), partial(told, 208, 240)),
        Check("240 V on a tap for 208 V is said", Exactly("named"), partial(told, 240, 208)),
        Check("208 V on a tap for 208 V is not", Exactly("not named"), partial(told, 208, 208)),
    ),
)
