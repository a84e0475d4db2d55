"""More is asked of a transformer than it can give

What it checks
For each call the volt-amperes of everything that the call runs on a source are added up (sealed figures of coils that
have pulled in, loads, inputs) and held against the source's rating.

Why it matters
The rule of the trade is that a transformer's rating is the sum of what it may have to feed at once (a refrigeration
textbook, section on transformers). Beyond it the volts sag, contactors chatter, the fuse opens, and the
winding ages by heat.

What to do
Take load off it: a relay and a second transformer for the device that asks most, never joined with the first. Or fit
a larger transformer of the same class. A larger fuse is no cure.

Limits
One call of one control at a time: two zones that call together ask for more than is added up here. Inrush is not
counted. Figures of kinds are generic; the nameplate counts.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.demand import Overload, overloads
from app.checks.facts.probes import call_text, measured
from app.checks.facts.secondary import ends_of
from app.checks.facts.spoken import when_words
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import Parts, boiler_zone, gas_and_cooling

NAME = "transformer-overloaded"
SEVERITY: Severity = "danger"

_SMALL: Parts = {"xf": {"kind": "control-transformer", "settings": {"va": 20}}}
_THREE_VALVES: Parts = {
    **_SMALL,
    "zv2": "zone-valve",
    "zv3": "zone-valve",
}
_TOGETHER = {"w6": "tc.W zv2.M1", "w7": "zv2.M2 xf.C", "w8": "tc.W zv3.M1", "w9": "zv3.M2 xf.C"}
_ROOM_ON_TC = {"w8": "zv2.M1 zv3.M1"}

GOOD = (
    Good("forty-va-for-a-furnace", gas_and_cooling()),
    Good(
        "three-valves-on-forty-va",
        boiler_zone({**_TOGETHER, **_ROOM_ON_TC}, {**_THREE_VALVES, "xf": "control-transformer"}),
        near_miss=True,
    ),
    Good(
        "two-valves-on-twenty-va",
        boiler_zone({"w6": "tc.W zv2.M1", "w7": "zv2.M2 xf.C"}, {**_SMALL, "zv2": "zone-valve"}),
        near_miss=True,
    ),
)
BAD = (
    Bad(
        "three-valves-on-twenty-va",
        boiler_zone({**_TOGETHER, **_ROOM_ON_TC}, _THREE_VALVES),
        finds=(("element:xf.secondary",),),
    ),
    Bad(
        "humidifiers-on-the-furnace",
        gas_and_cooling(
            {"w9": "fb.HUM h1.H", "w10": "h1.C fb.C", "w11": "h1.H h2.H", "w12": "h2.C xf.C"},
            {**_SMALL, "h1": "humidifier", "h2": "humidifier"},
        ),
        finds=(("element:xf.secondary",),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for overload in context.once(overloads):
        winding, point = overload.winding, overload.point
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(f"element:{winding.name}",),
            message=(
                f"{context.label_of(winding.part)} is made for {overload.rated:g} VA; "
                f"{when_words(context, point)} it has to give {overload.asked:.0f} VA."
            ),
            why="The volts sag, contactors chatter, and the winding overheats or opens its fuse.",
            situation=point.situation,
            evidence=_evidence(context, overload),
        )


def _evidence(context: CheckContext, overload: Overload) -> Evidence:
    winding, point = overload.winding, overload.point
    more = {"va_asked": overload.asked, "va_rated": overload.rated, "amps": point.sources[winding.name].amps}
    ends = ends_of(context, winding)
    return measured(context, point, *ends, more) if ends else Evidence(call=call_text(point), more=more)
