"""Flags: two for each conductor, both halves alike, nothing where the wire goes."""

from __future__ import annotations

import re

from app.catalogue.catalogue import Catalogue
from app.circuit.network import build_circuit
from app.drawing.lists.flags import HALF, HEIGHT, WRAP, flags_drawing
from app.drawing.surface.geometry import Box
from app.drawing.surface.recorder import Record
from app.drawing.surface.text_width import box_of_text
from app.job.model import Layout
from app.tables.wire_rows import roles_in
from tests.demo_jobs.demos import demo
from tests.drawing.lists.drawn import CATALOGUE, every_layout, inside, recorded


def flags_of(layout: Layout, catalogue: Catalogue) -> dict[str, list[Record]]:
    """Return what was drawn of each flag, by conductor and end."""
    found: dict[str, list[Record]] = {}
    roles = roles_in(build_circuit(layout, catalogue))
    for record in recorded(flags_drawing(layout, catalogue, roles)).records:
        flag = record.within("data-flag")
        if flag is not None and record.verb not in ("begin", "end"):
            found.setdefault(flag, []).append(record)
    return found


def halves_of(flag: list[Record]) -> tuple[Box, list[str], list[str]]:
    """Return the box of a flag and the words of its two halves."""
    (box,) = [record.box for record in flag if record.verb == "rect" and record.box is not None]
    texts = [record.text for record in flag if record.text is not None]
    left = [text.words for text in texts if box_of_text(text).x < box.x + HALF]
    return box, left, [text.words for text in texts if box_of_text(text).x >= box.x + HALF]


def test_each_end_of_each_conductor_has_one_flag_that_says_the_same_on_both_sides() -> None:
    for name, layout, catalogue in every_layout():
        flags = flags_of(layout, catalogue)
        assert sorted(flags) == sorted(f"{conductor}.{end}" for conductor in layout.conductors for end in (0, 1)), name
        for flag in flags.values():
            box, left, right = halves_of(flag)
            assert (box.w, box.h) == (2 * HALF + WRAP, HEIGHT)
            assert left == right


def test_how_many_things_a_wire_does_is_never_cut_off() -> None:
    counted = 0
    for name, layout, catalogue in every_layout():
        if not name.startswith("by-chance"):
            for flag in flags_of(layout, catalogue).values():
                _box, left, _right = halves_of(flag)
                assert not left[-1].endswith("…"), (name, left)
                counted += " + " in left[-1]
    assert counted


def test_an_end_that_was_not_seen_is_told_whole_or_without_where_it_is_lost() -> None:
    opened = demo("toll-cottage-shared-conductor")
    flags = flags_of(opened.job.layouts["as-found"], opened.catalogue)
    for flag, end in (("w14.0", "fb.C"), ("w14.1", "not seen")):
        _box, left, _right = halves_of(flags[flag])
        assert end in left
        assert ("→ not seen" if end == "fb.C" else "→ fb.C") in left
    assert not [words for flag in flags.values() for words in halves_of(flag)[1] if "…" in words]


def test_words_stay_off_the_band_around_the_wire_and_off_the_cut() -> None:
    for _, layout, catalogue in every_layout():
        for flag in flags_of(layout, catalogue).values():
            box, _, _ = halves_of(flag)
            halves = Box(box.x, box.y, HALF, box.h), Box(box.x + HALF + WRAP, box.y, HALF, box.h)
            for record in flag:
                if record.text is not None:
                    assert any(inside(box_of_text(record.text), half) for half in halves), record.text


def test_flags_share_their_cuts_and_never_their_paper() -> None:
    for _, layout, catalogue in every_layout():
        boxes = [halves_of(flag)[0] for flag in flags_of(layout, catalogue).values()]
        assert not any(one.overlaps(other) for place, one in enumerate(boxes) for other in boxes[place + 1 :])


