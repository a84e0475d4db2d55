"""More conductors on a terminal than it takes

What it checks
How many conductors are landed on each terminal, against the number that the terminal takes.

Why it matters
Under a screw that is made for two, the third holds badly: it works loose, gets warm, or drops out when somebody moves
the bundle.

What to do
Join the conductors under a splice or on a terminal strip and bring one of them to the screw; or use another terminal
of the same net.

Limits
How many a terminal takes is a figure of the kind, two where nobody said otherwise; the equipment's papers count.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling

NAME = "terminal-overfilled"
SEVERITY: Severity = "warning"

_SPLICE = {"sp": "splice"}

GOOD = (
    Good("one-on-each", gas_and_cooling()),
    Good("just-as-many-as-it-takes", gas_and_cooling({"w9": "fb.C ou.C"}), near_miss=True),
    Good(
        "joined-under-a-splice",
        gas_and_cooling({"w9": "ou.C sp.1", "w10": "sp.1 fb.C", "w11": "sp.1 xf.C"}, _SPLICE),
        near_miss=True,
    ),
)
BAD = (
    Bad(
        "three-under-one-screw",
        gas_and_cooling({"w9": "fb.C ou.C", "w10": "xf.C ou.C"}),
        finds=(("terminal:ou.C", "conductor:w10", "conductor:w8", "conductor:w9"),),
    ),
    Bad(
        "loose-ends-count-as-well",
        gas_and_cooling({"w9": "tc.G -", "w10": "tc.G -"}),
        finds=(("terminal:tc.G", "conductor:w10", "conductor:w6", "conductor:w9"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for terminal, landed in sorted(context.wiring.landed.items()):
        holds = context.terminals[terminal].holds
        if is_overfilled(context, terminal):
            wires = sorted({conductor for conductor, _ in landed})
            yield Finding(
                rule=NAME,
                severity=SEVERITY,
                subjects=(f"terminal:{terminal}", *(f"conductor:{name}" for name in wires)),
                message=f"{len(landed)} conductors are landed on {context.name_of(terminal)}, which takes {holds}.",
                why="The one too many holds badly: it works loose, gets warm, or drops out.",
                evidence=Evidence(more={"landed": len(landed), "holds": holds}),
            )


def is_overfilled(context: CheckContext, terminal: str, more: int = 0) -> bool:
    """Return whether a terminal has more conductors than it takes, with ``more`` landed on it."""
    return len(context.wiring.landed_on(terminal)) + more > context.terminals[terminal].holds
