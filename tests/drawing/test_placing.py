"""Where parts stand: as said, apart, and unmoved by what happens to others."""

from __future__ import annotations

import itertools

import pytest

from app.drawing.connection.landings import land_ends
from app.drawing.connection.part_box import measure_parts
from app.drawing.connection.placing import free_place, nearest_free, place_parts
from app.drawing.surface.geometry import GRID, Box, Point
from app.job.model import Layout, Part
from app.job.sketch import sketch
from tests.drawing.generated import CATALOGUE, generated_layout

PARTS = {"xf": "control-transformer", "fb": "furnace-board", "tc": "thermostat-heat-cool", "ou": "condensing-unit"}


def corners(layout: Layout) -> dict[str, Point]:
    """Return where each part stands."""
    return {name: Point(part.box.x, part.box.y) for name, part in place_parts(layout, CATALOGUE).items()}


def moved(layout: Layout, name: str, at: tuple[int, int] | None) -> Layout:
    """Return the layout with one part said to stand elsewhere."""
    part = layout.parts[name].model_copy(update={"at": at})
    return layout.model_copy(update={"parts": {**layout.parts, name: part}})


def test_a_part_stands_where_it_is_said_to_stand() -> None:
    layout = sketch({"fb": Part(kind="furnace-board", at=(-240, 36)).model_dump(), "tc": "thermostat-heat-cool"})
    assert corners(layout)["fb"] == (-240, 36)


def test_a_part_said_to_stand_off_the_grid_stands_on_the_nearest_point() -> None:
    layout = sketch({"fb": Part(kind="furnace-board", at=(101, 95)).model_dump()})
    assert corners(layout)["fb"] == (96, 96)


def test_without_places_sources_stand_left_of_boards_and_boards_left_of_thermostats() -> None:
    found = corners(sketch(PARTS))
    assert found["xf"].x < found["fb"].x < found["tc"].x
    assert found["tc"].x == found["ou"].x
    assert found["tc"].y < found["ou"].y


def test_a_strip_stands_below_the_board_out_of_the_way_of_its_conductors() -> None:
    found = corners(sketch({**PARTS, "a-strip": "terminal-strip", "a-splice": "splice"}))
    assert found["a-strip"].y > found["fb"].y
    assert found["a-splice"].y > found["fb"].y
    assert found["a-strip"].x < found["tc"].x
    assert found["xf"].x < found["a-strip"].x


def test_parts_of_one_place_stand_together() -> None:
    units = {
        f"o{number}": {"kind": "condensing-unit", "place": "yard" if number % 2 else "roof"} for number in range(6)
    }
    found = corners(sketch(units))
    down = sorted(units, key=lambda name: found[name].y)
    assert [units[name]["place"] for name in down] == ["roof"] * 3 + ["yard"] * 3


def test_moving_one_part_moves_no_other() -> None:
    layout = sketch(PARTS)
    before = corners(layout)
    for name in PARTS:
        after = corners(moved(layout, name, (before[name].x, before[name].y + 4800)))
        assert {other: at for other, at in after.items() if other != name} == {
            other: at for other, at in before.items() if other != name
        }


def test_saying_where_a_part_stands_already_changes_nothing() -> None:
    layout = sketch(PARTS)
    before = corners(layout)
    for name in PARTS:
        assert corners(moved(layout, name, before[name])) == before


def test_a_wire_moves_no_part() -> None:
    bare = sketch(PARTS)
    wired = sketch(PARTS, "xf.R fb.XF", "fb.R tc.R", "fb.R ou.Y", "fb.C -", "- ?")
    assert corners(wired) == corners(bare)


def test_a_wire_more_than_a_terminal_holds_room_for_is_what_it_takes_to_move_a_screw() -> None:
    def rows(*wires: str) -> list[int]:
        parts = measure_parts(sketch(PARTS, *wires), CATALOGUE)
        return [screw.at.y for screw in parts["tc"].screws.values()]

    assert rows("fb.R tc.R") == rows("fb.R tc.R", "fb.G tc.R") != rows("fb.R tc.R", "fb.G tc.R", "fb.Y tc.R")


@pytest.mark.parametrize("seed", range(8), ids=lambda seed: f"seed-{seed}-places")
def test_grounds_never_overlap(seed: int) -> None:
    grounds = [part.ground() for part in place_parts(generated_layout(seed, 30), CATALOGUE).values()]
    for number, ground in enumerate(grounds):
        assert not any(ground.overlaps(other) for other in grounds[number + 1 :])


def test_two_parts_said_to_stand_in_one_place_stand_apart_and_the_first_stays() -> None:
    same = {"kind": "furnace-board", "at": (120, 120)}
    found = corners(sketch({"a": same, "b": same}))
    assert found["a"] == (120, 120)
    assert found["b"] != found["a"]


def test_no_place_is_nearer_than_the_nearest_free_one() -> None:
    part = measure_parts(sketch({"fs": "float-switch"}), CATALOGUE)["fs"].moved(Point(0, 0))
    ground = part.ground()
    taken = [Box(-300, -200, 500, 300), Box(200, -240, 120, 480), Box(-120, 100, 300, 84)]
    found = nearest_free(part, ground, taken)
    far = abs(found.x) + abs(found.y)
    for x in range(-far, far + 1, GRID):
        for y in range(-far + abs(x) + 1, far - abs(x), GRID):
            assert any(ground.moved(x, y).overlaps(box) for box in taken)
    assert not any(ground.moved(found.x, found.y).overlaps(box) for box in taken)


def test_a_free_place_is_where_the_new_part_then_stands_and_nobody_with_a_place_gives_way() -> None:
    layout = sketch({name: {"kind": kind, "at": (600 * n, 0)} for n, (name, kind) in enumerate(PARTS.items())})
    new = Part(kind="heat-pump-unit")
    at = free_place(layout, CATALOGUE, new, "hp")
    grown = layout.model_copy(update={"parts": {**layout.parts, "hp": new.model_copy(update={"at": at})}})
    found = corners(grown)
    assert found.pop("hp") == at
    assert found == corners(layout)


def test_screws_keep_the_order_of_the_kind_and_a_whole_pitch() -> None:
    for name, part in measure_parts(sketch({k: k for k in CATALOGUE}), CATALOGUE).items():
        assert list(part.screws) == list(CATALOGUE.kind(name).terminals)
        for side in ("left", "right"):
            rows = [screw.at.y for screw in part.screws.values() if screw.side == side and not screw.both]
            assert rows == sorted(rows)
            assert all((low - high) % 24 == 0 for high, low in itertools.pairwise(rows))
            assert all(
                screw.at.x == (0 if side == "left" else part.box.w)
                for screw in part.screws.values()
                if screw.side == side and not screw.both
            )


def test_every_landing_lies_on_its_own_ground() -> None:
    layout = generated_layout(3, 30)
    boxes = place_parts(layout, CATALOGUE)
    for end, landing in land_ends(layout, boxes).items():
        terminal = layout.conductors[end.conductor].ends[end.number]
        assert isinstance(terminal, str)
        ground = boxes[terminal.split(".")[0]].ground()
        assert ground.x <= landing.port.x <= ground.right
        assert ground.y <= landing.port.y <= ground.bottom
