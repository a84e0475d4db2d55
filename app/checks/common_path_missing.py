"""Equipment has no way back to common

What it checks
Each coil, load or input of a part sits between a terminal that a source can reach and a common terminal. Where no
wire takes that common terminal to the common side of the same source, nothing behind it can work.

Why it matters
Current needs a way back. Without it a meter finds 24 V on both sides of the coil and none across it, which is easily
taken for a dead coil (Kirchhoff's laws).

What to do
Run a wire from the common terminal that is named to the common of the transformer that feeds this part, most simply
the common of the board. With two transformers take the right one: the return goes to the source that feeds the call.

Limits
An end that was not seen is taken as leading nowhere and listed as an assumption. A common that is broken inside a
part or cable is not on the drawing. Where what it draws goes through another load and lights or starts that, this is
told as power through loads.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.called_through import called_through
from app.checks.facts.commons import MissingCommon, is_control_alone, missing_commons
from app.checks.facts.way_back import fix_of, shown_at, ways_back_words
from app.checks.finding import Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling, heat_pump, two_transformers

NAME = "common-path-missing"
SEVERITY: Severity = "warning"

GOOD = (
    Good("furnace-and-cooling", gas_and_cooling()),
    Good("common-by-way-of-the-other-unit", gas_and_cooling({"w8": "xf.C ou.C"}), near_miss=True),
    Good("part-still-in-its-box", gas_and_cooling(parts={"hu": "humidifier"}), near_miss=True),
)
BAD = (
    Bad(
        "outdoor-unit-without-common",
        gas_and_cooling({"w8": None}),
        finds=(("terminal:ou.C",),),
        mended=gas_and_cooling({"w8": None, "w-mended": "ou.C fb.C"}),
    ),
    Bad(
        "loose-common-lead",
        gas_and_cooling({"w8": "fb.C -"}),
        finds=(("terminal:ou.C",),),
        mended=gas_and_cooling({"w8": "fb.C ou.C"}),
    ),
    Bad(
        "nothing-comes-back-from-the-board",
        heat_pump({"w2": None}),
        finds=(("terminal:ah.C", "terminal:ou.C", "terminal:tc.C"),),
        mended=heat_pump({"w2": None, "w-mended": "ah.C xf.C"}),
    ),
    Bad(
        "back-to-the-wrong-transformer",
        two_transformers({"w7": "fb.C ou.C"}),
        finds=(("terminal:ou.C",),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    told = [found.missing for found in context.once(called_through)]
    for missing in context.once(missing_commons):
        if missing not in told and not is_control_alone(context, missing):
            yield _finding(context, missing)


def _finding(context: CheckContext, missing: MissingCommon) -> Finding:
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=tuple(f"terminal:{terminal}" for terminal in missing.terminals),
        message=(
            f"{context.name_of(missing.terminals[0])} has no way back to {ways_back_words(context, missing)}: "
            f"nothing that it serves can work."
        ),
        why="Current needs a way back: there is 24 V on both sides of the coil and none across it.",
        assumes=context.unseen_from(missing.nodes),
        evidence=shown_at(context, missing),
        fix=fix_of(context, missing),
    )
