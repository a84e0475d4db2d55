"""Systems that stand apart are routed apart, and nothing that was drawn before shows in a drawing."""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
from itertools import combinations, pairwise
from typing import Any

from app.catalogue.structure import catalogue_for
from app.drawing.connection.diagram import draw_connection
from app.drawing.connection.plan import plan_connection
from app.drawing.routing.regions import regions_of, whole_sheet
from app.drawing.surface.geometry import GRID, Box
from app.job.change import change_job
from app.job.model import Job
from app.job.names import part_of
from app.job.reading import document_of
from tests.demo_jobs.demos import SCHOOL_ROW, demo

LAYOUT = "as-left"
FRESH = """
import json, sys
from app.catalogue.opening import open_job
from app.drawing.connection.diagram import draw_connection
opened = open_job(sys.stdin.buffer.read())
sys.stdout.write(draw_connection(opened.job, "as-left", opened.catalogue))
"""


def boxes_by_chance(seed: int) -> dict[str, Box]:
    """Return boxes as grounds, none of which overlaps another."""
    chance = random.Random(seed)
    found: dict[str, Box] = {}
    while len(found) < 30:
        box = Box(chance.randrange(4000), chance.randrange(4000), chance.randrange(60, 300), chance.randrange(60, 300))
        if not any(box.overlaps(other) for other in found.values()):
            found[f"p{len(found)}"] = box
    return found


def test_regions_hold_every_part_once_and_share_no_lane() -> None:
    for seed in range(30):
        grounds = boxes_by_chance(seed)
        chance = random.Random(seed)
        names = sorted(grounds)
        joined = [(first, second) for first, second in pairwise(names) if chance.random() < 0.1]
        regions = regions_of(grounds, (), joined)
        assert sorted(part for region in regions for part in region.parts) == names
        for first, second in joined:
            assert any({first, second} <= set(region.parts) for region in regions)
        for region in regions:
            for part in region.parts:
                assert region.extent.grown(-GRID, -GRID, -GRID, -GRID).overlaps(grounds[part])
        for one, other in combinations(regions, 2):
            # A lane along the edge of an extent belongs to it, so that edges must not meet either.
            assert not one.extent.grown(1, 1, 1, 1).overlaps(other.extent)


def test_the_order_of_parts_makes_no_other_regions() -> None:
    grounds = boxes_by_chance(7)
    backwards = dict(reversed(grounds.items()))
    assert regions_of(grounds, (), [("p1", "p2")]) == regions_of(backwards, (), [("p1", "p2")])


def test_one_system_alone_is_the_whole_sheet() -> None:
    grounds = {"a": Box(0, 0, 120, 120), "b": Box(900, 0, 120, 120)}
    (region,) = regions_of(grounds, (), [("a", "b")])
    assert region == whole_sheet(grounds, (), [("a", "b")])


def test_a_change_in_one_system_moves_no_line_in_another() -> None:
    opened = demo(SCHOOL_ROW)
    layout = opened.job.layouts[LAYOUT]
    before = plan_connection(layout, opened.catalogue).courses
    first, *rest = sorted(layout.conductors)
    without = {name: layout.conductors[name] for name in rest}
    after = plan_connection(layout.model_copy(update={"conductors": without}), opened.catalogue).courses
    here = {layout.parts[part_of(end)].air for end in layout.conductors[first].landed()}
    elsewhere = [name for name in rest if not here & {layout.parts[part_of(end)].air for end in without[name].landed()}]
    assert len(elsewhere) > len(rest) // 2
    assert {name: after[name] for name in elsewhere} == {name: before[name] for name in elsewhere}


def test_a_drawing_after_many_changes_is_the_one_of_a_fresh_process() -> None:
    opened = demo(SCHOOL_ROW)
    job = opened.job
    chance = random.Random(3)
    for _ in range(5):
        job = changed_by_chance(job, chance)
        last = draw_connection(job, LAYOUT, catalogue_for(job))
    assert last.encode() == drawn_in_a_fresh_process(job)


def changed_by_chance(job: Job, chance: random.Random) -> Job:
    """Return the job with an end taken off, an end landed elsewhere, or a part moved."""
    layout = job.layouts[LAYOUT]
    name = chance.choice(sorted(layout.conductors))
    terminals = sorted(end for each in layout.conductors.values() for end in each.landed())
    steps: list[dict[str, Any]] = [
        {"op": "replace", "path": f"/layouts/{LAYOUT}/conductors/{name}/ends/1", "value": None},
        {"op": "replace", "path": f"/layouts/{LAYOUT}/conductors/{name}/ends/1", "value": chance.choice(terminals)},
        {
            "op": "add",
            "path": f"/layouts/{LAYOUT}/parts/{chance.choice(sorted(layout.parts))}/at",
            "value": [chance.randrange(6000), chance.randrange(2000)],
        },
    ]
    return change_job(job, [chance.choice(steps)], catalogue_for).job


def drawn_in_a_fresh_process(job: Job) -> bytes:
    return subprocess.run(
        [sys.executable, "-c", FRESH],
        input=json.dumps(document_of(job)).encode(),
        env={**os.environ},
        capture_output=True,
        check=True,
    ).stdout
