"""One layout made of two, so that one connection diagram shows both.

Rules of the file: what is in both is there once, as the later layout has it. A wire that came off is a line of its own.
An end that was moved leaves a short line at its old screw, with the id of its wire, ``.was.`` and its number. No id of
a job has a full stop in it, so none of these is taken.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Kind, Terminal
from app.drawing.comparing.changes import Changes, WireFate
from app.drawing.comparing.ends import ended
from app.drawing.comparing.marks import CLEAR
from app.drawing.connection.landings import LABEL_START
from app.drawing.connection.said import Said
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import SMALL
from app.job.model import Conductor, Layout, Part
from app.tables.ends import end_words

LANDING_MOST = 132
"""Longer than usual: what became of a wire stands beside its name and code."""
NAMED: Mapping[str, str] = {"new": "New", "taken out": "Taken out", "replaced": "Replaced", "changed": "Changed"}
"""What stands before the name of a part."""


@dataclass(frozen=True)
class Line:
    """What a drawn line stands for: a wire, what became of it, and whether it shows what is no longer so.

    ``end`` is the number of the end whose old screw it marks; None for a whole wire.
    """

    wire: str
    fate: WireFate | None
    was: bool = False
    end: int | None = None


@dataclass(frozen=True)
class Together:
    """Both layouts as one, with the kinds that hold for it, its words, and what each of its lines stands for.

    ``gone`` are the screws that went with a part that was replaced.
    """

    layout: Layout
    catalogue: Catalogue
    said: Said
    lines: Mapping[str, Line]
    gone: frozenset[str]


def put_together(changes: Changes, catalogue: Catalogue) -> Together:
    """Return the layout that shows both."""
    parts, kinds, gone = _parts(changes, catalogue)
    lines, conductors = {}, {}
    for key, line, conductor in _lines(changes):
        lines[key], conductors[key] = line, conductor
    # What was landed and what is landed share the parts; an unknown one has the letters of both.
    layout = changes.after.model_copy(update={"parts": parts, "conductors": conductors})
    return Together(layout, catalogue.with_kinds(kinds), _said(changes, lines, conductors), lines, gone)


def _parts(changes: Changes, catalogue: Catalogue) -> tuple[dict[str, Part], dict[str, Kind], frozenset[str]]:
    """Return the parts of both layouts, the kinds that replaced ones show, and the screws that went with these."""
    kinds: dict[str, Kind] = {}
    gone: set[str] = set()
    parts: dict[str, Part] = {}
    for name, part in {**changes.before.parts, **changes.after.parts}.items():
        fate = changes.parts.get(name)
        label = f"{NAMED[fate]}: {part.label or name}" if fate is not None else part.label
        parts[name] = part.model_copy(update={"label": label})
        kind = catalogue.kind_of(part)
        if fate == "replaced" and kind is not None:
            shown = f"{name}.both"
            older = _older_terminals(name, kind, changes.before, catalogue)
            kinds[shown] = kind.model_copy(update={"terminals": {**kind.terminals, **older}})
            parts[name] = parts[name].model_copy(update={"kind": shown})
            gone.update(f"{name}.{letter}" for letter in older)
    return parts, kinds, frozenset(gone)


def _older_terminals(name: str, kind: Kind, before: Layout, catalogue: Catalogue) -> dict[str, Terminal]:
    """Return the screws of a part before it was replaced that its ``kind`` does not have now.

    Of what was not in use only the letter would be shown, so those on which nothing was landed are left out.
    """
    landed = set(before.landed_letters(name))
    older = catalogue.terminals_of(before, name)
    return {letter: terminal for letter, terminal in older.items() if letter in landed and letter not in kind.terminals}


def _lines(changes: Changes) -> Iterator[tuple[str, Line, Conductor]]:
    for name, conductor in changes.after.conductors.items():
        yield name, Line(name, changes.wires.get(name)), conductor
    for name, fate in changes.wires.items():
        if fate == "taken off":
            yield name, Line(name, fate, was=True), changes.before.conductors[name]
        elif fate == "moved":
            yield from _left_behind(name, changes)


def _left_behind(name: str, changes: Changes) -> Iterator[tuple[str, Line, Conductor]]:
    """Yield the old screws of the ends that were moved."""
    conductor = changes.before.conductors[name]
    for end in changes.ends[name]:
        screw = conductor.ends[end]
        if isinstance(screw, str):
            at_screw = conductor.model_copy(update={"ends": (screw, None)})
            yield f"{name}.was.{end}", Line(name, "moved", was=True, end=end), at_screw


def _said(changes: Changes, lines: Mapping[str, Line], conductors: Mapping[str, Conductor]) -> Said:
    after: dict[tuple[str, int], str] = {}
    loose: dict[tuple[str, int], str] = {}
    for key, line in lines.items():
        if line.end is not None:
            now = end_words(changes.after.conductors[line.wire].ends[line.end])
            # In its landing the words are in nobody's way; what is too long for that stands beyond it.
            label = f"{conductors[key].insulation or ''} now {now}".strip()
            fits = width_of(f"{changes.called[line.wire]} {label}", SMALL) <= LANDING_MOST - LABEL_START - CLEAR
            loose[key, 1] = "" if fits else f"now {now}"
            after.update({(key, 0): label} if fits else {})
            continue
        for end in (0, 1):
            word = _word_at(line, end, changes)
            if word:
                after[key, end] = f"{conductors[key].insulation or ''} {word}".strip()
        for end in changes.ends.get(line.wire, ()):
            if line.fate == "moved" and conductors[key].ends[end] is None:
                loose[key, end] = "now not landed"
    called = {key: changes.called[line.wire] for key, line in lines.items()}
    return Said(called, after, loose, LANDING_MOST, CLEAR)


def _word_at(line: Line, end: int, changes: Changes) -> str:
    """Return what stands at an end of a wire after its name and code."""
    if line.was:
        return "taken off"
    if line.fate == "moved":
        conductor = changes.after.conductors[line.wire]
        if end in changes.ends[line.wire]:
            return ended(changes.before.conductors[line.wire].ends[end], conductor.ends[end])
        # A spare is named once, at its first end.
        return "taken off" if not conductor.landed() and end == 0 else ""
    return {"new": "new", "changed": "changed"}.get(line.fate or "", "")
