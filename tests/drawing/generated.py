"""Layouts made by chance from a seed: any kinds, some places given and some not, every sort of end."""

from __future__ import annotations

import random
from typing import Any

from app.catalogue.builtin import builtin_catalogue
from app.job.model import Cable, Conductor, Job, Layout, Part, UnknownEnd

CATALOGUE = builtin_catalogue()
KINDS = sorted(CATALOGUE)
CODES = ("RD", "WH", "YE", "GN", "BU", "BN", "OG", "BK", "WH/BU", "GNYE", None)
PLACES = ("main", "basement", "hall", "yard")


def generated_layout(seed: int, parts: int) -> Layout:
    """Return a layout of ``parts`` parts; the same seed gives the same one."""
    chance = random.Random(seed)
    names = [f"p{number}" for number in range(parts)]
    made = {name: _part(chance, parts) for name in names}
    cables = {f"cb{number}": Cable(length_m=9.0) for number in range(1 + parts // 8)}
    bare = Layout(parts=made)
    terminals = [
        f"{name}.{letter}"
        for name in names
        for letter in (CATALOGUE.terminals_of(bare, name) if made[name].kind != "unknown" else ("A", "B", "C9"))
    ]
    conductors = {}
    for number in range(int(parts * chance.uniform(1.0, 2.6))):
        conductors[_id(chance, number)] = _conductor(chance, terminals, sorted(cables))
    return Layout(parts=made, cables=cables, conductors=conductors)


def job_of(layout: Layout) -> Job:
    """Return a job with this one layout."""
    return Job(title="By chance", layouts={"as-left": layout})


def _part(chance: random.Random, parts: int) -> Part:
    kind = "unknown" if chance.random() < 0.05 else chance.choice(KINDS)
    reach = int(parts**0.5) * 520
    at = (chance.randrange(-200, reach), chance.randrange(-200, reach)) if chance.random() < 0.6 else None
    label = chance.choice(
        ("", "Board & box <1>", "A part with a rather long name, in the far corner of the attic", "Ü")
    )
    return Part(kind=kind, label=label, place=chance.choice(PLACES), at=at)


def _id(chance: random.Random, number: int) -> str:
    return chance.choice((f"w{number}", f"w-{number:05d}", f"a-conductor-with-a-long-id-{number}"))


def _conductor(chance: random.Random, terminals: list[str], cables: list[str]) -> Conductor:
    ends: list[Any] = [chance.choice(terminals), chance.choice(terminals)]
    for number in (0, 1):
        what = chance.random()
        if what < 0.06:
            ends[number] = None
        elif what < 0.1:
            ends[number] = UnknownEnd(unknown=chance.choice(("", "behind the drywall", "into the chase, and on " * 4)))
    cable = chance.choice(cables) if chance.random() < 0.5 else None
    return Conductor(ends=(ends[0], ends[1]), cable=cable, insulation=chance.choice(CODES))
