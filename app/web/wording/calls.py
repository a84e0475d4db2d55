"""What can be asked of each control, what is asked now, and what then runs."""

from __future__ import annotations

from typing import Any

from app.catalogue.called import called
from app.catalogue.catalogue import settings_of
from app.catalogue.spoken import effect_words, plain, upper_first
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.situations import controls_of
from app.job.names import part_of
from app.web.wording.conditions import unusual_words
from app.web.wording.naming import Naming


def call_words(naming: Naming, point: OperatingPoint | None) -> list[dict[str, Any]]:
    """Return each control with its calls (the first one is idle) and its switches, in the order of the document."""
    situation = point.situation if point is not None else Situation()
    offered = controls_of(naming.layout, naming.catalogue)
    return [_control(part, offered[part], naming, situation) for part in offered]


def _control(part: str, calls: tuple[str, ...], naming: Naming, situation: Situation) -> dict[str, Any]:
    asked = situation.calls.get(part, ())
    rows = [{"call": "", "value": f"{part}=", "words": "off", "asked": not asked}]
    rows += [{"call": call, "value": f"{part}={call}", "words": plain(call), "asked": call in asked} for call in calls]
    return {"part": part, "label": naming.part(part), "calls": rows, "switches": _switches(part, naming, situation)}


def _switches(part: str, naming: Naming, situation: Situation) -> list[dict[str, Any]]:
    kind = naming.kind(part)
    if kind is None:
        return []
    values = settings_of(kind, naming.layout.parts[part])
    return [
        {
            "name": f"{part}.{name}",
            "words": upper_first(switch.use or plain(name)),
            "rest": values[name],
            "value": situation.set.get(f"{part}.{name}", values[name]),
            "positions": [{"value": position, "words": plain(position)} for position in switch.positions],
        }
        for name, switch in kind.switches.items()
    ]


def situation_words(situation: Situation | None, naming: Naming) -> str:
    """Return ``cool 1`` or ``idle``, and ``cool 1 at the thermostat`` where the layout has several controls."""
    if situation is None:
        return ""
    several = len(controls_of(naming.layout, naming.catalogue)) > 1
    asked = [
        plain(call) + (f" at {naming.inner_part(part)}" if several else "")
        for part, calls in situation.calls.items()
        for call in calls
    ]
    moved = [
        f"{naming.inner_part(name.split('.')[0])} {plain(name.split('.')[1])} {plain(str(value))}"
        for name, value in situation.set.items()
        if "." in name
    ]
    return ", ".join([*asked, *moved, *unusual_words(situation, naming)]) or "idle"


def effect_rows(naming: Naming, point: OperatingPoint | None) -> list[dict[str, str]]:
    """Return what runs now."""
    running = point.effects if point is not None else ()
    return [
        {"key": f"{part}:{effect}", "part": part, "words": effect_words(effect), "of": naming.part(part)}
        for part, effect in running
    ]


def opened_sentence(naming: Naming, point: OperatingPoint | None) -> str:
    """Return which fuses have opened, because what does not run then has no other reason."""
    owners = sorted({part_of(fuse) for fuse in point.blown}) if point is not None else []
    said = [f"The fuse of {naming.inner_part(part)} has opened." for part in owners if part in naming.layout.parts]
    return " ".join(said)


def runs_sentence(naming: Naming, rows: list[dict[str, str]], point: OperatingPoint | None) -> str:
    """Return one sentence on what runs, or on what does not settle."""
    if point is None:
        return ""
    if not point.settled and point.unsettled is not None:
        return _unsettled_sentence(naming, point.unsettled.why, point.unsettled.elements)
    return f"Runs: {', '.join(row['words'] for row in rows)}." if rows else "Nothing runs."


def _unsettled_sentence(naming: Naming, why: str, elements: tuple[str, ...]) -> str:
    names = list(dict.fromkeys(_what_moves(naming, name) for name in elements)) or ["something"]
    if why == "chatter":
        do = "pulls in and lets go" if len(names) == 1 else "pull in and let go"
        return f"Does not settle: {' and '.join(names)} {do} in turn."
    if why == "race":
        return f"Does not settle: it depends on whether {' or '.join(names)} moves first."
    return "Does not settle: no steady state was found."


def _what_moves(naming: Naming, name: str) -> str:
    """Return a device by its name; what a board makes up its mind about inside has none that anybody knows."""
    part, _, inner = name.partition(".")
    kind = naming.kind(part)
    what = called(kind, inner) if kind is not None and inner in kind.elements else "something"
    return f"{what} in {naming.inner_part(part)}"
