"""The letters at the two ends of a call mislead

What it checks
Conductors that join a call of one part with a call of another under different letters, where one of the parts has a
terminal with the letter of the other end as well, and this conductor is not on it.

Why it matters
Letters are standardised only in part, and a call may well go from one letter to another. But whoever finds a lead that
comes from W2 on W1, with a W2 beside it, takes it for a mistake and moves it, or takes the next lead for what it is
not (common practice, no source).

What to do
Nothing, if the equipment's papers have it so: tag both ends and say so in the conductor's note. Otherwise move the
lead.

Limits
Where a call does not bring what it asks for, that is told and not its letters. Letters of which one contains the other
(Y and Y1, O and O/B) are taken for the same. A conductor with a note counts as labelled.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from app.checks.context import CheckContext
from app.checks.facts.calls import unasked
from app.checks.facts.probes import common_beside, measured
from app.checks.facts.silence import falling_short
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import Parts, Wires, gas_and_cooling, heat_pump
from app.job.names import letter_of, part_of

NAME = "letter-differs"
SEVERITY: Severity = "note"
TOGETHER = "{count} conductors change their letter on the way, and the letter is there for another: {names}."

_TWO_BANKS: Parts = {
    "tc": {"kind": "thermostat-dual-fuel", "settings": {"equipment": "heat-pump", "heat_stages": 2}},
}
_PANEL: Parts = {"zp": "zone-panel", "xf2": "control-transformer"}
_ZONED: Wires = {
    **{f"w{number}": f"fb.{letter} zp.{letter}" for number, letter in enumerate("RWYG", start=3)},
    **{f"z{letter.lower()}": f"zp.Z1{letter} tc.{letter}" for letter in "RWYG"},
    "xr": "xf2.R zp.XR",
    "xc": "xf2.C zp.XC",
}
_TO_BANKS: Wires = {"w3": "ah.R tc.RH", "w5": "tc.Y1 ou.Y"}

GOOD = (
    Good("one-letter-contains-the-other", heat_pump()),
    Good("no-such-letter-at-the-other-end", heat_pump({"w12": "tc.E ah.W2"}), near_miss=True),
    Good("behind-a-zone-panel-with-letters-of-its-own", gas_and_cooling(_ZONED, _PANEL), near_miss=True),
)
BAD = (
    Bad(
        "banks-crossed",
        heat_pump({**_TO_BANKS, "w8": "tc.W1 ah.W2", "w12": "tc.W2 ah.W1"}, _TWO_BANKS),
        finds=(
            ("conductor:w12", "terminal:tc.W2", "terminal:ah.W1"),
            ("conductor:w8", "terminal:tc.W1", "terminal:ah.W2"),
        ),
    ),
    Bad(
        "both-on-the-first-bank",
        heat_pump({**_TO_BANKS, "w8": "tc.W1 ah.W1", "w12": "tc.W2 ah.W1"}, _TWO_BANKS),
        finds=(("conductor:w12", "terminal:tc.W2", "terminal:ah.W1"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for name, conductor in sorted(context.layout.conductors.items()):
        ends = conductor.landed()
        if len(ends) < 2 or conductor.note.strip() or not _changes_letter(context, *ends):
            continue
        rival = next(_rivals(context, *ends), None)
        if rival is not None and _does_what_is_asked(context, ends[0]):
            called, common = context.conductor_called(name), common_beside(context, ends[1])
            yield Finding(
                rule=NAME,
                severity=SEVERITY,
                subjects=(f"conductor:{name}", *(f"terminal:{end}" for end in ends)),
                message=_words(context, called, ends, rival),
                brief=f"{called} ({letter_of(ends[0])} to {letter_of(ends[1])})",
                why="Whoever goes by the letters takes it for a mistake, or takes the next lead for what it is not.",
                situation=context.idle.situation,
                evidence=Evidence() if common is None else measured(context, context.idle, ends[1], common),
            )


def _words(context: CheckContext, called: str, ends: Sequence[str], rival: str) -> str:
    near, far = ends if part_of(rival) == part_of(ends[1]) else reversed(ends)
    return (
        f"{called} joins {context.name_of(near)} with {context.name_of(far)}, which has a {letter_of(rival)} as well."
    )


def _changes_letter(context: CheckContext, one: str, other: str) -> bool:
    first, second = letter_of(one), letter_of(other)
    calls = context.function_of(one) == "call" == context.function_of(other)
    return calls and part_of(one) != part_of(other) and first not in second and second not in first


def _does_what_is_asked(context: CheckContext, terminal: str) -> bool:
    """Return whether every call on the island brings what it asks for and nothing else; if not, that is told."""
    island = context.wired.of(terminal)
    asked = [
        called
        for called in context.called
        if any(context.wired.of(output) == island for output in context.outputs(called.control, called.call))
    ]
    short = {each.called.text() for each in context.once(falling_short)}
    return bool(asked) and not any(
        called.text() in short or unasked(called.call, (effect for _, effect in context.effects_of(called)))
        for called in asked
    )


def _rivals(context: CheckContext, one: str, other: str) -> Iterator[str]:
    """Yield the terminals that have the letter of the far end, on either part, unless they are joined with this one."""
    for near, far in ((one, other), (other, one)):
        rival = f"{part_of(far)}.{letter_of(near)}"
        if rival in context.terminals and not context.wired.same(rival, far):
            yield rival
