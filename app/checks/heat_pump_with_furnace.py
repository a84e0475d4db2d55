"""Heat pump and furnace heat at the same time

What it checks
Whether a call runs a heat pump in heating and a fuel-fired furnace in the same air stream together.

Why it matters
Furnace air that is already hot goes over the indoor coil, which then has to give off heat at a temperature it was not
made for; the refrigerant pressure climbs until the high-pressure switch opens. A dual-fuel control must be set up so
that the two cannot run together (best-practice guide, published, seen); defrost is the exception.

What to do
Set the control up for dual fuel, so that it changes over from one to the other. Electric auxiliary heat may run with
the heat pump; a furnace may not.

Limits
Tried at 20 °C outdoors and where other weather makes another call of it. Defrost, in which the furnace may temper the
air, is not tried here.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.catalogue.spoken import upper_first
from app.checks.context import Called, CheckContext
from app.checks.facts.air import stray_effects
from app.checks.facts.probes import shown_at_part
from app.checks.facts.spoken import called_words
from app.checks.facts.strain import is_calm
from app.checks.finding import Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, heat_pump
from app.checks.setup_trial import setting_that

NAME = "heat-pump-with-furnace"
SEVERITY: Severity = "warning"


def _set_up_for(equipment: str) -> dict[str, dict[str, object]]:
    return {"tc": {"kind": "thermostat-dual-fuel", "settings": {"equipment": equipment}}}


_OVER_A_FURNACE = {"ah": "furnace-board"}
_ELSEWHERE = {"fb": {"kind": "furnace-board", "air": "workshop"}}

GOOD = (
    Good("set-up-for-dual-fuel", dual_fuel()),
    Good("electric-heat-with-the-heat-pump", heat_pump(), near_miss=True),
    Good("furnace-in-another-air-stream", dual_fuel(parts={**_set_up_for("heat-pump"), **_ELSEWHERE}), near_miss=True),
)
BAD = (
    Bad(
        "set-up-as-heat-pump-with-auxiliary",
        dual_fuel(parts=_set_up_for("heat-pump")),
        finds=(("part:fb", "part:ou"),),
        mended=dual_fuel(parts=_set_up_for("dual-fuel")),
    ),
    Bad(
        "furnace-as-auxiliary-heat",
        heat_pump({"w8": "tc.W ah.W", "w11": "ou.W ah.W"}, _OVER_A_FURNACE),
        finds=(("part:ah", "part:ou"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    seen: set[tuple[str, str]] = set()
    for called in context.called:
        for furnace, pump in _together(context, called):
            if (furnace, pump) not in seen:
                seen.add((furnace, pump))
                yield _finding(context, called, furnace, pump)


def _together(context: CheckContext, called: Called) -> list[tuple[str, str]]:
    """Return the furnaces and heat pumps of one air stream that heat in this call, apart from what nobody asks for."""
    if not is_calm(context, called.point, called.control):
        return []
    parts = context.layout.parts
    stray = context.once(stray_effects)
    return [
        (furnace, pump)
        for furnace in called.point.runs("furnace-heat")
        for pump in called.point.runs("heat-pump-heating")
        if parts[furnace].air == parts[pump].air
        and not {(furnace, "furnace-heat"), (pump, "heat-pump-heating")} & stray
    ]


def _finding(context: CheckContext, called: Called, furnace: str, pump: str) -> Finding:
    heats = {each.text() for each in context.called if each.point.runs("furnace-heat")}

    def kept_apart(tried: CheckContext) -> bool:
        """They never run together any more, both still cool and heat, and the furnace answers the calls it did."""
        still = {each.text() for each in tried.called if each.point.runs("furnace-heat")}
        pumps = any((pump, "heat-pump-heating") in each.point.effects for each in tried.called)
        return heats <= still and pumps and not any(_together(tried, each) for each in tried.called)

    cure = setting_that(context, [called.control], kept_apart)
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"part:{furnace}", f"part:{pump}"),
        message=(
            f"{upper_first(called_words(context, called))} runs {context.label_of(pump)} "
            f"and {context.label_of(furnace)} together." + (f" To keep them apart, {cure[0]}." if cure else "")
        ),
        why="Hot furnace air over the coil drives the refrigerant pressure up until a safety opens.",
        situation=called.point.situation,
        evidence=shown_at_part(context, called, furnace),
        fix=None if cure is None else cure[1],
    )
