"""Fixes: JSON Patches against the job document, one undoable step each.

Rules of the file: a fix is minimal and valid for the document as it stands. What it must know of the document is what
was said in it (``model_fields_set``), because ``add`` into an absent ``settings`` would be refused. New ids are derived
from what they name, so that the same finding gives the same fix.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Mapping
from typing import Any

from app.catalogue.kind import Choice
from app.checks.context import CheckContext
from app.checks.facts.joins import Join
from app.checks.facts.landing import is_dangerous
from app.job.names import pointer

Operation = Mapping[str, Any]
Fix = tuple[Operation, ...]

_ALPHABET = "abcdefghjkmnpqrstuvwxyz23456789"


def land(context: CheckContext, conductor: str, index: int, terminal: str) -> Fix:
    """Land one end of a conductor on a terminal."""
    return (_replace(terminal, "layouts", context.layout_name, "conductors", conductor, "ends", index),)


def take_off(context: CheckContext, conductor: str, index: int) -> Fix:
    """Take one end of a conductor off its terminal."""
    return (_replace(None, "layouts", context.layout_name, "conductors", conductor, "ends", index),)


def take_out(context: CheckContext, conductor: str) -> Fix:
    """Take a conductor that is landed at both ends out of use: a core of a cable is taken off and stays as a spare, a
    single wire goes altogether."""
    if context.layout.conductors[conductor].cable is None:
        return ({"op": "remove", "path": pointer("layouts", context.layout_name, "conductors", conductor)},)
    return (*take_off(context, conductor, 0), *take_off(context, conductor, 1))


def undo_join(context: CheckContext, join: Join) -> Fix:
    """Undo a join that a person made: take the conductor out of use, or remove the jumper."""
    if join.sort == "jumper":
        return choose(context, join.part, join.inner, "removed")
    return take_out(context, join.by.partition(":")[2])


def choose(context: CheckContext, part: str, name: str, value: Choice) -> Fix:
    """Give a setting, switch or jumper of a part another value."""
    found = context.layout.parts[part]
    path = ("layouts", context.layout_name, "parts", part, "settings")
    if name in found.settings:
        return (_replace(value, *path, name),)
    first: Fix = () if "settings" in found.model_fields_set else ({"op": "add", "path": pointer(*path), "value": {}},)
    return (*first, {"op": "add", "path": pointer(*path, name), "value": value})


def add_wire(context: CheckContext, start: str, goal: str) -> Fix:
    """Add a conductor between two terminals."""
    name = _new_id(context, start, goal)
    path = ("layouts", context.layout_name, "conductors")
    first: Fix = ()
    if "conductors" not in context.layout.model_fields_set:
        first = ({"op": "add", "path": pointer(*path), "value": {}},)
    return (*first, {"op": "add", "path": pointer(*path, name), "value": {"ends": [start, goal]}})


def join_to(context: CheckContext, terminal: str, goals: Iterable[str]) -> Fix | None:
    """Join a terminal with one of ``goals``: by landing a conductor that is loose at one end if there is one, else by
    a new conductor to the best of them; None where nothing is free or where it would be a danger."""
    safe = sorted(goal for goal in set(goals) - {terminal} if not is_dangerous(context, terminal, goal))
    free = [goal for goal in safe if has_room(context, goal)]
    if has_room(context, terminal):
        for goal in safe:
            for conductor, index in _loose_on(context, goal):
                return land(context, conductor, index, terminal)
    if not free:
        return None
    for conductor, index in _loose_on(context, terminal):
        return land(context, conductor, index, best_goal(context, terminal, free))
    return add_wire(context, terminal, best_goal(context, terminal, free)) if has_room(context, terminal) else None


def _loose_on(context: CheckContext, terminal: str) -> list[tuple[str, int]]:
    """Return the loose ends (conductor, index) of conductors that are landed on a terminal."""
    return [
        (conductor, 1 - index)
        for conductor, index in context.wiring.landed_on(terminal)
        if context.layout.conductors[conductor].ends[1 - index] is None
    ]


def best_goal(context: CheckContext, start: str, goals: list[str]) -> str:
    """Return the goal that a person would take: in the same place if possible, where there is most room."""

    def order(goal: str) -> tuple[bool, int, str]:
        elsewhere = context.place_of(goal) != context.place_of(start)
        return (elsewhere, len(context.wiring.landed_on(goal)) - context.terminals[goal].holds, goal)

    return min(goals, key=order)


def has_room(context: CheckContext, terminal: str) -> bool:
    """Return whether one more conductor may land on a terminal."""
    return len(context.wiring.landed_on(terminal)) < context.terminals[terminal].holds


def _replace(value: object, *steps: str | int) -> Operation:
    return {"op": "replace", "path": pointer(*steps), "value": value}


def _new_id(context: CheckContext, start: str, goal: str) -> str:
    """Counted on from the greatest number, with five characters derived from what is joined, salted until free."""
    numbers = (re.match(r"w(\d{1,4})\b", name) for name in context.layout.conductors)
    number = 1 + max((int(found[1]) for found in numbers if found), default=0)
    salt = 0
    while True:
        digest = hashlib.sha256(f"{context.layout_name} {start} {goal} {salt}".encode()).digest()
        name = f"w{number}-" + "".join(_ALPHABET[byte % len(_ALPHABET)] for byte in digest[:5])
        if name not in context.layout.conductors:
            return name
        salt += 1


def note_on(context: CheckContext, conductor: str, note: str) -> Fix:
    """Say something in the note of a conductor."""
    found = context.layout.conductors[conductor]
    path = ("layouts", context.layout_name, "conductors", conductor, "note")
    if "note" in found.model_fields_set:
        return (_replace(note, *path),)
    return ({"op": "add", "path": pointer(*path), "value": note},)
