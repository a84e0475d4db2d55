"""Every list of every layout: nothing lies on anything else, nothing is lost, blocks can be cut apart."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from itertools import pairwise

import pytest

from app.catalogue.catalogue import Catalogue
from app.drawing.frame.one_sheet import one_sheet
from app.drawing.frame.title_block import SheetWords
from app.drawing.lists.table import BETWEEN, BLOCK_AT_MOST, WIDTH, Column, Group, Row, plan_table
from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.recorder import Record
from app.drawing.surface.text_width import box_of_text
from app.job.model import Layout
from app.job.names import letter_of, part_of, short_names
from tests.backwards import backwards
from tests.drawing.lists.drawn import CATALOGUE, DEMANDING, every_layout, inside, lists_of, recorded, texts_of

LAYOUTS = list(every_layout())
CASES = pytest.mark.parametrize(
    ("layout", "catalogue"), [case[1:] for case in LAYOUTS], ids=[case[0] for case in LAYOUTS]
)


@CASES
def test_words_lie_in_the_drawing_and_not_on_each_other_or_on_rules(layout: Layout, catalogue: Catalogue) -> None:
    for name, drawing in lists_of(layout, catalogue).items():
        recorder = recorded(drawing)
        boxes = sorted((box_of_text(text) for text in texts_of(recorder)), key=lambda box: box.y)
        assert all(inside(box, drawing.content) for box in boxes), name
        for number, box in enumerate(boxes):
            for other in boxes[number + 1 :]:
                if other.y >= box.bottom:
                    break
                assert not box.overlaps(other), (name, box, other)
        upright = upright_by_x(recorder.drawn("line"))
        for box in boxes:
            crossing = [line for x in upright if box.x < x < box.right for line in upright[x] if box.overlaps(line)]
            assert crossing == [], (name, box)


def upright_by_x(lines: Iterable[Record]) -> dict[int, list[Box]]:
    """Return the upright lines by where they stand, as boxes of no width."""
    found: dict[int, list[Box]] = {}
    for a, b in ((line.points[0], line.points[-1]) for line in lines):
        if a.x == b.x:
            found.setdefault(a.x, []).append(Box(a.x, a.y, 0, b.y - a.y))
    return found


@CASES
def test_blocks_stay_whole_and_can_be_cut_apart(layout: Layout, catalogue: Catalogue) -> None:
    for name, drawing in lists_of(layout, catalogue).items():
        assert drawing.content.w <= WIDTH
        for block, following in pairwise(drawing.whole):
            assert following.y - block.bottom >= BETWEEN, name
        drawn = [box for record in recorded(drawing).records if (box := record.bounds()) is not None]
        tops = [block.y for block in drawing.whole]
        assert all(inside(box, drawing.whole[bisect_right(tops, box.y) - 1]) for box in drawn), name


@CASES
def test_every_conductor_and_every_screw_stands_in_its_list(layout: Layout, catalogue: Catalogue) -> None:
    lists = lists_of(layout, catalogue)
    names = short_names(layout.conductors)
    for by in ("conductor", "cable"):
        rows = groups_of(lists[f"wires by {by}"], "data-conductor")
        assert sorted(rows) == sorted(layout.conductors)
        for name, words in rows.items():
            assert words[0].rstrip("…") in names[name]
    sides = [part_of(end) for conductor in layout.conductors.values() for end in set(conductor.landed())]
    assert len(sides) + sum(not each.landed() for each in layout.conductors.values()) == sum(
        record.attributes.get("data-conductor") is not None
        for record in recorded(lists["wires by part"]).drawn("begin")
    )
    screws = groups_of(lists["terminals"], "data-terminal")
    assert sorted(screws) == sorted(
        f"{part}.{each}" for part in layout.parts for each in catalogue.terminals_of(layout, part)
    )
    assert all(words[0] == letter_of(screw) for screw, words in screws.items())


def groups_of(drawing: object, key: str) -> dict[str, list[str]]:
    """Return the words of each group with an attribute."""
    found: dict[str, list[str]] = {}
    for record in recorded(drawing).records:  # type: ignore[arg-type]
        name = record.within(key)
        if name is not None and record.text is not None:
            found.setdefault(name, []).append(record.text.words)
    return found


def test_words_are_shortened_only_where_a_single_one_is_too_wide() -> None:
    for name, layout, catalogue in LAYOUTS:
        for view, drawing in lists_of(layout, catalogue).items():
            short = [text.words for text in texts_of(recorded(drawing)) if text.words.endswith("…")]
            assert name == "demanding" or view == "flags" or short == [], (name, view)


def test_no_block_is_higher_than_half_a_sheet_unless_one_row_is() -> None:
    for name, layout, catalogue in LAYOUTS:
        for view, drawing in lists_of(layout, catalogue).items():
            assert name == "demanding" or all(block.h <= BLOCK_AT_MOST for block in drawing.whole), (name, view)


def test_headings_stand_above_every_block() -> None:
    drawing = lists_of(DEMANDING, CATALOGUE)["wires by conductor"]
    titles = [text.words for text in texts_of(recorded(drawing)) if text.font.size > 10]
    headings = [text.words for text in texts_of(recorded(drawing)) if text.words == "insulation"]
    assert titles[:2] == ["Conductors, w1", "Conductors, w2"]
    assert titles[-1] == "Parts"
    assert len(headings) == len(titles) - 1 == len(drawing.whole) - 1


def test_lines_of_one_row_are_held_level() -> None:
    columns = (Column("wire", 60), Column("other end", 60), Column("use", 60))
    row = Row(("w1\nw2", "a long way behind the wall\ntc.R", "one"))
    (block,) = plan_table(columns, [Group("Part", (row,))], Point(0, 0)).blocks
    wires, ends, use = block.rows[0].cells
    assert wires[0] == "w1"
    assert use == ("one",)
    assert ends.index("tc.R") == wires.index("w2") > 1


def test_the_same_layout_gives_the_same_bytes_in_any_order() -> None:
    name, layout, catalogue = LAYOUTS[-1]
    turned = Layout.model_validate(
        {
            **layout.model_dump(exclude_unset=True),
            "parts": backwards(layout.parts),
            "conductors": backwards(layout.conductors),
            "cables": backwards(layout.cables),
        }
    )
    words = SheetWords("Job", name, "List", "", "")
    for (view, one), other in zip(
        lists_of(layout, catalogue).items(), lists_of(turned, catalogue).values(), strict=True
    ):
        assert one_sheet(one, words) == one_sheet(other, words), view