def test_a_flag_says_which_wire_where_it_is_and_where_it_goes() -> None:
    layout = Layout.model_validate(
        {
            "parts": {"fb": {"kind": "furnace-board", "label": "Furnace"}},
            "cables": {"cb1": {}},
            "conductors": {"w9-7kq2x": {"ends": ["fb.R", None], "cable": "cb1", "insulation": "RD"}},
        }
    )
    flags = flags_of(layout, CATALOGUE)
    assert halves_of(flags["w9-7kq2x.0"])[1] == ["RD", "w9", "fb.R", "cb1", "→ not landed", "spare"]
    assert halves_of(flags["w9-7kq2x.1"])[1] == ["RD", "w9", "not landed", "cb1", "→ fb.R", "spare"]


def test_a_flag_says_what_its_wire_is_for_as_fully_as_there_is_room() -> None:
    opened = demo("post-office-dual-fuel")
    flags = flags_of(opened.job.layouts["as-left"], opened.catalogue)
    told = {name: halves_of(flags[f"{name}.0"])[1][-1] for name in ("w3", "w4", "w5", "w7", "w9", "w10")}
    assert told == {
        "w3": "supply",
        "w4": "common",
        "w5": "compressor",
        "w7": "rev. valve, cooling",
        "w9": "furnace heat",
        "w10": "furnace heat 2",
    }


def test_a_part_with_a_long_name_leaves_the_letter_of_the_screw() -> None:
    part = "a-part-with-a-name-of-32-letters"
    layout = Layout.model_validate(
        {
            "parts": {part: {"kind": "terminal-strip"}, "tc": {"kind": "unknown"}},
            "cables": {part: {}},
            "conductors": {"w1": {"ends": [f"{part}.7", "tc.R"], "cable": part}},
        }
    )
    here, there = flags_of(layout, CATALOGUE)["w1.0"], flags_of(layout, CATALOGUE)["w1.1"]
    assert [words for words in halves_of(here)[1] if words.startswith("a-part") and words.endswith("….7")]
    assert [words for words in halves_of(there)[1] if words.startswith("→ a") and words.endswith("….7")]


def test_a_screw_keeps_its_whole_name_where_its_cable_finds_room_on_another_row() -> None:
    ends = {"w1": ["tc.R", "zp13.Z1R"], "w2": ["tc.W", "zp13.D1C2"]}
    layout = Layout.model_validate(
        {
            "parts": {"tc": {"kind": "unknown"}, "zp13": {"kind": "unknown"}},
            "cables": {"cad13": {}},
            "conductors": {name: {"ends": both, "cable": "cad13"} for name, both in ends.items()},
        }
    )
    for name, both in ends.items():
        for end, (here, there) in enumerate((both, both[::-1])):
            words = halves_of(flags_of(layout, CATALOGUE)[f"{name}.{end}"])[1]
            assert {here, f"→ {there}", "cad13"} <= set(words)


def test_no_flag_of_the_hundred_parts_leaves_it_open_to_which_part_its_wire_leads() -> None:
    opened = demo("school-row-hundred-parts")
    flags = flags_of(opened.job.layouts["as-left"], opened.catalogue)
    assert [words for flag in flags.values() for words in halves_of(flag)[1] if "…" in words] == []


def test_a_part_with_five_rows_of_flags_has_them_under_one_title() -> None:
    titles = []
    for ends in (10, 15, 16):
        layout = Layout.model_validate(
            {
                "parts": {"ts": {"kind": "terminal-strip"}, "tc": {"kind": "unknown"}},
                "conductors": {f"w{number}": {"ends": [f"ts.{number % 8 + 1}", None]} for number in range(ends)},
            }
        )
        drawing = flags_drawing(layout, CATALOGUE, {})
        titles.append([head for head in drawing.heads.values() if head == "ts"])
    assert [len(each) for each in titles] == [1, 1, 2]


def test_what_a_count_on_a_flag_means_is_told_where_there_is_one() -> None:
    for name, layout_name, there in (
        ("school-row-hundred-parts", "as-left", True),
        ("post-office-dual-fuel", "as-left", False),
    ):
        opened = demo(name)
        layout = opened.job.layouts[layout_name]
        words = [words for flag in flags_of(layout, opened.catalogue).values() for words in halves_of(flag)[1]]
        marks = flags_drawing(layout, opened.catalogue, roles_in(build_circuit(layout, opened.catalogue))).marks
        assert any(re.search(r" \+ \d", each) for each in words) == ("and-more" in {m.name for m in marks}) == there
