"""A supply terminal gets no 24 V

What it checks
A supply terminal behind which a coil, a load or a contact waits for 24 V, on a part that is wired, while no wire,
jumper or closed contact takes it to the hot side of any source.

Why it matters
A board without supply does nothing, and a thermostat without supply passes nothing on: its calls are empty gestures.

What to do
Land the supply lead on the terminal that is named. Where a fuse sits on the board, the lead to the thermostat comes
from behind the fuse.

Limits
Everything is judged at rest, with safeties closed and the mains on. A supply that only comes through a relay which
has pulled in counts as none.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.feeding import can_share, supply_fix
from app.checks.facts.probes import common_beside, measured
from app.checks.facts.supplies import DeadSupply, dead_supplies
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling, heat_pump, two_transformers

NAME = "supply-side-unpowered"
SEVERITY: Severity = "warning"

_FLOAT = {"fl": "float-switch"}

GOOD = (
    Good("furnace-and-cooling", gas_and_cooling()),
    Good(
        "supply-through-a-float-switch", gas_and_cooling({"w3": "fb.R fl.A", "w9": "fl.B tc.R"}, _FLOAT), near_miss=True
    ),
    Good("two-supplies", two_transformers(), near_miss=True),
)
BAD = (
    Bad(
        "thermostat-without-supply",
        gas_and_cooling({"w3": None}),
        finds=(("terminal:tc.R",),),
        mended=gas_and_cooling({"w3": None, "w-mended": "tc.R fb.R"}),
    ),
    Bad(
        "board-without-transformer",
        heat_pump({"w1": None}),
        finds=(("terminal:ah.XF", "terminal:ah.R", "terminal:ou.R", "terminal:tc.R"),),
        mended=heat_pump({"w1": None, "w-mended": "ah.XF xf.R"}),
    ),
    Bad(
        "second-supply-lead-not-run",
        two_transformers({"w5": None}),
        finds=(("terminal:tc.RC",),),
        mended=two_transformers({"w5": None, "w-mended": "tc.RC xf2.R"}),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for dead in context.once(dead_supplies):
        if dead.fed_beside is not None and can_share(context, dead):
            continue
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=tuple(f"terminal:{terminal}" for terminal in dead.terminals),
            message=f"{context.name_of(dead.entry)} gets no 24 V: no wire takes it to the hot side of a source.",
            why="What waits behind it stays dead: a board does nothing, a thermostat passes nothing on.",
            assumes=context.unseen_from(dead.nodes),
            evidence=_evidence(context, dead),
            fix=supply_fix(context, dead),
        )


def _evidence(context: CheckContext, dead: DeadSupply) -> Evidence:
    common = common_beside(context, dead.entry)
    return Evidence() if common is None else measured(context, context.idle, dead.entry, common)
