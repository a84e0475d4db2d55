"""What each conductor is for: heard of every one, written once where there is room, whole, and beside its own line."""

from __future__ import annotations

from itertools import pairwise

import pytest

from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.drawing.connection.strips import Strips
from app.drawing.surface.geometry import GRID, Box, Point, box_of_points
from app.drawing.surface.recorder import Record
from app.drawing.surface.text_width import box_of_text
from app.explain.purpose_words import role_words
from app.explain.role import Role
from app.explain.role_label import SHORT, role_labels
from app.job.model import Layout
from app.job.sketch import sketch
from tests.demo_jobs.demos import SCHOOL_ROW, demo, layouts
from tests.drawing.generated import CATALOGUE, generated_layout
from tests.drawing.seen import Seen, overlapping_words

BUSY = ("post-office-dual-fuel", "assembly-rooms-zone-panel", "toll-cottage-shared-conductor")


def fed(apart: int) -> Layout:
    """Return a transformer and a board so far apart, joined at R and C level with each other."""
    parts = {
        "xf": {"kind": "control-transformer", "at": (0, 0)},
        "fb": {"kind": "furnace-board", "at": (apart, 0)},
    }
    return sketch(parts, "xf.R fb.XF", "xf.C fb.XC")


def written(seen: Seen) -> dict[str, list[str]]:
    """Return what is written of what each conductor is for."""
    found: dict[str, list[str]] = {}
    for record in purposes(seen):
        assert record.text is not None
        found.setdefault(record.within("data-conductor") or "", []).append(record.text.words)
    return found


def purposes(seen: Seen) -> list[Record]:
    return [record for record in seen.texts if record.attributes.get("class") == "purpose"]


@pytest.mark.parametrize(("name", "layout"), [pytest.param(*pair, id="-".join(pair)) for pair in layouts()])
def test_a_reader_hears_what_each_conductor_is_for(name: str, layout: str) -> None:
    seen = Seen(demo(name).job.layouts[layout], demo(name).catalogue)
    titles = {r.attributes["data-conductor"]: r.title for r in seen.recorder.drawn("begin") if "data-conductor" in
              r.attributes}  # fmt: skip
    assert set(titles) == set(seen.layout.conductors)
    assert {w for w, title in titles.items() if role_words(seen.roles[w]).lower() not in title.lower()} == set()


@pytest.mark.parametrize(("name", "layout"), [pytest.param(*pair, id="-".join(pair)) for pair in layouts()])
def test_what_is_written_is_the_role_whole_once_and_beside_its_own_line(name: str, layout: str) -> None:
    seen = Seen(demo(name).job.layouts[layout], demo(name).catalogue)
    for wire, said in written(seen).items():
        (words,) = said
        before = [f"{seen.plan.called[wire]} ", f"{seen.plan.called[wire]} {seen.layout.conductors[wire].insulation} "]
        forms = role_labels(seen.roles[wire])
        assert words in {*forms, *(start + form for start in before for form in forms)}, wire
    for record in purposes(seen):
        own = record.within("data-conductor")
        lies_along = [s for s in seen.segments if s.conductor == own and _is_under(s.box, record)]
        assert lies_along, (own, record.text)


def _is_under(segment: Box, record: Record) -> bool:
    """Return whether words lie along a piece of line, at most one lane beside it and from end to end of themselves."""
    assert record.text is not None
    words = box_of_text(record.text)
    if record.text.upright:
        return segment.h == 0 and 0 <= segment.y - words.bottom < GRID and _holds(segment.x, segment.right, words.x,
                                                                                   words.right)  # fmt: skip
    return segment.w == 0 and 0 <= segment.x - words.right < GRID and _holds(segment.y, segment.bottom, words.y,
                                                                             words.bottom)  # fmt: skip


def _holds(low: int, high: int, start: int, end: int) -> bool:
    return low <= start and end <= high


def test_it_stands_after_the_label_where_the_line_goes_on_straight() -> None:
    seen = Seen(fed(720), CATALOGUE)
    assert written(seen) == {"w1": ["supply"], "w2": ["common"]}
    for wire in ("w1", "w2"):
        (purpose,) = [r.text for r in purposes(seen) if r.within("data-conductor") == wire]
        labels = [seen.written.labels[end] for end in seen.written.labels if end.conductor == wire]
        assert purpose is not None
        assert any(label.at.y == purpose.at.y and label.at.x + label.width < purpose.at.x for label in labels)


def test_it_stands_along_the_line_with_the_name_where_the_landings_are_crossed() -> None:
    seen = Seen(demo(BUSY[0]).job.layouts["as-left"], demo(BUSY[0]).catalogue)
    assert written(seen)["w10"] == ["w10 BN furnace heat stage 2"] or written(seen)["w10"] == ["w10 BN furnace heat 2"]


