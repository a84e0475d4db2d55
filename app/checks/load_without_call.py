"""Something runs that nobody asks for

What it checks
With no call at all nothing may run, and a call for air alone (fan, humidity) may start no compressor and no heat.

Why it matters
A compressor or a burner that runs on its own never stops when the room is right, and a contact that is bridged once
is bridged for every safety behind it.

What to do
Take off the wire that is named: it leads 24 V past the contact that should switch it.

Limits
A blower that runs because a limit has opened is no fault and is not tried here. A contact that has welded is not on
the drawing. A jumper that keeps a call on is told as such, not here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from app.catalogue.kind import CallName
from app.checks.context import CheckContext
from app.checks.facts.calls import AIR_ONLY, unasked
from app.checks.facts.driven import drive_of
from app.checks.facts.gap import wires_past_the_contact
from app.checks.facts.inside import SUPPLY_FUNCTIONS
from app.checks.facts.jumped import jumped_terminals
from app.checks.facts.probes import call_text, common_beside, measured
from app.checks.facts.spoken import effects_words, when_words
from app.checks.facts.strain import is_calm
from app.checks.finding import Evidence, Finding, Severity
from app.checks.fixes import undo_join
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling, heat_pump
from app.circuit.operating_point import OperatingPoint
from app.job.names import part_of

NAME = "load-without-call"
SEVERITY: Severity = "warning"

_HUMIDIFIER = {"hu": "humidifier"}

GOOD = (
    Good("nothing-runs-at-rest", gas_and_cooling()),
    Good(
        "humidifier-with-the-blower",
        gas_and_cooling({"w9": "fb.HUM hu.H", "w10": "hu.C fb.C"}, _HUMIDIFIER),
        near_miss=True,
    ),
    Good("burner-bridged-at-the-thermostat", gas_and_cooling({"w9": "tc.R tc.W"}), near_miss=True),
    Good("fan-lead-serves-as-common", gas_and_cooling({"w6": "fb.C -", "w9": "fb.Y fb.G"}), near_miss=True),
)
BAD = (
    Bad(
        "compressor-straight-on-supply",
        gas_and_cooling({"w7": "fb.R ou.Y"}),
        finds=(("part:ou", "conductor:w7"),),
        mended=gas_and_cooling({"w7": None}),
    ),
    Bad(
        "fan-call-starts-the-compressor",
        heat_pump({"w12": "ah.G ou.Y"}),
        finds=(("part:ou", "conductor:w12"),),
        mended=heat_pump(),
    ),
)


@dataclass(frozen=True, slots=True)
class _Running:
    """A part that runs uncalled, the terminals that start it, and what it does."""

    part: str
    effects: tuple[str, ...]
    terminal: str
    point: OperatingPoint


def check(context: CheckContext) -> Iterable[Finding]:
    at_rest = list(_running(context, context.idle, None))
    runs_anyway = {part for part, _ in context.effects_at_rest} | {running.part for running in at_rest}
    for running in at_rest:
        yield _finding(context, running)
    for called in context.called:
        if called.call in AIR_ONLY:
            for running in _running(context, called.point, called.call):
                if running.part not in runs_anyway:
                    yield _finding(context, running)


def _running(context: CheckContext, point: OperatingPoint, call: CallName | None) -> Iterator[_Running]:
    by_part: dict[str, list[str]] = {}
    for part, effect in point.effects:
        if unasked(call, [effect]) and is_calm(context, point, part):
            by_part.setdefault(part, []).append(effect)
    for part, effects in sorted(by_part.items()):
        hot = [each for each in _hot_calls(context, part, effects, point) if not _is_jumped(context, each)]
        for terminal in hot[:1]:
            yield _Running(part, tuple(effects), terminal, point)


def _is_jumped(context: CheckContext, terminal: str) -> bool:
    """Return whether a jumper keeps a call on, or what the call of a jumper works passes it on."""
    jumped = context.once(jumped_terminals)
    if not jumped or terminal in jumped:
        return bool(jumped)
    if any(context.wired.same(terminal, winding.hot) for winding in context.windings):
        return False
    return context.network_of(part_of(terminal)) in {context.network_of(part_of(each)) for each in jumped}


def _hot_calls(context: CheckContext, part: str, effects: Iterable[str], point: OperatingPoint) -> list[str]:
    """Return the call terminals of a part on which a hot side stands and something hangs that brings the effects."""
    islands = context.islands_at(point)
    kind = context.wiring.kinds[part]
    letters = {letter for effect in effects for letter in drive_of(kind, effect).letters}
    return [
        f"{part}.{letter}"
        for letter, terminal in kind.terminals.items()
        if letter in letters
        and terminal.function not in SUPPLY_FUNCTIONS | {"common"}
        and any(islands.same(f"{part}.{letter}", winding.hot) for winding in context.windings)
    ]


def _finding(context: CheckContext, running: _Running) -> Finding:
    wires = wires_past_the_contact(context, running.terminal, running.point)
    call = call_text(running.point)
    common = common_beside(context, running.terminal)
    evidence = Evidence(call=call) if common is None else measured(context, running.point, running.terminal, common)
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"part:{running.part}", *(join.by for join in wires)),
        message=(
            f"{context.label_of(running.part)} runs ({effects_words(running.effects)}) "
            f"{when_words(context, running.point)}: "
            f"{context.name_of(running.terminal)} is hot."
        ),
        why="It never stops when the room is right, and every contact that should switch it is bridged.",
        situation=running.point.situation,
        evidence=evidence,
        fix=undo_join(context, wires[0]) if len(wires) == 1 else None,
    )
