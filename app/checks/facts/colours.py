"""Colours of conductors that are customary for something else than what the conductor does.

Rules of the file: what a conductor does follows from the islands and, where those leave it open, from its role; colour
is only held against that. White has two customs: the call for heat, and common on a cable of two cores.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.catalogue.kind import CallName
from app.checks.context import CheckContext
from app.explain.kept_roles import kept_roles
from app.explain.role import Role, RoleName

CUSTOMARY: Mapping[str, frozenset[RoleName]] = {
    "RD": frozenset({"supply"}),
    "WH": frozenset(
        {"furnace-heat", "furnace-heat-2", "electric-heat", "auxiliary-heat", "emergency-heat", "boiler-heat"}
    ),
    "GN": frozenset({"indoor-fan"}),
    "YE": frozenset({"compressor"}),
    "OG": frozenset({"reversing-valve"}),
    "BU": frozenset({"common"}),
}
"""What each colour customarily does in a thermostat cable. Common practice, no source."""
WORDS: Mapping[str, str] = {
    "RD": "red",
    "WH": "white",
    "GN": "green",
    "YE": "yellow",
    "OG": "orange",
    "BU": "blue",
    "GNYE": "green and yellow",
}
ROLE_WORDS: Mapping[str, str] = {
    "RD": "24 V supply",
    "WH": "the call for heat",
    "GN": "the fan",
    "YE": "the compressor",
    "OG": "the reversing valve",
    "BU": "common",
    "GNYE": "protective earth",
}
_HOT = frozenset({"RD", "GN", "YE", "OG"})
_HEAT: tuple[CallName, ...] = ("heat-1", "heat-2", "aux-heat", "emergency-heat")
_PUMP: tuple[CallName, ...] = ("cool-1", "cool-2", "heat-1", "heat-2")
_CALLS_OF: Mapping[str, tuple[CallName, ...]] = {"WH": _HEAT, "GN": ("fan",), "YE": _PUMP, "OG": _PUMP}


@dataclass(frozen=True, slots=True)
class Misled:
    """A conductor whose colour is customary for another role. ``does`` is what it does in a word; ``instead`` the core
    of the same cable that does what the colour says, where that is what misleads."""

    conductor: str
    colour: str
    does: str
    instead: str = ""


def misleading_colours(context: CheckContext) -> tuple[Misled, ...]:
    """Return the conductors that mislead by their colour; one with a note is labelled and misleads nobody."""
    found: list[Misled] = []
    for name, conductor in sorted(context.layout.conductors.items()):
        if conductor.insulation is None or conductor.note.strip() or len(conductor.landed()) < 2:
            continue
        colour = conductor.insulation.partition("/")[0]
        misled = _outright(context, name, colour) or _swapped(context, name, colour)
        if misled is not None:
            found.append(misled)
    return tuple(found)


def _outright(context: CheckContext, name: str, colour: str) -> Misled | None:
    """A hot colour on common, the colour of common on what is hot, the colour of earth on anything here."""
    does = "" if _bonds_chassis(context, name) else _side(context, name)
    if does == "common" and colour in _HOT and not _is_third_of_three(context, name, colour):
        return Misled(name, colour, "common")
    if does in ("supply", "call") and colour == "BU":
        return Misled(name, colour, "24 V supply" if does == "supply" else "a call")
    if does and colour == "GNYE":
        return Misled(name, colour, {"supply": "24 V supply", "call": "a call"}.get(does, does))
    return None


def _bonds_chassis(context: CheckContext, name: str) -> bool:
    return any(context.function_of(end) == "chassis" for end in context.layout.conductors[name].landed())


def _is_third_of_three(context: CheckContext, name: str, colour: str) -> bool:
    """The green core of a cable of three is customarily the fan or common, as needed."""
    cable = context.layout.conductors[name].cable
    if cable is None or colour != "GN":
        return False
    return sum(conductor.cable == cable for conductor in context.layout.conductors.values()) <= 3


def _swapped(context: CheckContext, name: str, colour: str) -> Misled | None:
    """Another core of the same cable does what this one's colour says, in another colour."""
    cable = context.layout.conductors[name].cable
    if cable is None or colour not in CUSTOMARY or _may_do(context, name, colour):
        return None
    for other in context.once(_cores)[cable]:
        insulation = context.layout.conductors[other].insulation or ""
        # What is of this colour itself is left out too.
        if insulation.partition("/")[0] in ("", colour) or not _may_do(context, other, colour):
            continue
        roles = context.once(_roles)
        does = roles[name].name
        if roles[other].name in CUSTOMARY[colour] and does not in CUSTOMARY[colour] | {"common"}:
            return Misled(name, colour, _does_words(does), other)
    return None


def _does_words(role: RoleName) -> str:
    return "24 V supply" if role == "supply" else f"the call for {role.replace('-', ' ')}"


def _cores(context: CheckContext) -> Mapping[str, list[str]]:
    found: dict[str, list[str]] = {}
    for name, conductor in sorted(context.layout.conductors.items()):
        if conductor.cable is not None and len(conductor.landed()) == 2:
            found.setdefault(conductor.cable, []).append(name)
    return found


def _roles(context: CheckContext) -> Mapping[str, Role]:
    """Worked out only where a colour is in doubt: roles cost more than everything else here."""
    return kept_roles(context.circuit, context.situations)


def _may_do(context: CheckContext, name: str, colour: str) -> bool:
    """Return whether a conductor may do what a colour stands for, as far as islands and calls tell."""
    if colour == "RD":
        return _side(context, name) in ("supply", "")
    if colour == "BU":
        return _side(context, name) in ("common", "")
    return context.wired.of(context.layout.conductors[name].landed()[0]) in context.once(_islands_called)[colour]


def _islands_called(context: CheckContext) -> Mapping[str, frozenset[str]]:
    """Return by colour the islands on which the calls lie for which it is customary."""
    on: dict[tuple[str, CallName], set[str]] = {}
    for called in context.called:
        if (called.control, called.call) not in on:
            outputs = context.outputs(called.control, called.call)
            on[called.control, called.call] = {context.wired.of(output) for output in outputs}
    found: dict[str, set[str]] = {colour: set() for colour in _CALLS_OF}
    for (control, call), islands in on.items():
        for colour, calls in _CALLS_OF.items():
            if call in calls:
                found[colour] |= islands if colour == "GN" else islands - on.get((control, "fan"), set())
    return {colour: frozenset(islands) for colour, islands in found.items()}


def _side(context: CheckContext, name: str) -> str:
    """Return ``common``, ``supply`` or ``call`` where the functions on a conductor's island agree, else nothing."""
    return context.once(_sides).get(context.wired.of(context.layout.conductors[name].landed()[0]), "")


def _sides(context: CheckContext) -> Mapping[str, str]:
    sides: dict[str, set[str]] = {}
    for terminal in context.wiring.landed:
        function = context.function_of(terminal)
        if context.is_supply(terminal):
            function = "supply"
        if function in ("common", "supply", "call", "spare"):
            sides.setdefault(context.wired.of(terminal), set()).add(function)
    return {island: next(iter(found)) for island, found in sides.items() if len(found) == 1 and found != {"spare"}}
