"""What a Class 2 source may be and how it must be protected, through the rules that say so."""

from __future__ import annotations

from functools import partial
from typing import Any

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.kind import Kind
from app.checks.check import check_layout
from app.checks.facts.secondary import most_amps
from app.checks.samples import gas_and_cooling
from app.job.model import Layout
from app.job.sketch import sketch_job
from tests.outside.record import Check, Exactly, Near, Source

MOST_AMPS = {24.0: 4.17, 25.2: 3.97, 26.4: 3.79, 28.0: 3.57, 30.0: 3.33}
"""100/Vmax: handbook 2.1, calculated."""


def named(rule: str, layout: Layout, **kinds: Kind) -> str:
    """Return whether a check of a layout names a fault."""
    found = check_layout(sketch_job(layout), "as-left", builtin_catalogue().with_kinds(kinds)).findings
    return "named" if any(finding.rule == rule for finding in found) else "not named"


def on_source(rule: str, **source: Any) -> str:
    """Return whether a check names a fault of a furnace with cooling that is fed by such a source."""
    element = {"is": "source", "between": ["R", "C"], "va": 40.0, "limiting": "inherent", **source}
    terminals = {"R": {"function": "supply", "use": "24 V"}, "C": {"function": "common", "use": "common"}}
    kind = {"title": "Source", "summary": "", "terminals": terminals, "elements": {"w": element}}
    return named(rule, gas_and_cooling(parts={"xf": "source"}), source=Kind.model_validate(kind))


def fused(fuse_amps: int, limiting: str = "device", regulation: float = 0.10) -> str:
    """Return whether a check names the protection of a source behind a board with such a fuse."""
    settings = {"limiting": limiting, "regulation": regulation}
    parts = {
        "xf": {"kind": "control-transformer", "settings": settings},
        "fb": {"kind": "furnace-board", "settings": {"fuse_amps": fuse_amps}},
    }
    return named("overcurrent-protection", gas_and_cooling(parts=parts))


SOURCE = Source(
    title="NEC chapter 9 table 11(A): Class 2 sources",
    status="from memory, unconfirmed",
    how="the findings of a check of a furnace with cooling on such a source; the largest fuse that the rule asks for",
    note="That the tables exist, what 100/Vmax means, 100 VA and 30 V were seen in secondary texts; the "
    "other cells are from memory.",
    checks=(
        *(
            Check(
                f"largest fuse at {volts:g} V",
                Near(figure, "A", absolute=0.006),
                partial(most_amps, volts),
                "calculated",
            )
            for volts, figure in MOST_AMPS.items()
        ),
        Check(
            "29.9 V open circuit",
            Exactly("not named"),
            partial(on_source, "class-2-exceeded", volts=27.0, regulation=29.9 / 27 - 1),
            "published (seen, secondary)",
        ),
        Check(
            "30.1 V open circuit",
            Exactly("named"),
            partial(on_source, "class-2-exceeded", volts=27.0, regulation=30.1 / 27 - 1),
            "published (seen, secondary)",
        ),
        Check(
            "nameplate of 100 VA",
            Exactly("not named"),
            partial(on_source, "class-2-exceeded", va=100.0),
            "published (seen, secondary)",
        ),
        Check(
            "nameplate of 101 VA",
            Exactly("named"),
            partial(on_source, "class-2-exceeded", va=101.0),
            "published (seen, secondary)",
        ),
        Check("5 A fuse on a source that does not limit itself", Exactly("named"), partial(fused, 5)),
        Check("3 A fuse on a source that does not limit itself", Exactly("not named"), partial(fused, 3)),
        Check("3 A fuse even at 28.8 V open circuit", Exactly("not named"), partial(fused, 3, regulation=0.20)),
        Check("5 A fuse on one that limits itself", Exactly("not named"), partial(fused, 5, "inherent")),
    ),
)
