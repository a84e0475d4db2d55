"""Every change in words: what, which, how it was, how it is now.

Rules of the file: each change of ``Changes`` is told once, in the order in which a list of them is read; whoever draws
and whoever reads aloud takes the words from here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from app.catalogue.catalogue import Catalogue, settings_of
from app.catalogue.kind import Choice, JumperElement, Kind
from app.catalogue.setting_words import setting_called, value_words
from app.drawing.comparing.changes import Changes
from app.drawing.comparing.ends import ended
from app.drawing.lists.words import cable_words, called, length_words
from app.job.model import Cable, Conductor, Part
from app.job.temperatures import Units
from app.tables.ends import end_words
from app.tables.natural_order import natural_key


class Change(NamedTuple):
    """One thing that is different: what became of it, how it was and how it is; empty where it was or is not."""

    what: str
    was: str
    now: str


class Told(NamedTuple):
    """A part, wire or cable by its id and by what people call it, and all that is different about it."""

    id: str
    name: str
    changes: tuple[Change, ...]


def sentence(told: Told) -> str:
    """Return what is different about something in sentences."""
    return " ".join([f"{told.name}.", *(_clause(change) for change in told.changes)])


def _clause(change: Change) -> str:
    what = change.what[:1].upper() + change.what[1:]
    if change.was and change.now:
        return f"{what}: was {change.was}; now {change.now}."
    return f"{what}: {change.was or change.now}." if change.was or change.now else f"{what}."


def parts_told(changes: Changes, catalogue: Catalogue, units: Units) -> Iterator[Told]:
    """Yield what is different about each part."""
    for name in sorted(changes.parts, key=natural_key):
        before, after = changes.before.parts.get(name), changes.after.parts.get(name)
        layout = changes.after if after is not None else changes.before
        told = tuple(_part_changes(before, after, changes.parts[name], catalogue, units))
        yield Told(name, f"{name}: {called(layout, catalogue, name)}", told)


def wires_told(changes: Changes, units: Units) -> Iterator[Told]:
    """Yield what is different about each wire."""
    for name in sorted({*changes.wires, *changes.renamed}, key=natural_key):
        before, after = changes.before.conductors.get(name), changes.after.conductors.get(name)
        codes = {one.insulation for one in (before, after) if one is not None and one.insulation}
        code = next(iter(codes)) if len(codes) == 1 else ""
        told = tuple(_wire_changes(name, before, after, changes, units))
        yield Told(name, f"{changes.called[name]} {code}".strip(), told)


def cables_told(changes: Changes, units: Units) -> Iterator[Told]:
    """Yield what is different about each cable."""
    difference = changes.difference.cables
    for name in sorted({*difference.added, *difference.removed, *difference.changed}, key=natural_key):
        before, after = changes.before.cables.get(name), changes.after.cables.get(name)
        yield Told(name, cable_words(name, after or before), tuple(_cable_changes(before, after, units)))


def _part_changes(
    before: Part | None, after: Part | None, fate: str, catalogue: Catalogue, units: Units
) -> Iterator[Change]:
    was, now = (None if part is None else catalogue.kind_of(part) for part in (before, after))
    if fate != "changed":
        yield Change(fate, _kind_words(before, was), _kind_words(after, now))
    if before is not None and after is not None:
        said = ("label", "name"), ("place", "place"), ("air", "air stream"), ("note", "note")
        yield from _fields(before, after, said)
    yield from _settings(before, after, was, now, units)


def _kind_words(part: Part | None, kind: Kind | None) -> str:
    if part is None:
        return ""
    return kind.title if kind is not None else "kind not known"


def _settings(
    before: Part | None, after: Part | None, was: Kind | None, now: Kind | None, units: Units
) -> Iterator[Change]:
    """Yield what is set otherwise: of one kind whatever differs, else what either part says."""
    if after is None:
        return
    old: Mapping[str, Choice] = settings_of(was, before) if was is not None and before is not None else {}
    new: Mapping[str, Choice] = settings_of(now, after) if now is not None else {}
    said = {*(before.settings if before is not None else ()), *after.settings}
    for name in sorted({*old, *new} if was is now else said):
        first, second = (
            value_words(kind, name, values[name], units) if name in values else ""
            for kind, values in ((was, old), (now, new))
        )
        if first != second:
            yield Change(_setting_words(name, now if name in new else was), first, second)


def _setting_words(name: str, kind: Kind | None) -> str:
    words = setting_called(kind, name)
    if kind is None or name not in kind.jumpers:
        return words
    for element in kind.elements.values():
        if isinstance(element, JumperElement) and element.by == name and {*element.between} <= kind.terminals.keys():
            return f"jumper {' to '.join(element.between)}"
    return f"jumper {words}"


def _wire_changes(
    name: str, before: Conductor | None, after: Conductor | None, changes: Changes, units: Units
) -> Iterator[Change]:
    if before is None or after is None:
        yield Change(changes.wires[name], _wire_words(before), _wire_words(after))
        return
    if name in changes.renamed:
        yield Change("name", changes.renamed[name], changes.called[name])
    for end in changes.ends.get(name, ()):
        was, now = before.ends[end], after.ends[end]
        yield Change(ended(was, now), end_words(was), end_words(now))
    yield from _fields(before, after, (("cable", "cable"), ("insulation", "insulation"), ("note", "note")))
    yield from _sizes(before, after, units)


def _wire_words(conductor: Conductor | None) -> str:
    if conductor is None:
        return ""
    first, second = conductor.ends
    ends = "spare" if first is None and second is None else f"{end_words(first)} to {end_words(second)}"
    return ", ".join(filter(None, (ends, conductor.insulation, conductor.cable and f"in {conductor.cable}")))


def _cable_changes(before: Cable | None, after: Cable | None, units: Units) -> Iterator[Change]:
    if before is None or after is None:
        one = before or after or Cable()
        words = ", ".join(filter(None, (length_words(one.length_m, units), _size_words(one.size_awg))))
        yield Change("new", "", words) if before is None else Change("taken out", words, "")
        return
    yield from _fields(before, after, (("label", "name"), ("note", "note")))
    yield from _sizes(before, after, units)


def _sizes(before: Conductor | Cable, after: Conductor | Cable, units: Units) -> Iterator[Change]:
    if before.length_m != after.length_m:
        yield Change("length", length_words(before.length_m, units), length_words(after.length_m, units))
    if before.size_awg != after.size_awg:
        yield Change("size", _size_words(before.size_awg), _size_words(after.size_awg))


def _size_words(size_awg: int | None) -> str:
    return "" if size_awg is None else f"{size_awg} AWG"


def _fields(before: object, after: object, fields: tuple[tuple[str, str], ...]) -> Iterator[Change]:
    for field, words in fields:
        was, now = getattr(before, field), getattr(after, field)
        if was != now:
            yield Change(words, was or "", now or "")
