"""More situations than are looked at

What it checks
How many situations there are in each group of parts that wires could couple or that share their air: every call, every
two calls of two controls, every switch and safety in each other position, at low, rated and high supply, in cold and in
warm weather. Up to 2,000 a group are looked at (500 where an end was not seen), those with the fewest things
otherwise than at rest first.

Why it matters
What was not looked at may hold a fault that no finding names. A job that says nothing is then not known to be sound
(this limit is our own choice, so that an answer comes while somebody waits).

What to do
Prove on site what two controls of this group do when they call together. If parts stand in one air stream only because
nobody said otherwise, give each its own: then they are looked at apart.

Limits
It counts what could be set, not what could go wrong; faults and settings are never among these situations.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from app.checks.context import CheckContext
from app.checks.finding import Finding, Severity
from app.checks.outcome import Group
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, gas_and_cooling
from app.job.model import Layout
from app.job.sketch import sketch

NAME = "situation-limit-reached"
SEVERITY: Severity = "note"
MOST_NAMED = 2


def _on_one_transformer(kind: str, hot: str, count: int) -> Layout:
    """Thermostats alone, their hot and common led from one to the next."""
    controls = [f"t{at}" for at in range(1, count + 1)]
    hots = ["xf.R", *(f"{control}.{hot}" for control in controls)]
    commons = ["xf.C", *(f"{control}.C" for control in controls)]
    wires = [f"{near} {far}" for side in (hots, commons) for near, far in pairwise(side)]
    return sketch({"xf": "control-transformer", **dict.fromkeys(controls, kind)}, *wires)


def _subjects(count: int) -> tuple[str, ...]:
    return tuple(f"part:t{at}" for at in range(1, count + 1))


GOOD = (
    Good("one-thermostat", gas_and_cooling()),
    Good("every-call-in-cold-and-warm-weather", dual_fuel(), near_miss=True),
)
BAD = (
    Bad(
        "seven-heat-pump-thermostats-on-one-transformer",
        _on_one_transformer("thermostat-heat-pump", "R", 7),
        finds=(_subjects(7),),
    ),
    Bad(
        "six-dual-fuel-thermostats-on-one-transformer",
        _on_one_transformer("thermostat-dual-fuel", "RC", 6),
        finds=(_subjects(6),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for group in context.groups:
        if group.possible > group.most:
            yield _finding(context, group)


def _finding(context: CheckContext, group: Group) -> Finding:
    controls = list(dict.fromkeys(control for control, _ in group.axes.asked)) or list(group.parts)
    named = ", ".join(context.label_of(control) for control in controls[:MOST_NAMED])
    more = len(controls) - MOST_NAMED
    around = f"{named} and {more} more" if more > 0 else named
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=tuple(f"part:{control}" for control in controls),
        message=(
            f"With {around} on one circuit there are {group.possible:,} situations; the {group.made:,} with the "
            "fewest things otherwise than at rest were looked at."
        ),
        why="What was not looked at may hold a fault that no finding names.",
    )
