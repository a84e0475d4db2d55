"""Every change of ``app.job.compare`` is drawn and listed once, and nothing else is marked."""

from __future__ import annotations

from collections import Counter

import pytest

from app.catalogue.catalogue import Catalogue, settings_of
from app.drawing.comparing.alike import said_alike
from app.drawing.comparing.marks import BEFORE_RING
from app.drawing.frame.one_sheet import one_sheet
from app.drawing.frame.title_block import SheetWords
from app.job.compare import LayoutDifference, compare_layouts
from app.job.model import Conductor, Layout
from tests.backwards import backwards
from tests.drawing.comparing.pairs import DEMOS, SEEDS, demo_pair, pair
from tests.drawing.comparing.seen import OF_CHANGE, SeenChanges, broken_rules
from tests.drawing.generated import CATALOGUE

Pair = tuple[Layout, Layout, Catalogue]
PAIRS = [pytest.param((*pair(seed), CATALOGUE), id=f"seed-{seed}") for seed in SEEDS]
PAIRS += [pytest.param(demo_pair(name), id=name) for name in DEMOS]
PAIRS += [pytest.param((*demo_pair(name)[1::-1], demo_pair(name)[2]), id=f"{name}-back") for name in DEMOS]
MARKS_OF_CHANGE = {"wire-new", "end-moved", "came-off", "part-new", "part-gone", "screw-gone"}


def difference(of: Pair) -> tuple[Layout, Layout, LayoutDifference]:
    before, after, catalogue = of
    alike = said_alike(before, after, catalogue).layout
    return alike, after, compare_layouts(alike, after)


def _near(at: int, low: int, high: int) -> bool:
    return low - BEFORE_RING <= at <= high + BEFORE_RING


def names_in(found: LayoutDifference, what: str) -> set[str]:
    one = getattr(found, what)
    return {*one.added, *one.removed, *one.changed}


@pytest.mark.parametrize("of", PAIRS)
def test_every_change_is_marked_and_nothing_else(of: Pair) -> None:
    alike, after, found = difference(of)
    seen = SeenChanges(*of)
    parts, lines = seen.marked("data-part"), seen.marked("data-conductor")
    assert parts.keys() == names_in(found, "parts")
    assert {name for name, fate in parts.items() if fate == "new"} == set(found.parts.added)
    assert {name for name, fate in parts.items() if fate == "taken out"} == set(found.parts.removed)
    whole = {name: fate for name, fate in lines.items() if name in alike.conductors or name in after.conductors}
    assert whole.keys() == names_in(found, "conductors")
    assert {name for name, fate in whole.items() if fate == "new"} == set(found.conductors.added)
    gone = {name for name, fate in whole.items() if fate == "taken off, as it was"}
    assert gone == set(found.conductors.removed)
    moved = {name for name, fate in whole.items() if fate == "moved"}
    assert moved == {move.conductor for move in found.ends_moved}


@pytest.mark.parametrize("of", PAIRS)
def test_every_end_is_marked_where_it_came_off_and_where_it_was_landed(of: Pair) -> None:
    alike, after, found = difference(of)
    seen = SeenChanges(*of)
    landed = [wire.ends[n] for name in found.conductors.added for n in (0, 1) for wire in [after.conductors[name]]]
    landed += [move.after for move in found.ends_moved]
    off = [wire.ends[n] for name in found.conductors.removed for n in (0, 1) for wire in [alike.conductors[name]]]
    off += [move.before for move in found.ends_moved]
    screws = {(landing.port.x, landing.port.y): end for end, landing in seen.plan.landings.items()}

    def marked(kind: str) -> list[str]:
        """Return the screws at whose landings there are marks of a kind, by the port that is nearest."""
        at = []
        for record in seen.marks_of_change():
            box = record.bounds()
            if record.attributes["class"] == kind and box is not None:
                near = [
                    end for (x, y), end in screws.items() if _near(x, box.x, box.right) and _near(y, box.y, box.bottom)
                ]
                (end,) = [end for end in near if end.conductor == record.within("data-conductor")]
                at.append(str(seen.layout.conductors[end.conductor].ends[end.number]))
        return sorted(at)

    assert marked("landed-here") == sorted(end for end in landed if isinstance(end, str))
    # A cross is two strokes.
    assert marked("came-off")[::2] == marked("came-off")[1::2] == sorted(end for end in off if isinstance(end, str))


