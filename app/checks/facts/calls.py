"""What a call closes, and what it ought to bring."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from app.catalogue.kind import CallName, Choice, EffectName, Kind
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Value, holds
from app.checks.facts.inside import HEAT_EFFECTS

ALWAYS_ALLOWED: frozenset[str] = frozenset({"indoor-fan", "outdoor-fan", "zone-open", "humidify"})
"""What may run with a call that asks for moving or moist air only: it does no harm and the equipment may add it."""

BRINGS: Mapping[CallName, frozenset[EffectName]] = {
    "fan": frozenset({"indoor-fan"}),
    "cool-1": frozenset({"cooling"}),
    "cool-2": frozenset({"cooling"}),
    "heat-1": frozenset({"heat-pump-heating", "furnace-heat", "electric-heat", "boiler-heat"}),
    "heat-2": frozenset({"heat-pump-heating", "furnace-heat", "furnace-heat-2", "electric-heat", "boiler-heat"}),
    "aux-heat": frozenset({"furnace-heat", "furnace-heat-2", "electric-heat", "boiler-heat"}),
    "emergency-heat": frozenset({"furnace-heat", "furnace-heat-2", "electric-heat", "boiler-heat"}),
    "humidify": frozenset({"humidify"}),
    "open": frozenset({"zone-open"}),
}
"""What each call asks for; a call that is not named here (``ventilate``, ``dehumidify``) has no effect of its own."""

STAGE_BELOW: Mapping[CallName, CallName] = {"cool-2": "cool-1", "heat-2": "heat-1"}
"""The call that a second stage has to add something to."""

AIR_ONLY: frozenset[CallName] = frozenset({"fan", "humidify", "dehumidify", "ventilate"})
"""Calls under which nothing may heat or cool."""


def unasked(call: CallName | None, effects: Iterable[str]) -> frozenset[str]:
    """Return which of the effects that a call adds nobody asked for; None is no call at all.

    Cooling asks for no heat, but for a compressor; heat may come with a compressor, but not with cooling.
    """
    found = frozenset(effects)
    if call is None:
        return found
    if call in AIR_ONLY:
        return found - ALWAYS_ALLOWED
    if call in ("cool-1", "cool-2"):
        return found & HEAT_EFFECTS
    return found & {"cooling"}


def looks_for(call: CallName, *, heat_in_layout: bool) -> frozenset[str]:
    """Return the effects of which a call has to bring one; none where we cannot say.

    Where nothing in the layout can heat, an open zone is all that a heat call can bring.
    """
    wanted: frozenset[str] = BRINGS.get(call, frozenset())
    if wanted & HEAT_EFFECTS and not heat_in_layout:
        return wanted | {"zone-open", "pump"}
    return wanted


def contacts_closed_by(
    kind: Kind, call: CallName, settings: Mapping[str, Choice], *, outdoor_c: float
) -> frozenset[str]:
    """Return the contacts that a call closes, once the control is awake."""

    def value_of(name: str) -> Value:
        if name in settings:
            return settings[name]
        if name == call:
            return True
        if name == "outdoor_c":
            return outdoor_c
        if name in kind.states:
            return holds(parse_term(kind.states[name]), value_of)
        return False

    if call not in kind.calls:
        return frozenset()
    return frozenset(contact for contact, term in kind.calls[call].closes.items() if holds(parse_term(term), value_of))
