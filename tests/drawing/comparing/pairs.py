"""Pairs of layouts by chance: one that was generated, and what a row of changes made of it."""

from __future__ import annotations

import random
from collections.abc import Callable
from functools import cache

from app.catalogue.catalogue import Catalogue
from app.job.model import Cable, Conductor, End, Layout, Part, UnknownEnd
from app.job.names import part_of
from tests.demo_jobs.demos import NAMES, demo
from tests.drawing.generated import CATALOGUE, CODES, KINDS, generated_layout

CHANGES_MOST = 12
SEEDS = range(16)
DEMOS = [name for name in NAMES if {"as-found", "as-left"} <= demo(name).job.layouts.keys()]


@cache
def pair(seed: int) -> tuple[Layout, Layout]:
    """Return a layout and what some changes made of it; the same seed gives the same two."""
    chance = random.Random(f"pair {seed}")
    before = generated_layout(seed, chance.randrange(3, 22))
    after = before
    for _ in range(chance.randrange(1, CHANGES_MOST)):
        after = chance.choice(WAYS)(after, chance)
    return before, after


def demo_pair(name: str) -> tuple[Layout, Layout, Catalogue]:
    """Return both layouts of a demo job, and its kinds."""
    opened = demo(name)
    return opened.job.layouts["as-found"], opened.job.layouts["as-left"], opened.catalogue


def _screws(layout: Layout) -> list[str]:
    return [
        f"{name}.{letter}" for name in layout.parts for letter in CATALOGUE.terminals_of(layout, name) or ("A", "B")
    ]


def _some_end(layout: Layout, chance: random.Random) -> End:
    what = chance.random()
    if what < 0.15:
        return None
    return UnknownEnd(unknown="into the floor") if what < 0.25 else chance.choice(_screws(layout))


def _wires(layout: Layout, changed: dict[str, Conductor | None]) -> Layout:
    merged = {**layout.conductors, **changed}
    return layout.model_copy(update={"conductors": {name: wire for name, wire in merged.items() if wire is not None}})


def _parts(layout: Layout, changed: dict[str, Part]) -> Layout:
    return layout.model_copy(update={"parts": {**layout.parts, **changed}})


def _move_ends(layout: Layout, chance: random.Random) -> Layout:
    name = chance.choice(sorted(layout.conductors))
    ends: list[End] = list(layout.conductors[name].ends)
    for number in chance.choice(((0,), (1,), (0, 1))):
        ends[number] = _some_end(layout, chance)
    return _wires(layout, {name: layout.conductors[name].model_copy(update={"ends": tuple(ends)})})


def _take_off(layout: Layout, chance: random.Random) -> Layout:
    return _wires(layout, {chance.choice(sorted(layout.conductors)): None}) if len(layout.conductors) > 1 else layout


def _add_wire(layout: Layout, chance: random.Random) -> Layout:
    ends = _some_end(layout, chance), _some_end(layout, chance)
    return _wires(layout, {f"n{chance.randrange(1000)}": Conductor(ends=ends, insulation=chance.choice(CODES))})


def _call_otherwise(layout: Layout, chance: random.Random) -> Layout:
    name = chance.choice(sorted(layout.conductors))
    return _wires(layout, {name: None, f"r{chance.randrange(1000)}": layout.conductors[name]})


def _say_otherwise(layout: Layout, chance: random.Random) -> Layout:
    name = chance.choice(sorted(layout.conductors))
    said: list[dict[str, object]] = [
        {"note": "seen"},
        {"length_m": 3.5},
        {"insulation": chance.choice(CODES)},
        {"ends": layout.conductors[name].ends[::-1]},
        {"cable": None},
    ]
    return _wires(layout, {name: layout.conductors[name].model_copy(update=chance.choice(said))})


def _add_part(layout: Layout, chance: random.Random) -> Layout:
    at = chance.choice((None, (chance.randrange(2000), chance.randrange(2000))))
    return _parts(layout, {f"np{chance.randrange(1000)}": Part(kind=chance.choice(KINDS), at=at)})


def _take_out(layout: Layout, chance: random.Random) -> Layout:
    if len(layout.parts) == 1:
        return layout
    gone = chance.choice(sorted(layout.parts))
    kept = layout.model_copy(update={"parts": {name: p for name, p in layout.parts.items() if name != gone}})
    return _without_screws(kept, lambda end: part_of(end) == gone, chance)


def _replace(layout: Layout, chance: random.Random) -> Layout:
    name = chance.choice(sorted(layout.parts))
    kind = chance.choice([*KINDS, "unknown"])
    other = _parts(layout, {name: layout.parts[name].model_copy(update={"kind": kind, "settings": {}})})
    screws = set(CATALOGUE.terminals_of(other, name))
    return _without_screws(
        other, lambda end: kind != "unknown" and part_of(end) == name and end.split(".", 1)[1] not in screws, chance
    )


def _without_screws(layout: Layout, gone: Callable[[str], bool], chance: random.Random) -> Layout:
    changed: dict[str, Conductor | None] = {}
    for name, wire in sorted(layout.conductors.items()):
        ends = tuple(_some_end(layout, chance) if isinstance(end, str) and gone(end) else end for end in wire.ends)
        # Where chance put the end on a screw that is gone too, it is landed nowhere.
        ends = tuple(None if isinstance(end, str) and gone(end) else end for end in ends)
        if ends != wire.ends:
            changed[name] = wire.model_copy(update={"ends": ends})
    return _wires(layout, changed)


def _set(layout: Layout, chance: random.Random) -> Layout:
    name = chance.choice(sorted(layout.parts))
    part = layout.parts[name]
    kind = CATALOGUE.kind_of(part)
    if kind is None:
        return layout
    choices: list[tuple[str, object]] = [(jumper, state) for jumper in kind.jumpers for state in ("fitted", "removed")]
    choices += [(setting, value) for setting, s in kind.settings.items() for value in (*s.choices, s.default)]
    if not choices:
        return layout
    setting, value = chance.choice(choices)
    return _parts(layout, {name: part.model_copy(update={"settings": {**part.settings, setting: value}})})


def _label(layout: Layout, chance: random.Random) -> Layout:
    name = chance.choice(sorted(layout.parts))
    said: list[dict[str, object]] = [{"label": "Another name"}, {"at": (480, 480)}, {"note": "cleaned"}]
    return _parts(layout, {name: layout.parts[name].model_copy(update=chance.choice(said))})


def _cable(layout: Layout, chance: random.Random) -> Layout:
    name = chance.choice(sorted(layout.cables))
    changed = chance.choice(
        ({name: Cable(length_m=12.0)}, {f"nc{chance.randrange(100)}": Cable(label="through the wall")})
    )
    return layout.model_copy(update={"cables": {**layout.cables, **changed}})


WAYS: tuple[Callable[[Layout, random.Random], Layout], ...] = (
    _move_ends,
    _move_ends,
    _take_off,
    _add_wire,
    _call_otherwise,
    _say_otherwise,
    _add_part,
    _take_out,
    _replace,
    _set,
    _label,
    _cable,
)
