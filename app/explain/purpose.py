"""What a device is for: the effects that it helps or hinders, through its own part and through contacts elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from app.catalogue.kind import Contact, EffectName
from app.explain.bearing import NOTHING_MOVED, Sway, names_under, sways_of
from app.explain.nets import Nets, Region
from app.explain.ways import Way

Moved = frozenset[tuple[str, EffectName, int]]
"""(part, effect, +1 where it is helped, -1 where it is hindered)."""


@dataclass(frozen=True, slots=True)
class Purpose:
    """What a device does, and what it ends.

    ``valve`` is the mode in which a reversing valve is energised, empty for other devices.
    """

    does: frozenset[tuple[str, EffectName]]
    ends: frozenset[tuple[str, EffectName]]
    valve: str = ""


class Purposes:
    """What the devices of a layout do."""

    def __init__(self, nets: Nets) -> None:
        self.nets = nets
        self._sways: dict[str, Mapping[str, Sway]] = {}
        self._purposes: dict[str, Purpose] = {}
        self._behind: dict[tuple[str, frozenset[str]], tuple[Way, ...]] = {}

    def of(self, device: Way) -> Purpose:
        """Return what a device does."""
        found = self._purposes.get(device.subject)
        if found is None:
            found = self._purposes[device.subject] = _purpose(self._moved_by(device))
        return found

    def _moved_by(self, device: Way) -> Moved:
        """Follow what a device moves until nothing is added; a contact that it closes lets it reach further."""
        reached = {(device, 1)}
        while True:
            closed = {contact for each, sign in reached for contact, own in self._contacts_of(each) if sign * own > 0}
            more = {
                (other, sign * own)
                for each, sign in reached
                for contact, own in self._contacts_of(each)
                for other in self._works(contact, frozenset(closed))
            }
            if more <= reached:
                break
            reached |= more
        return frozenset(
            (each.part, effect, sign * own)  # type: ignore[misc]
            for each, sign in reached
            for effect, own in self._sway_of(each.part, each.inner).effects
        )

    def _contacts_of(self, device: Way) -> list[tuple[str, int]]:
        sway = self._sway_of(device.part, device.inner)
        return [(f"element:{device.part}.{contact}", sign) for contact, sign in sway.contacts]

    def _sway_of(self, part: str, inner: str) -> Sway:
        if part not in self._sways:
            found = self.nets.circuit.layout.parts[part]
            kind = self.nets.circuit.catalogue.kind_of(found)
            self._sways[part] = {} if kind is None else sways_of(kind, found)
        return self._sways[part].get(inner, NOTHING_MOVED)

    @cached_property
    def _contacts(self) -> Mapping[str, Way]:
        return {way.subject: way for way in self.nets.ways.ways if way.sort == "contact"}

    def _works(self, contact: str, closed: frozenset[str]) -> tuple[Way, ...]:
        """Return the devices that a contact makes hot when it closes, together with others that are ``closed``."""
        key = (contact, closed)
        found = self._behind.get(key)
        if found is None:
            way = self._contacts[contact]
            sides = [
                self.nets.region(point, contact, frozenset({way.other(point)}), lambda each: _conducts(each, closed))
                for point in (way.a, way.b)
                if not self.nets.is_barrier(point)
            ]
            # Of two nets that are neither hot nor common, the one without a driver of its own waits for the other.
            waiting = [side for side in sides if not self._is_driven(way, side)] if len(sides) == 2 else []
            chosen = waiting if len(waiting) == 1 else sides
            found = self._behind[key] = tuple(dict.fromkeys(device for side in chosen for device in side.devices))
        return found

    def _is_driven(self, way: Way, side: Region) -> bool:
        """Return whether something could make a side of a contact hot without it."""
        point = way.a if way.a in side.points else way.b
        return bool(self.nets.region(point, way.subject, frozenset({way.other(point)})).gates)


def _conducts(contact: Way, closed: frozenset[str]) -> bool:
    at_rest = isinstance(contact.element, Contact) and contact.element.rest == "closed"
    return at_rest or contact.subject in closed


def _purpose(moved: Moved) -> Purpose:
    helped = {(part, effect) for part, effect, sign in moved if sign > 0}
    hindered = {(part, effect) for part, effect, sign in moved if sign < 0}
    for part, effect in sorted(helped):
        if effect in _OTHER_WAY and (part, "compressor") not in helped:
            other = _OTHER_WAY[effect]
            if (part, other) in hindered and (part, other) not in helped:
                mode = "cooling" if effect == "cooling" else "heating"
                return Purpose(frozenset(helped), frozenset(hindered), mode)
    return Purpose(frozenset(helped), frozenset(hindered))


_OTHER_WAY: Mapping[EffectName, EffectName] = {"cooling": "heat-pump-heating", "heat-pump-heating": "cooling"}


def only_while_defrosting(nets: Nets, gates: Iterable[Way]) -> bool:
    """Return whether all of some contacts close because an outdoor unit defrosts, and there is one at least."""
    found = [_closes_for_defrost(nets, gate) for gate in gates]
    return bool(found) and all(found)


def _closes_for_defrost(nets: Nets, gate: Way) -> bool:
    kind = nets.circuit.catalogue.kind_of(nets.circuit.layout.parts[gate.part])
    if kind is None or not isinstance(gate.element, Contact) or "defrost" not in kind.effects:
        return False
    running = names_under(kind, kind.effects.get("compressor", "false"))
    by = gate.element.by
    return (
        by in kind.states and gate.element.rest == "open" and by in names_under(kind, kind.effects["defrost"]) - running
    )
