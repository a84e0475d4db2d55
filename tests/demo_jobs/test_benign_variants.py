"""Other ids, colours, order, positions and lengths change nothing that matters."""

from __future__ import annotations

from collections.abc import Iterable
from random import Random
from typing import Any

import pytest

from app.catalogue.structure import catalogue_for
from app.checks.check import check_layout
from app.job.model import Conductor, Job, Layout
from tests.demo_jobs.demos import SOUND, demo, grave, report

COLOURS = ["BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "WH/BU", "YE/BK"]
LETTERS = "abcdefghijklmnopqrstuvwxyz0123456789-_"
VARIANTS = 500
SLICE = 20


def variant(layout: Layout, random: Random) -> tuple[Layout, dict[str, str]]:
    """Return a layout that is wired alike and looks different, and the new id of each part."""
    parts, cables = new_ids(layout.parts, random), new_ids(layout.cables, random)
    stretch = random.uniform(0.6, 1.5)

    def length_of(length_m: float | None) -> float | None:
        return None if length_m is None else round(length_m * stretch, 2)

    def conductor_of(conductor: Conductor) -> Conductor:
        ends = [renamed(end, parts) for end in conductor.ends]
        if random.random() < 0.5:
            ends.reverse()
        return conductor.model_copy(
            update={
                "ends": tuple(ends),
                "cable": None if conductor.cable is None else cables[conductor.cable],
                "insulation": random.choice(COLOURS),
                "length_m": length_of(conductor.length_m),
            }
        )

    wires = new_ids(layout.conductors, random)
    changed = Layout(
        label=layout.label,
        parts=shuffled(
            {
                parts[key]: part.model_copy(
                    update={"at": (12 * random.randrange(200), 12 * random.randrange(200)), "label": key}
                )
                for key, part in layout.parts.items()
            },
            random,
        ),
        cables=shuffled(
            {
                cables[key]: cable.model_copy(update={"length_m": length_of(cable.length_m)})
                for key, cable in layout.cables.items()
            },
            random,
        ),
        conductors=shuffled({wires[key]: conductor_of(each) for key, each in layout.conductors.items()}, random),
    )
    return changed, parts


def new_ids(old: Iterable[str], random: Random) -> dict[str, str]:
    """Return another id for each id."""
    ids = [f"{random.choice('abcxyz')}{''.join(random.choices(LETTERS, k=6))}{number}" for number, _ in enumerate(old)]
    return dict(zip(old, ids, strict=True))


def renamed(end: Any, parts: dict[str, str]) -> Any:
    """Return an end with the new id of its part."""
    if not isinstance(end, str):
        return end
    part, letter = end.split(".")
    return f"{parts[part]}.{letter}"


def shuffled(mapping: dict[str, Any], random: Random) -> dict[str, Any]:
    """Return the same entries in another order."""
    entries = list(mapping.items())
    random.shuffle(entries)
    return dict(entries)


def check_variants(seeds: Iterable[int]) -> int:
    """Check a variant of one sound demo for each seed; return how many were made."""
    made = 0
    for seed in seeds:
        random = Random(seed)
        name = SOUND[seed % len(SOUND)]
        layout_name = random.choice(sorted(demo(name).job.layouts))
        layout, parts = variant(demo(name).job.layouts[layout_name], random)
        job = Job(title="A variant", layouts={layout_name: layout})
        found = check_layout(job, layout_name, catalogue_for(job))
        assert [each for each in grave(found) if each[0] == "danger"] == [], f"variant {seed} of {name}"
        assert runs(found) == {
            frozenset((parts[part], effect) for part, effect in point) for point in runs(report(name, layout_name))
        }, f"variant {seed} of {name}"
        made += 1
    return made


def runs(found: Any) -> set[frozenset[tuple[str, str]]]:
    """Return the sets of effects that the calls of a layout have."""
    return {frozenset(point.effects) for point in found.points}


def test_some_benign_variants_give_no_danger_and_run_alike() -> None:
    assert check_variants(range(SLICE)) == SLICE


@pytest.mark.slow
def test_all_benign_variants_give_no_danger_and_run_alike() -> None:
    assert check_variants(range(VARIANTS)) == VARIANTS