def test_where_there_is_no_room_it_is_left_to_the_list() -> None:
    parts = {"a": {"kind": "terminal-strip", "at": (0, 0)}, "b": {"kind": "terminal-strip", "at": (0, 0)}}
    layout = sketch(parts, *(f"a.{n} b.{n - 4}" for n in (5, 6, 7, 8)))
    coded = {name: each.model_copy(update={"insulation": "BK-WH-RD"}) for name, each in layout.conductors.items()}
    near = dict(layout.parts)
    near["b"] = layout.parts["b"].model_copy(update={"at": (Seen(layout, CATALOGUE).plan.boxes["a"].box.w + 192, 0)})
    seen = Seen(layout.model_copy(update={"conductors": coded, "parts": near}), CATALOGUE)
    assert written(seen) == {}
    said = [r.title for r in seen.recorder.drawn("begin") if "data-conductor" in r.attributes]
    assert len(said) == 4
    assert all("No effect found" in title for title in said)


def test_without_roles_nothing_of_it_is_said() -> None:
    seen = Seen(fed(720), CATALOGUE, roles={})
    assert written(seen) == {}
    assert seen.groups("data-mark") == ["conductor"]


@pytest.mark.parametrize("name", BUSY)
def test_arrowheads_keep_off_all_words_and_none_is_lost_to_them(name: str) -> None:
    opened = demo(name)
    layout = opened.job.layouts[opened.job.default_layout()]
    circuit = build_circuit(layout, opened.catalogue)
    heads = 0
    for situation in situations_of(layout, opened.catalogue):
        point = solve(circuit, situation)
        seen, bare = Seen(layout, opened.catalogue, point), Seen(layout, opened.catalogue, point, roles={})
        assert pointed(seen) == pointed(bare)
        # The blank above the capitals of a word may be touched, and the line under it is there anyway.
        boxes = [box_of_text(record.text).grown(0, -2, 0, 0) for record in purposes(seen) if record.text is not None]
        for record in seen.recorder.drawn("shape"):
            head = box_of_points(record.points)
            assert head is not None
            heads += 1
            assert not [box for box in boxes if box.overlaps(head)], record
    assert heads


def pointed(seen: Seen) -> set[str | None]:
    """Return the conductors with an arrowhead."""
    return {record.within("data-conductor") for record in seen.recorder.drawn("shape")}


def test_most_conductors_of_the_demos_say_it_on_the_sheet() -> None:
    told = every = 0
    for name, layout in layouts():
        if name != SCHOOL_ROW:
            seen = Seen(demo(name).job.layouts[layout], demo(name).catalogue)
            told, every = told + len(written(seen)), every + len(seen.layout.conductors)
    assert told > 0.9 * every


def test_words_and_lines_keep_apart_in_layouts_by_chance() -> None:
    for seed in (21, 22):
        seen = Seen(generated_layout(seed, 30), CATALOGUE)
        assert written(seen)
        for record in purposes(seen):
            assert record.text is not None
            inked = box_of_text(record.text).grown(3, -2, 3, 0) if record.text.upright else box_of_text(record.text)
            assert not list(seen.cutting(inked)), record


def test_words_keep_away_from_the_mark_of_an_end_that_was_not_seen() -> None:
    seen = Seen(generated_layout(123, 25), CATALOGUE)
    assert [record for record in seen.texts if record.text is not None and record.text.words == "?"]
    assert overlapping_words(seen) == []


def test_every_role_has_a_short_form_and_none_hides_what_else_there_is() -> None:
    for name in SHORT:
        assert role_labels(Role(name))
    assert role_labels(Role("reversing-valve", "cooling"))[-1].endswith("cooling")
    assert role_labels(Role("supply", also=("boiler-heat", "indoor-fan")))[-1] == "supply + 2 more"
    lengths = [len(words) for words in role_labels(Role("auxiliary-heat", also=("defrost-output",)))]
    assert lengths == sorted(lengths, reverse=True)


def test_a_strip_is_free_up_to_what_comes_through_it() -> None:
    strips = Strips(Box(0, 0, 240, 240))
    strips.lay((Point(60, 0), Point(60, 120)))
    assert list(strips.stretches(True, 48, 0, 240)) == [(0, 60), (60, 240)]
    assert list(strips.stretches(True, 120, 0, 240)) == [(0, 60), (60, 240)]
    assert list(strips.stretches(True, 132, 0, 240)) == [(0, 240)]
    assert strips.reach(True, 48, 0, 240) == 60
    assert strips.reach(True, 48, 240, 0) == 60
    assert strips.reach(True, 48, 60, 240) == 240
    assert strips.reach(True, 132, 240, 12) == 12


def test_a_strip_holds_what_a_box_leaves() -> None:
    strips = Strips(Box(0, 0, 240, 240))
    strips.block(Box(30, 40, 20, 10))
    # The box lies in the strips above the rows 48 and 60, and to the left of the columns 36, 48 and 60.
    assert [lane for lane in range(12, 241, 12) if strips.reach(True, lane, 0, 240) < 240] == [48, 60]
    assert [lane for lane in range(12, 241, 12) if strips.reach(False, lane, 0, 240) < 240] == [36, 48, 60]
    assert list(strips.stretches(True, 48, 0, 240)) == [(0, 24), (24, 36), (36, 48), (48, 60), (60, 240)]
    assert all(a < b for a, b in pairwise((0, *(end for _, end in strips.stretches(False, 48, 0, 240)))))
