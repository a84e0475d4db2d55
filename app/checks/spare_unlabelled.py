"""A spare conductor without a word about it

What it checks
Each conductor that is landed nowhere, at neither end, and has no note.

Why it matters
A spare core is worth money: it saves a new cable when a common or a second stage is wanted. But only if the next person
knows at both ends that it is one, that it is whole, and that it was not cut off from something. A bare spare that
swings in the box also finds a terminal by itself.

What to do
Cap it or fold it back at both ends, tag both ends alike, and say so in the job: a note on the conductor is enough.

Limits
A conductor that is landed at one end is told as a loose end. Whether the core is whole is not known: ring it out.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.finding import Evidence, Finding, Severity
from app.checks.fixes import note_on
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, gas_and_cooling, with_wires

NAME = "spare-unlabelled"
SEVERITY: Severity = "note"
TOGETHER = "{count} conductors are landed nowhere and have no note: {names}."

_NOTE = "spare, landed at neither end"
_ONE, _TWO = {"w20": "- -"}, {"w20": "- -", "w21": "- -"}

GOOD = (
    Good("every-core-landed", gas_and_cooling()),
    Good("spare-with-a-note", with_wires(gas_and_cooling(_ONE), "w20", note="spare, capped"), near_miss=True),
)
BAD = (
    Bad("spare-without-a-note", gas_and_cooling(_ONE), finds=(("conductor:w20",),), mended=gas_and_cooling(_ONE)),
    Bad(
        "two-of-them",
        dual_fuel(_TWO),
        finds=(("conductor:w20",), ("conductor:w21",)),
        mended=dual_fuel(_TWO),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for name, conductor in sorted(context.layout.conductors.items()):
        if conductor.ends == (None, None) and not conductor.note.strip():
            called = context.conductor_called(name)
            yield Finding(
                rule=NAME,
                severity=SEVERITY,
                subjects=(f"conductor:{name}",),
                message=f"{called} is landed nowhere and has no note that says so.",
                brief=called,
                why="The next person cannot tell a spare from a conductor that was taken off something.",
                evidence=Evidence(more={"landed_ends": 0}),
                fix=note_on(context, name, _NOTE),
            )
