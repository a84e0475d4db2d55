"""Inrush and sealed amps of starter coils as a coil table gives them."""

from __future__ import annotations

from functools import partial

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Kind
from app.circuit.situation import Situation
from app.job.sketch import sketch
from tests.circuit.bench import solved, terminals
from tests.outside.record import Check, Near, Source

COILS = {
    "size 00": (208.0, 0.29, 0.07, 60.3, 14.6, 4.1),
    "size 2": (120.0, 1.8, 0.25, 216.0, 30.0, 7.2),
    "size 3": (208.0, 2.78, 0.21, 578.0, 43.7, 13.2),
}
"""(coil volts, inrush amps, sealed amps, inrush VA, sealed VA, ratio): handbook 4.2; VA and ratio calculated."""


def coil_amps(volts: float, va_inrush: float, va_sealed: float, percent: float) -> float:
    """Return the amps of a coil that is told its VA, as if at its rated volts, fed with some percent of them."""
    kinds = {
        "line": {
            "title": "Line",
            "terminals": terminals(R="supply", C="common"),
            "elements": {"w": {"is": "source", "between": ["R", "C"], "volts": volts, "va": 1e6, "regulation": 0.01}},
        },
        "starter": {
            "title": "Starter",
            "terminals": terminals(A="call", B="common"),
            "elements": {
                "coil": {
                    "is": "coil",
                    "between": ["A", "B"],
                    "volts": volts,
                    "va_sealed": va_sealed,
                    "va_inrush": va_inrush,
                }
            },
        },
    }
    catalogue = Catalogue({name: Kind.model_validate({"summary": "", **kind}) for name, kind in kinds.items()})
    layout = sketch({"xf": "line", "m": "starter"}, "xf.R m.A", "xf.C m.B")
    coil = solved(layout, Situation(supply_percent=percent), catalogue).elements["m.coil"]
    assert coil.volts is not None
    return coil.amps / coil.volts * volts


SOURCE = Source(
    title="Coil table of motor starters, in an industrial electronics text",
    status="published (seen)",
    how="amps of a coil of so many VA, released at 60 % of the volts and pulled in at 100 %, at rated volts",
    checks=(
        *(
            Check(f"inrush of {name}", Near(inrush, "A", 0.005), partial(coil_amps, volts, va_inrush, va_sealed, 60.0))
            for name, (volts, inrush, _, va_inrush, va_sealed, _) in COILS.items()
        ),
        *(
            Check(
                f"sealed amps of {name}",
                Near(sealed, "A", absolute=0.0006),
                partial(coil_amps, volts, va_inrush, va_sealed, 100.0),
            )
            for name, (volts, _, sealed, va_inrush, va_sealed, _) in COILS.items()
        ),
    ),
)
