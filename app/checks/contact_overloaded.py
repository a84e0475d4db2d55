"""A contact carries more than it is made for

What it checks
The amps through each contact that has a rating, in each call: those while everything behind it runs, against the
rating, and those of the moment in which the coils behind it pull in, against three times the rating.

Why it matters
The small relays and triacs of thermostats and panels switch about an ampere (common practice, no source). Too many
amps heat the contact until it welds, and a call that cannot end, or burn it away. Coils take several times their amps
until they have closed; a contact bears that for an instant, but not without limit.

What to do
Let the contact work a relay only, and let the relay's contact carry the load. Spread loads that hang on one output
over several. A heat motor or a large valve asks for more than it seems.

Limits
The rating is a figure of the kind; the equipment's papers count. Three times for the instant of pulling in is common
practice without a source. Coils of one call are taken to pull in together.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.loading import INRUSH_SHARE, Loaded, overloaded_contacts
from app.checks.facts.probes import call_text, common_beside, measured
from app.checks.facts.spoken import device_words, when_words
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import Parts, boiler_zone, gas_and_cooling
from app.job.model import Layout

NAME = "contact-overloaded"
SEVERITY: Severity = "warning"

_STRONG: Parts = {"xf": {"kind": "control-transformer", "settings": {"va": 75}}}


def _valves(count: int) -> Layout:
    """Zone valves side by side on the one output of a thermostat."""
    wires: dict[str, str] = {}
    parts, before = dict(_STRONG), "zv"
    for number in range(2, count + 1):
        wires |= {f"h{number}": f"{before}.M1 zv{number}.M1", f"c{number}": f"{before}.M2 zv{number}.M2"}
        before = f"zv{number}"
        parts[before] = "zone-valve"
    return boiler_zone(wires, parts)


def _units(count: int) -> Layout:
    """Condensing units side by side on the one output of a thermostat."""
    wires: dict[str, str] = {}
    parts, before = dict(_STRONG), "ou"
    for number in range(2, count + 1):
        wires |= {f"y{number}": f"{before}.Y ou{number}.Y", f"c{number}": f"{before}.C ou{number}.C"}
        before = f"ou{number}"
        parts[before] = "condensing-unit"
    return gas_and_cooling(wires, parts)


GOOD = (
    Good("two-valves-on-one-output", _valves(2), near_miss=True),
    Good("two-contactors-on-one-output", _units(2), near_miss=True),
)
BAD = (
    Bad("four-valves-on-one-output", _valves(4), finds=(("element:tc.w", "terminal:tc.W"),)),
    Bad("three-contactors-pull-in-together", _units(3), finds=(("element:tc.y", "terminal:tc.Y"),)),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for loaded in context.once(overloaded_contacts):
        contact = loaded.contact
        output = _output(context, loaded)
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(f"element:{contact.part}.{contact.inner}", *([f"terminal:{output}"] if output else ())),
            message=_words(context, loaded, output),
            why="A contact on too many amps welds, and then its call never ends, or burns away.",
            situation=loaded.point.situation,
            evidence=_evidence(context, loaded, output),
        )


def _words(context: CheckContext, loaded: Loaded, output: str | None) -> str:
    contact = f"contact behind {context.name_of(output)}" if output else device_words(context, loaded.contact)
    apart = f"{loaded.amps:.1f} A while all behind it runs, {loaded.inrush_amps:.1f} A as it pulls in"
    instant = f" and bears {INRUSH_SHARE * loaded.rating:g} A for an instant" if loaded.amps <= loaded.rating else ""
    return (
        f"The {contact} carries {apart}, "
        f"{when_words(context, loaded.point)}; it is made for {loaded.rating:g} A{instant}."
    )


def _output(context: CheckContext, loaded: Loaded) -> str | None:
    """Return the terminal on the far side of the contact from what is hot at rest."""
    part = loaded.contact.part
    letters = context.inside(part).contacts[loaded.contact.inner].all()
    far = [f"{part}.{letter}" for letter in letters if not context.hot_at_rest(f"{part}.{letter}")]
    return next((terminal for terminal in far if context.function_of(terminal) != "common"), None)


def _evidence(context: CheckContext, loaded: Loaded, output: str | None) -> Evidence:
    more = {"amps": loaded.amps, "amps_to_pull_in": loaded.inrush_amps, "amps_rated": loaded.rating}
    common = None if output is None else common_beside(context, output)
    if output is None or common is None:
        return Evidence(call=call_text(loaded.point), more=more)
    return measured(context, loaded.point, output, common, more)
