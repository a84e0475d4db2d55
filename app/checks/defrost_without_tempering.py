"""Defrost blows cold air into the rooms

What it checks
A heat pump is put into defrost (heating, with frost on its outdoor coil). In defrost it takes heat out of the house;
its output for that has to bring on electric heat or the furnace of the same air stream, where there is one.

Why it matters
In defrost the indoor coil is as cold as in cooling. Without tempering heat people feel a cold draft several times an
hour in frosty weather, and turn the thermostat up (order of defrost: common practice, no source; that auxiliary heat
may run then is in energy codes).

What to do
Land the defrost output of the outdoor unit on the call for heat of the indoor unit. With a furnace, use the terminal
that its control has for it.

Limits
Where nothing else can heat the air, that is not named. That a furnace takes most of a minute is not judged.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from app.checks.context import Called, CheckContext
from app.checks.facts.astray import HEAT_CALLS
from app.checks.facts.commons import parts_without_common
from app.checks.facts.driven import called_by_wire, driving_terminals
from app.checks.facts.frosted import Defrost, defrost_outputs, defrosting_parts, first_defrost
from app.checks.facts.inside import BURNING
from app.checks.facts.jumped import jumped_terminals
from app.checks.facts.probes import measured_to_common
from app.checks.facts.strain import is_calm
from app.checks.facts.supplies import parts_without_supply
from app.checks.finding import Finding, Severity
from app.checks.fixes import Fix, join_to
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, heat_pump
from app.job.names import letter_of, part_of

NAME = "defrost-without-tempering"
SEVERITY: Severity = "warning"

_Heat = tuple[str, str, tuple[str, ...]]
"""A part, its effect, and the terminals on which the call for it arrives."""
_Arrives = Callable[[CheckContext, Called, str, str], tuple[str, ...]]

_BY_RELAY = {"w11": "ou.W ir.A1", "w12": "ir.A2 ah.C", "w13": "ah.R ir.COM", "w14": "ir.NO ah.W1"}
_RELAYS = {"ir": "isolation-relay", "i2": "isolation-relay"}
_RELAYS_ON_HEAT = {"w12": "fb.W ir.A1", "w13": "ir.A2 fb.C", "w14": "fb.W i2.A1", "w15": "i2.A2 fb.C"}
_ALONE = {"ah": {"kind": "air-handler-board", "air": "workshop"}}

GOOD = (
    Good("defrost-calls-for-auxiliary-heat", heat_pump()),
    Good("defrost-calls-for-the-furnace", dual_fuel()),
    Good("a-relay-passes-it-on", heat_pump(_BY_RELAY, {"ir": "isolation-relay"}), near_miss=True),
    Good("no-heat-in-this-air", heat_pump({"w11": None}, _ALONE), near_miss=True),
)
BAD = (
    Bad(
        "output-not-landed",
        heat_pump({"w11": None}),
        finds=(("part:ou", "terminal:ou.W"),),
        mended=heat_pump({"w11": "ou.W ah.W1"}),
    ),
    Bad(
        "output-on-the-fan",
        heat_pump({"w11": "ou.W ah.G"}),
        finds=(("part:ou", "terminal:ou.W"),),
    ),
    Bad(
        "no-room-left-on-the-call-for-heat",
        dual_fuel({"w-defrost": None, **_RELAYS_ON_HEAT}, _RELAYS),
        finds=(("part:ou", "terminal:ou.W"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for unit in defrosting_parts(context):
        outputs = defrost_outputs(context, unit)
        if any(_leads_to(context, outputs, heat) for heat in _heat_at_hand(context, unit, called_by_wire)):
            continue
        heats = list(_heat_at_hand(context, unit, driving_terminals))
        for defrost in first_defrost(context, unit):
            tempered = any((part, effect) in defrost.point.effects for part, effect, _ in heats)
            if heats and not tempered and defrost.outputs and _is_trustworthy(context, defrost, heats):
                yield _finding(context, defrost, heats)


def _heat_at_hand(context: CheckContext, unit: str, arrives: _Arrives) -> Iterator[_Heat]:
    """Yield the heat of the same air that some call brings, with the terminals on which that call arrives."""
    air = context.layout.parts[unit].air
    for called in context.called:
        for part, effect in context.effects_of(called) if called.call in HEAT_CALLS else ():
            if effect in BURNING and context.layout.parts[part].air == air:
                yield part, effect, arrives(context, called, part, effect)


def _leads_to(context: CheckContext, outputs: Iterable[str], heat: _Heat) -> bool:
    """Return whether wires alone lead from an output to all terminals on which a call for heat arrives, or a jumper
    keeps the output hot, which is told as such."""
    same, jumped = context.wired.same, context.once(jumped_terminals)
    terminals = heat[2]
    return any(each in jumped or (terminals and all(same(each, other) for other in terminals)) for each in outputs)


def _is_trustworthy(context: CheckContext, defrost: Defrost, heats: Iterable[_Heat]) -> bool:
    """Return whether nothing else explains the silence: a fuse, a missing common or supply, something unseen."""
    troubled = context.once(parts_without_common) | context.once(parts_without_supply)
    return (
        is_calm(context, defrost.point, defrost.part)
        and not {part for part, _, _ in heats} <= troubled
        and not context.is_unknown_at(defrost.point, defrost.outputs)
    )


def _finding(context: CheckContext, defrost: Defrost, heats: list[_Heat]) -> Finding:
    output = defrost.outputs[0]
    bare = not context.wiring.landed_on(output)
    labels = " and ".join(sorted({context.label_of(part) for part, _, _ in heats}))
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"part:{defrost.part}", *(f"terminal:{each}" for each in defrost.outputs)),
        message=(
            f"In defrost {context.label_of(defrost.part)} puts out {letter_of(output)}, and {labels} does not heat: "
            + ("nothing is landed on it." if bare else "what is landed on it leads to no call for heat.")
        ),
        why="In defrost the indoor coil is as cold as in cooling, and cold air comes into the rooms.",
        situation=defrost.point.situation,
        assumes=context.unseen_from(context.wired.members(output)),
        evidence=measured_to_common(context, defrost.point, output, {"with": dict([defrost.moved])}),
        fix=_fix(context, output, heats) if bare or _is_loose(context, output) else None,
    )


def _is_loose(context: CheckContext, output: str) -> bool:
    """Return whether all that is landed on a terminal ends in the air."""
    return context.wired.members(output) == [output]


def _fix(context: CheckContext, output: str, heats: list[_Heat]) -> Fix | None:
    """Return the lead to the call for heat, by what the cable has or by a new one."""
    parts = {part for part, _, _ in heats}
    fewest = min((terminals for _, _, terminals in heats if terminals), key=lambda each: (len(each), each), default=())
    goals = {
        node
        for terminal in fewest
        for node in context.wired.members(terminal)
        if context.function_of(node) == "call" and part_of(node) in parts
    }
    return join_to(context, output, goals)
