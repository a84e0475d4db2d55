"""Calls that close something else in other weather: below the switch-over temperature a call for heat is another one.

A switch outdoors that only interrupts what a control asks for makes no other call: that a call then starts nothing
is what it is there for.
"""

from __future__ import annotations

from app.catalogue.catalogue import Catalogue, settings_of
from app.checks.facts.calls import contacts_closed_by
from app.circuit.axes import temperatures_of
from app.circuit.deviations import AT_REST_C
from app.circuit.situation import Situation
from app.circuit.situations import controls_of, situations_of
from app.job.model import Layout


def calls_in_other_weather(layout: Layout, catalogue: Catalogue) -> list[Situation]:
    """Return one situation for each call of each control and each weather in which it closes other contacts."""
    found: list[Situation] = []
    for control, calls in controls_of(layout, catalogue).items():
        part = layout.parts[control]
        kind = catalogue.kinds[part.kind]
        settings = settings_of(kind, part)
        for outdoor_c in temperatures_of([control], layout, catalogue)[1:]:
            for call in calls:
                now = contacts_closed_by(kind, call, settings, outdoor_c=outdoor_c)
                if now != contacts_closed_by(kind, call, settings, outdoor_c=AT_REST_C):
                    found.append(Situation(calls={control: (call,)}, outdoor_c=outdoor_c))
    return found


def looked_at_closely(layout: Layout, catalogue: Catalogue) -> list[Situation]:
    """Return the situations at which rules look one by one: idle first, every call, then calls in other weather."""
    return [*situations_of(layout, catalogue), *calls_in_other_weather(layout, catalogue)]
