"""24 V is brought to a terminal that is not for it

What it checks
Whether a line-voltage, sensor, bus or millivolt terminal is joined with a terminal of the 24 V controls or with
another of these families; and whether a dry pair that its part feeds itself, such as the thermostat pair of a boiler,
gets 24 V of another source.

Why it matters
24 V destroys a sensor input or a data bus. Line voltage on the 24 V side reaches the thermostat on the wall and the
hand that changes it. A foreign supply on a boiler's pair ties two sources together.

What to do
Switch off, prove that it is off, and take the named wire off the foreign terminal. A dry pair is closed by a contact
of its own (an end switch, a relay), never by a lead that carries 24 V from elsewhere.

Limits
What an unknown part has on its terminals is not known. A dry pair that is a plain contact may switch 24 V and is not
named here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from app.checks.context import CheckContext
from app.checks.facts.foreign import FAMILIES, clashes, foreign_rails, is_fed_pair
from app.checks.facts.islands import Islands
from app.checks.facts.probes import call_text, common_beside, measured
from app.checks.finding import Evidence, Finding, Severity
from app.checks.fixes import undo_join
from app.checks.rule import Bad, Good
from app.checks.samples import boiler_zone, dual_fuel, gas_and_cooling
from app.circuit.operating_point import OperatingPoint
from app.job.names import part_of

NAME = "foreign-terminal-joined"
SEVERITY: Severity = "danger"

GOOD = (
    Good("end-switch-starts-the-boiler", boiler_zone(), near_miss=True),
    Good("line-voltage-to-line-voltage", gas_and_cooling({"w9": "xf.L1 fb.L1", "w10": "xf.L2 fb.L2"})),
    Good(
        "thermostat-contact-on-the-boiler-pair",
        boiler_zone({"w1": "tc.R bc.T1", "w2": "tc.W bc.T2", "w3": None, "w4": None, "w5": None}),
        near_miss=True,
    ),
    Good("dry-contact-switches-24-v", dual_fuel({"w11": "fb.HUM tc.H1"}), near_miss=True),
)
BAD = (
    Bad(
        "supply-on-a-sensor",
        dual_fuel({"w11": "fb.R tc.S1"}),
        finds=(("terminal:tc.S1", "conductor:w11"),),
        mended=dual_fuel(),
    ),
    Bad(
        "line-voltage-on-a-call",
        gas_and_cooling({"w9": "ou.L1 ou.Y"}),
        finds=(("terminal:ou.L1", "conductor:w9"),),
        mended=gas_and_cooling(),
    ),
    Bad(
        "transformer-on-the-boiler-pair",
        boiler_zone({"w4": "xf.R bc.T1", "w5": "tc.W bc.T2"}),
        finds=(("terminal:bc.T1", "conductor:w4"), ("terminal:bc.T2", "conductor:w5")),
        mended=boiler_zone({"w4": None, "w5": None}),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for terminal in context.terminals:
        if not context.wiring.landed_on(terminal):
            continue
        if context.function_of(terminal) in FAMILIES:
            yield from _by_family(context, terminal)
        elif is_fed_pair(context, terminal):
            yield from _fed_from_elsewhere(context, terminal)


def _by_family(context: CheckContext, terminal: str) -> Iterator[Finding]:
    function = context.function_of(terminal)
    met = [other for other in context.at_rest.members(terminal) if clashes(function, context.function_of(other))]
    if met:
        yield _finding(context, terminal, met, context.at_rest, context.idle)


def _fed_from_elsewhere(context: CheckContext, terminal: str) -> Iterator[Finding]:
    rails = [node for node in foreign_rails(context, terminal) if context.ever.same(node, terminal)]
    for point in context.points_of(part_of(terminal)) if rails else ():
        islands = context.islands_at(point)
        met = [node for node in rails if islands.same(node, terminal)]
        if met:
            yield _finding(context, terminal, met, islands, point)
            return


def _finding(context: CheckContext, terminal: str, met: list[str], islands: Islands, point: OperatingPoint) -> Finding:
    path = min((islands.path(terminal, other) or [] for other in met), key=len)
    wires = [join for join, _ in path if join.sort == "conductor"]
    reached = path[-1][1] if path else met[0]
    whose = context.name_of(reached) if reached in context.terminals else context.label_of(part_of(reached))
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"terminal:{terminal}", *(join.by for join in wires[:1])),
        message=f"{context.name_of(terminal)} ({context.terminals[terminal].use}) is joined with {whose}.",
        why="24 V destroys a sensor or a bus, and line voltage on the controls reaches the hand at the thermostat.",
        situation=point.situation,
        evidence=_evidence(context, terminal, point),
        fix=undo_join(context, wires[0]) if wires else None,
    )


def _evidence(context: CheckContext, terminal: str, point: OperatingPoint) -> Evidence:
    """Against the common beside it a meter shows what stands on the terminal, where that can be said."""
    more = {"function": context.function_of(terminal)}
    common = common_beside(context, terminal)
    if common is None:
        return Evidence(call=call_text(point), more=more)
    return measured(context, point, terminal, common, more)
