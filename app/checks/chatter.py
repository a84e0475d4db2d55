"""A coil pulls in and lets go without end

What it checks
Whether the circuit settles in every situation that is looked at: each call, two calls at once, a switch or safety in
each position, low supply, other weather. Where it does not, it says whether coils pull in and let go in turn, whether
it depends on which of two coils is quicker, or whether no end was found.

Why it matters
A contactor that chatters welds or burns its contacts within minutes, and a compressor that is started again and again
does not live long.

What to do
Look for a coil whose own contact opens its supply, or for volts that fall below what holds the coil in as soon as it
has pulled in.

Limits
Only coils that work at once are followed: what a delay makes of it is a matter of the sequence.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from app.checks.context import CheckContext
from app.checks.facts.commons import parts_without_common
from app.checks.facts.fed import starved_parts
from app.checks.facts.probes import call_text
from app.checks.facts.spoken import when_words
from app.checks.facts.strain import bridges
from app.checks.facts.supplies import parts_without_supply
from app.checks.facts.trickle import trickles
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling
from app.circuit.operating_point import OperatingPoint, Unsettled
from app.job.names import part_of

NAME = "chatter"
SEVERITY: Severity = "warning"

_RELAY = {"ir": "isolation-relay"}
_TWO_RELAYS = {"ir": "isolation-relay", "ir2": "isolation-relay"}

GOOD = (
    Good("settles-in-every-call", gas_and_cooling()),
    Good(
        "relay-that-holds-itself-out-of-the-way",
        gas_and_cooling({"w7": "fb.Y ir.A1", "w9": "ir.A2 fb.C", "w10": "fb.R ir.COM", "w11": "ir.NO ou.Y"}, _RELAY),
        near_miss=True,
    ),
    Good(
        "normally-closed-contact-of-another-relay",
        gas_and_cooling({"w7": "fb.Y ir.COM", "w9": "ir.NC ou.Y", "w10": "fb.W ir.A1", "w11": "ir.A2 fb.C"}, _RELAY),
        near_miss=True,
    ),
)
BAD = (
    Bad(
        "relay-opens-its-own-coil",
        gas_and_cooling({"w9": "fb.Y ir.COM", "w10": "ir.NC ir.A1", "w11": "ir.A2 fb.C"}, _RELAY),
        finds=(("element:ir.coil",),),
    ),
    Bad(
        "relay-opens-its-own-coil-in-heat",
        gas_and_cooling({"w9": "tc.W ir.COM", "w10": "ir.NC ir.A1", "w11": "ir.A2 xf.C"}, _RELAY),
        finds=(("element:ir.coil",),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for point in (*context.points, *_restless(context)):
        if point.unsettled is None or _is_starved(context, point, point.unsettled):
            continue
        if not _dozes_off(context, point.unsettled):
            yield _finding(context, point, point.unsettled)


def _restless(context: CheckContext) -> Iterator[OperatingPoint]:
    """Yield the first situation in which a network does not settle although every single call does.

    A network with a short, or in which something lacks its supply or common, is restless for that reason.
    """
    parts = context.once(parts_without_common) | context.once(parts_without_supply)
    told = {context.network_of(part) for part in parts}
    told |= {context.network_of(bridge.winding.part) for bridge in context.once(bridges)}
    for outcome in context.outcomes:
        unsettled = None if outcome.settles else outcome.point.unsettled
        if unsettled is not None:
            networks = {context.network_of(part_of(name)) for name in _names(unsettled)}
            if not networks & told:
                told |= networks
                yield outcome.point


def _names(unsettled: Unsettled) -> set[str]:
    return {*unsettled.elements, *(name for coils in unsettled.outcomes.values() for name in coils)}


def _dozes_off(context: CheckContext, unsettled: Unsettled) -> bool:
    """A control that takes its power through loads falls asleep and wakes in turn: that is told of its power. One that
    is made for it lives on a store meanwhile, which its kind does not have."""
    names = _names(unsettled)
    networks = {context.network_of(part_of(name)) for name in names}
    return any(
        context.network_of(trickle.control) in networks
        if trickle.missing is not None
        else names <= {device.name for device in trickle.through}
        for trickle in context.once(trickles)
    )


def _is_starved(context: CheckContext, point: OperatingPoint, unsettled: Unsettled) -> bool:
    """What has too few volts already at the rated supply is restless on less: that is told of the volts."""
    starved = context.once(starved_parts) if point.situation.supply_percent < 100 else frozenset[str]()
    return any(part_of(name) in starved for name in unsettled.elements)


def _finding(context: CheckContext, point: OperatingPoint, unsettled: Unsettled) -> Finding:
    elements = sorted(unsettled.elements or {name for coils in unsettled.outcomes.values() for name in coils})
    call = call_text(point)
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=tuple(f"element:{name}" for name in elements) or ("layout",),
        message=f"{_what(context, unsettled, elements)} {when_words(context, point)}.",
        why="A contactor that chatters burns its contacts, and what it starts does not live long.",
        situation=point.situation,
        evidence=Evidence(call=call, more={"unsettled": unsettled.why, "period_passes": unsettled.period}),
    )


def _what(context: CheckContext, unsettled: Unsettled, elements: list[str]) -> str:
    labels = " and ".join(sorted({context.label_of(part_of(name)) for name in elements})) or "The circuit"
    match unsettled.why:
        case "chatter":
            return f"{labels}: the coil pulls in and lets go in turn"
        case "race":
            return f"{labels}: what runs depends on which coil moves first"
        case _:
            return f"{labels}: no settled state was found"
