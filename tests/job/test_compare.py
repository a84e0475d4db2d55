"""What differs between two layouts."""

from collections.abc import Mapping

from hypothesis import given, settings
from hypothesis import strategies as st

from app.job.compare import Difference, EndMoved, compare_layouts
from app.job.model import Conductor, Layout, Part, UnknownEnd
from app.job.sketch import sketch

PARTS = {"fb": "furnace-board", "tc": "thermostat-heat-cool"}


def test_a_layout_differs_in_nothing_from_itself() -> None:
    layout = sketch(PARTS, "fb.R tc.R", "fb.C -", "- ?")
    assert not compare_layouts(layout, layout)


def test_a_default_that_is_said_is_no_difference() -> None:
    assert not compare_layouts(sketch({"fb": {"kind": "x"}}), sketch({"fb": {"kind": "x", "air": "main", "note": ""}}))


def test_ends_that_moved_are_named_one_by_one() -> None:
    before = sketch(PARTS, "fb.R tc.R", "fb.W tc.W", "fb.C -", "- ?")
    after = sketch(PARTS, "fb.R tc.RH", "tc.W fb.W", "fb.C tc.C", "- -")
    assert compare_layouts(before, after).ends_moved == (
        EndMoved("w1", 1, "tc.R", "tc.RH"),
        EndMoved("w2", 0, "fb.W", "tc.W"),
        EndMoved("w2", 1, "tc.W", "fb.W"),
        EndMoved("w3", 1, None, "tc.C"),
        EndMoved("w4", 1, UnknownEnd(unknown="not seen"), None),
    )


def test_a_conductor_that_only_got_a_note_moved_no_end() -> None:
    before = Layout(conductors={"w1": Conductor(ends=("fb.R", None))})
    after = Layout(conductors={"w1": Conductor(ends=("fb.R", None), note="pulled", insulation="RD")})
    difference = compare_layouts(before, after)
    assert difference.conductors == Difference((), (), {"w1": ("insulation", "note")})
    assert difference.ends_moved == ()


def test_parts_and_cables_come_go_and_change() -> None:
    before = Layout.model_validate(
        {"parts": {"fb": {"kind": "a"}, "tc": {"kind": "b"}, "zz": {"kind": "c"}}, "cables": {"c1": {}}}
    )
    after = Layout.model_validate(
        {"parts": {"fb": {"kind": "a", "at": [1, 2]}, "tc": {"kind": "d", "label": "x"}, "aa": {"kind": "c"}}}
    )
    difference = compare_layouts(before, after)
    assert difference.parts == Difference(("aa",), ("zz",), {"fb": ("at",), "tc": ("kind", "label")})
    assert difference.cables == Difference((), ("c1",), {})


WIRES: st.SearchStrategy[Mapping[str, Conductor]] = st.dictionaries(
    st.sampled_from(["w1", "w2", "w3"]),
    st.builds(Conductor, ends=st.tuples(*[st.sampled_from(["fb.R", "tc.R", None])] * 2)),
)
LAYOUTS = st.builds(
    Layout,
    parts=st.dictionaries(st.sampled_from(["fb", "tc"]), st.builds(Part, kind=st.sampled_from(["a", "b"]))),
    conductors=WIRES,
)


@settings(deadline=None)
@given(LAYOUTS, LAYOUTS)
def test_the_way_back_is_the_way_there_turned_round(before: Layout, after: Layout) -> None:
    there, back = compare_layouts(before, after), compare_layouts(after, before)
    assert there.parts.added == back.parts.removed
    assert there.conductors.changed == back.conductors.changed
    assert [(move.before, move.after) for move in there.ends_moved] == [
        (move.after, move.before) for move in back.ends_moved
    ]
    assert bool(there) == (before != after)
