"""Nobody knows what a part is

What it checks
Parts of which the kind is unknown and on which conductors are landed.

Why it matters
What such a part does between its terminals was not seen. It may feed what it is wired to, stop it, or do nothing: what
depends on that is told as unknown, and no rule speaks of it. A job that says nothing else is not known to be sound.

What to do
Open it, read its plate, or measure between its terminals with the power off; then choose its kind, or describe one.

Limits
No short and no overload inside it is looked for, and no transformer. What stays the same whatever it does is told as
known.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.finding import Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling
from app.job.names import letter_of

NAME = "part-unidentified"
SEVERITY: Severity = "note"
TOGETHER = "{count} parts are wired and nobody knows what they are: {names}."

_BOX = {"bx": {"kind": "unknown", "label": "Grey box"}}

GOOD = (
    Good("every-part-known", gas_and_cooling()),
    Good("a-box-with-nothing-landed", gas_and_cooling(parts=_BOX), near_miss=True),
)
BAD = (
    Bad(
        "a-box-between-supply-and-common",
        gas_and_cooling({"w9": "fb.R bx.1", "w10": "bx.2 fb.C"}, _BOX),
        finds=(("part:bx",),),
    ),
    Bad(
        "a-box-that-the-call-for-cooling-goes-through",
        gas_and_cooling({"w7": "fb.Y bx.1", "w9": "bx.2 ou.Y"}, _BOX),
        finds=(("part:bx",),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for part in sorted(context.wired_parts):
        if context.kind_of(part) is None:
            yield _finding(context, part)


def _finding(context: CheckContext, part: str) -> Finding:
    letters = ", ".join(sorted(letter_of(terminal) for terminal in context.wiring.terminals_of(part)))
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"part:{part}",),
        message=f"Nobody knows what {context.label_of(part)} does between {letters}.",
        why="What it could start or stop is not known, and is not judged here.",
        assumes=(f"no short and no overload lies in {context.label_of(part)}",),
        brief=context.label_of(part),
    )
