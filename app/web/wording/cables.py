"""Cables in words: their conductors, where each of them is at either end, what is spare, what was not looked at."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from app.catalogue.spoken import counted
from app.job.model import Cable, Conductor, End, UnknownEnd
from app.job.names import letter_of
from app.tables.cable_sides import cable_sides
from app.tables.strip import codes_in_strip
from app.web.wording.naming import Naming
from app.web.wording.run_words import length_words

BOTH, ONE, SPARE, UNSEEN = "both ends landed", "one end landed", "spare", "not looked at"
_COUNTED: Mapping[str, str] = {BOTH: "landed at both ends", ONE: "landed at one end", SPARE: "spare", UNSEEN: UNSEEN}


def cable_words(naming: Naming, units: str) -> dict[str, dict[str, Any]]:
    """Return every cable by id, in the order of the document."""
    members: dict[str, dict[str, Conductor]] = {name: {} for name in naming.layout.cables}
    for name, conductor in naming.layout.conductors.items():
        if conductor.cable is not None:
            members[conductor.cable][name] = conductor
    return {name: _cable(name, cable, members[name], naming, units) for name, cable in naming.layout.cables.items()}


def _cable(name: str, cable: Cable, members: Mapping[str, Conductor], naming: Naming, units: str) -> dict[str, Any]:
    sides = cable_sides(members)
    codes = codes_in_strip(members, {each: naming.conductor(each) for each in members})
    states = {each: state_of(conductor) for each, conductor in members.items()}
    label = cable.label or name
    summary = summary_of(states.values())
    run = length_words(cable.length_m, cable.size_awg, units)
    return {
        "id": name,
        "label": label,
        "given_label": cable.label,
        "size_awg": cable.size_awg,
        "length_m": cable.length_m,
        "run": run,
        "note": cable.note,
        "summary": summary,
        "cores": [
            {
                "conductor": each,
                "code": codes[each],
                "state": states[each],
                "ends": [f"{each}.{sides.end_at(each, side)}" for side in (0, 1)],
            }
            for each in members
        ],
        "sides": [_side(sides.parts[side], naming) for side in (0, 1)],
        "aria": f"Cable {label}. {summary}",
    }


def state_of(conductor: Conductor) -> str:
    """Return how much of a conductor is landed, in words."""
    if any(isinstance(end, UnknownEnd) for end in conductor.ends):
        return UNSEEN
    return (SPARE, ONE, BOTH)[len(conductor.landed())]


def summary_of(states: Iterable[str]) -> str:
    """Return ``8 conductors: 5 landed at both ends, 2 spare, 1 not looked at.``"""
    said = list(states)
    counts = [(said.count(state), words) for state, words in _COUNTED.items()]
    parts = [f"{count} {words}" for count, words in counts if count]
    return f"{counted(len(said), 'conductor')}{': ' if parts else ''}{', '.join(parts)}."


def _side(parts: Iterable[str], naming: Naming) -> dict[str, Any]:
    words = " and ".join(naming.inner_part(part) for part in parts) or "not landed anywhere yet"
    return {"parts": list(parts), "words": words}


def strip_sentence(naming: Naming, moved: Mapping[str, End]) -> str:
    """Return what a strip does: ``Landed RD on R, BU on C. BN landed nowhere.``"""
    landed, off, unseen = [], [], []
    for name, end in moved.items():
        called = naming.layout.conductors[name].insulation or naming.conductor(name)
        if isinstance(end, str):
            landed.append(f"{called} on {letter_of(end)}")
        elif end is None:
            off.append(called)
        else:
            unseen.append(called)
    said = [f"Landed {', '.join(landed)}."] if landed else []
    said += [f"{', '.join(off)} landed nowhere."] if off else []
    said += [f"{', '.join(unseen)} not looked at yet."] if unseen else []
    return " ".join(said) or "The strip stands so already."
