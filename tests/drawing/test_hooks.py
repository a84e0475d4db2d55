"""What a page finds a thing by: each part, terminal, conductor and end exactly once, where it is drawn."""

from __future__ import annotations

from collections import Counter

import pytest

from app.catalogue.catalogue import Catalogue
from app.job.model import Layout
from tests.demo_jobs.demos import demo, layouts
from tests.drawing.generated import CATALOGUE, generated_layout
from tests.drawing.seen import Seen

CASES = [
    *(
        pytest.param(demo(name).job.layouts[layout], demo(name).catalogue, id=f"{name}-{layout}")
        for name, layout in layouts()
    ),
    *(pytest.param(generated_layout(seed, 20), CATALOGUE, id=f"by-chance-seed-{seed}-parts") for seed in (1, 2)),
]


@pytest.mark.parametrize(("layout", "catalogue"), CASES)
def test_every_thing_has_its_hook_once(layout: Layout, catalogue: Catalogue) -> None:
    seen = Seen(layout, catalogue)
    terminals = [f"{part}.{letter}" for part in layout.parts for letter in catalogue.terminals_of(layout, part)]
    ends = [f"{wire}.{number}" for wire in layout.conductors for number in (0, 1)]
    assert Counter(seen.groups("data-part")) == Counter(list(layout.parts))
    assert Counter(seen.groups("data-terminal")) == Counter(terminals)
    assert Counter(seen.groups("data-conductor")) == Counter(list(layout.conductors))
    assert Counter(seen.groups("data-end")) == Counter(ends)


@pytest.mark.parametrize(("layout", "catalogue"), CASES)
def test_a_path_leads_from_one_end_to_the_other(layout: Layout, catalogue: Catalogue) -> None:
    seen = Seen(layout, catalogue)
    groups = list(seen.recorder.drawn("begin"))
    at = {
        g.attributes["data-end"]: f"{g.attributes['data-x']},{g.attributes['data-y']}"
        for g in groups
        if "data-end" in g.attributes
    }
    for group in groups:
        if "data-conductor" in group.attributes:
            name, points = group.attributes["data-conductor"], group.attributes["data-path"].split(" ")
            assert (points[0], points[-1]) == (at[f"{name}.0"], at[f"{name}.1"])


@pytest.mark.parametrize(("layout", "catalogue"), CASES)
def test_a_landed_end_lies_on_its_screw(layout: Layout, catalogue: Catalogue) -> None:
    seen = Seen(layout, catalogue)
    groups = [record.attributes for record in seen.recorder.drawn("begin")]
    screws = {g["data-terminal"]: (g["data-x"], g["data-y"]) for g in groups if "data-terminal" in g}
    for group in groups:
        if "data-end" in group:
            name, number = group["data-end"].rsplit(".", 1)
            landed = layout.conductors[name].ends[int(number)]
            assert group["data-landed"] == (landed if isinstance(landed, str) else "")
            if isinstance(landed, str):
                assert (group["data-x"], group["data-y"]) == screws[landed]


def test_parts_and_conductors_are_direct_children_of_their_layers() -> None:
    opened = demo("post-office-dual-fuel")
    seen = Seen(opened.job.layouts["as-left"], opened.catalogue)
    for record in seen.recorder.drawn("begin"):
        for name, layer in (("data-part", "parts"), ("data-conductor", "conductors")):
            if name in record.attributes:
                assert record.groups == ({"data-layer": layer},)


def test_a_box_says_where_its_part_is_drawn() -> None:
    opened = demo("bell-loft-heat-only")
    seen = Seen(opened.job.layouts["as-left"], opened.catalogue)
    said = {
        g["data-part"]: g["data-box"] for g in (r.attributes for r in seen.recorder.drawn("begin")) if "data-part" in g
    }
    drawn = {
        record.within("data-part"): " ".join(str(value) for value in record.box)
        for record in seen.recorder.drawn("rect")
        if record.box is not None and record.within("data-part")
    }
    assert said == drawn