@pytest.mark.parametrize("of", PAIRS)
def test_every_change_is_listed_and_told_once(of: Pair) -> None:
    _alike, after, found = difference(of)
    seen = SeenChanges(*of)
    renamed = seen.both.changes.renamed.keys()
    assert renamed <= after.conductors.keys()
    wanted = [f"wire:{name}" for name in names_in(found, "conductors") | renamed]
    wanted += [f"part:{name}" for name in names_in(found, "parts")]
    wanted += [f"cable:{name}" for name in names_in(found, "cables")]
    assert Counter(seen.listed()) == Counter(wanted)
    for group in seen.both.told:
        for told in group:
            assert told.changes
            assert all(change.what for change in told.changes)
            assert f"{told.name}. " in seen.drawing.description


@pytest.mark.parametrize("of", PAIRS)
def test_the_earlier_layout_in_other_words_is_the_same_on_the_site(of: Pair) -> None:
    before, after, catalogue = of
    alike, ids = said_alike(before, after, catalogue)

    def plain(conductor: Conductor) -> tuple[object, ...]:
        ends = sorted(str(end) for end in conductor.ends)
        return *ends, conductor.cable, conductor.insulation, conductor.length_m, conductor.size_awg, conductor.note

    assert {ids[name]: plain(wire) for name, wire in alike.conductors.items()} == {
        name: plain(wire) for name, wire in before.conductors.items()
    }
    assert len(ids) == len(before.conductors)
    assert alike.cables == before.cables
    assert alike.parts.keys() == before.parts.keys()
    for name, part in before.parts.items():
        same = alike.parts[name].model_copy(update={"at": part.at, "settings": part.settings})
        kind = catalogue.kind_of(part)
        assert same == part
        assert kind is None or settings_of(kind, alike.parts[name]) == settings_of(kind, part)


@pytest.mark.parametrize("of", PAIRS)
def test_the_hard_rules_hold_for_two_layouts(of: Pair) -> None:
    assert broken_rules(SeenChanges(*of)) == {}


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(1000, 1150))
def test_the_hard_rules_hold_for_many_pairs(seed: int) -> None:
    assert broken_rules(SeenChanges(*pair(seed), CATALOGUE)) == {}


@pytest.mark.parametrize("of", PAIRS)
def test_equal_layouts_have_no_mark(of: Pair) -> None:
    for layout in of[:2]:
        seen = SeenChanges(layout, layout, of[2])
        assert seen.marked("data-part") == seen.marked("data-conductor") == {}
        assert seen.listed() == []
        assert seen.marks_of_change() == []
        assert not {mark.name for mark in seen.drawing.marks} & MARKS_OF_CHANGE
        assert "Nothing is different." in [r.text.words for r in seen.texts if r.text is not None]
        assert seen.drawing.description.endswith("Nothing is different.")


@pytest.mark.parametrize("of", PAIRS)
def test_the_legend_names_the_marks_in_use_and_no_other(of: Pair) -> None:
    seen = SeenChanges(*of)
    named = {mark.name for mark in seen.drawing.marks}
    drawn = {record.attributes["class"] for record in seen.marks_of_change()}
    assert ("screw-gone" in named) == ("screw-gone" in drawn)
    assert ("end-moved" in named) == ("moved" in drawn)
    assert drawn <= set(OF_CHANGE)
    dots = [r for r in seen.on_sheet() if r.attributes.get("class") == "joint"]
    assert ("joint" in named) == bool(dots)


@pytest.mark.parametrize("of", PAIRS[:4] + PAIRS[-2:])
def test_the_order_of_keys_does_not_show(of: Pair) -> None:
    def turned(layout: Layout) -> Layout:
        fields = {field: backwards(getattr(layout, field)) for field in ("parts", "cables", "conductors")}
        return layout.model_copy(update=fields)

    words = SheetWords("Job", "as left", "Changes", "", "")
    before, after, catalogue = of
    one = one_sheet(SeenChanges(before, after, catalogue).drawing, words)
    assert one == one_sheet(SeenChanges(turned(before), turned(after), catalogue).drawing, words)
