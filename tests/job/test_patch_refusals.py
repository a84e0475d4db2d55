"""What a patch may not do, and what is said then."""

import tracemalloc
from typing import Any

import pytest

from app.job.json_values import MOST_BYTES, MOST_DEPTH, compact
from app.job.patch import MOST_OPERATIONS, MOST_PATCH_BYTES, apply_patch, parse_patch
from app.job.refusal import Refused
from tests.job.four_checks import check_change
from tests.job.samples import bare, sample

FOUND = "/layouts/as-found"


def refusal_of(operations: Any, document: dict[str, Any] | None = None) -> Refused:
    """Return how a patch is refused, which must name a place and what would be right."""
    with pytest.raises(Refused) as caught:
        apply_patch(sample() if document is None else document, operations)
    assert caught.value.pointer is not None
    assert caught.value.would_be_right
    return caught.value


TAKEN: dict[str, tuple[str, Any]] = {
    "part": (f"{FOUND}/parts/fb", {"kind": "x"}),
    "cable": (f"{FOUND}/cables/cb1", {}),
    "conductor": (f"{FOUND}/conductors/w1", {"ends": [None, None]}),
    "layout": (FOUND, {}),
    "empty layout": ("/layouts/as-left", {}),
    "kind": ("/kinds/my-box", {}),
    "all parts": (f"{FOUND}/parts", {}),
    "all layouts": ("/layouts", {}),
    "all kinds": ("/kinds", {}),
    "whole job": ("", {}),
}


@pytest.mark.parametrize("name", TAKEN)
def test_adding_never_overwrites_what_has_an_id(name: str) -> None:
    path, value = TAKEN[name]
    refusal = refusal_of([{"op": "add", "path": path, "value": value}])
    assert (refusal.code, refusal.status_hint, refusal.pointer) == ("id-taken", 409, path)
    assert "replace" in (refusal.would_be_right or "")


@pytest.mark.parametrize("name", TAKEN)
def test_replacing_says_that_it_overwrites(name: str) -> None:
    path, value = TAKEN[name]
    check_change(sample(), [{"op": "replace", "path": path, "value": value}])


@pytest.mark.parametrize("op", ["copy", "move"])
def test_copy_and_move_never_overwrite_what_has_an_id(op: str) -> None:
    refusal = refusal_of([{"op": op, "from": f"{FOUND}/parts/tc", "path": f"{FOUND}/parts/fb"}])
    assert (refusal.code, refusal.status_hint) == ("id-taken", 409)


def test_an_id_that_was_removed_in_the_same_patch_is_free() -> None:
    check_change(
        sample(),
        [
            {"op": "remove", "path": f"{FOUND}/parts/spare"},
            {"op": "add", "path": f"{FOUND}/parts/spare", "value": {"kind": "x"}},
        ],
    )


MALFORMED: dict[str, tuple[Any, str]] = {
    "no object": ("remove", "/0"),
    "no op": ({"path": "/title"}, "/0/op"),
    "op that is none": ({"op": "merge", "path": "/title"}, "/0/op"),
    "op that is a list": ({"op": [], "path": "/title"}, "/0/op"),
    "no path": ({"op": "remove"}, "/0/path"),
    "path that is no text": ({"op": "remove", "path": 1}, "/0/path"),
    "path without slash": ({"op": "remove", "path": "title"}, "/0/path"),
    "path with a half escape": ({"op": "remove", "path": "/ti~tle"}, "/0/path"),
    "no value": ({"op": "add", "path": "/title"}, "/0"),
    "no from": ({"op": "copy", "path": "/title"}, "/0"),
    "from that is no text": ({"op": "copy", "path": "/title", "from": None}, "/0/from"),
    "value with half a character": ({"op": "replace", "path": "/title", "value": "\ud800"}, "/0/value"),
    "value with a bell": ({"op": "replace", "path": "/title", "value": {"a": "\a"}}, "/0/value/a"),
    "value that is no number": ({"op": "replace", "path": "/title", "value": [float("nan")]}, "/0/value/0"),
    "value that is too large": ({"op": "replace", "path": "/title", "value": 10**30}, "/0/value"),
    "stray member that is no number": ({"op": "remove", "path": "/title", "x": float("inf")}, "/0/x"),
}


@pytest.mark.parametrize("name", MALFORMED)
def test_a_malformed_operation_is_refused_with_its_place_in_the_patch(name: str) -> None:
    operation, pointer = MALFORMED[name]
    assert refusal_of([operation]).pointer == pointer


NOWHERE: dict[str, tuple[dict[str, Any], str]] = {
    "remove what is not there": ({"op": "remove", "path": f"{FOUND}/parts/xx"}, f"{FOUND}/parts/xx"),
    "replace what is not there": ({"op": "replace", "path": "/nothing", "value": 1}, "/nothing"),
    "add below what is not there": ({"op": "add", "path": "/nothing/x", "value": 1}, "/nothing"),
    "add inside a text": ({"op": "add", "path": "/title/x", "value": 1}, "/title/x"),
    "copy what is not there": ({"op": "copy", "from": "/nothing", "path": "/x"}, "/nothing"),
    "move into itself": ({"op": "move", "from": FOUND, "path": f"{FOUND}/x"}, f"{FOUND}/x"),
    "remove the whole": ({"op": "remove", "path": ""}, ""),
    "past the end of a list": ({"op": "add", "path": "/kinds/my-box/list/3", "value": 1}, "/kinds/my-box/list/3"),
    "after the end of a list": ({"op": "remove", "path": "/kinds/my-box/list/-"}, "/kinds/my-box/list/-"),
    "place with a leading zero": ({"op": "remove", "path": "/kinds/my-box/list/01"}, "/kinds/my-box/list/01"),
    "place in other digits": ({"op": "remove", "path": "/kinds/my-box/list/٠"}, "/kinds/my-box/list/٠"),
    "place with very many digits": (
        {"op": "remove", "path": "/kinds/my-box/list/" + "9" * 5000},
        "/kinds/my-box/list/" + "9" * 5000,
    ),
}


@pytest.mark.parametrize("name", NOWHERE)
def test_an_operation_without_target_is_refused(name: str) -> None:
    operation, pointer = NOWHERE[name]
    with pytest.raises(Refused) as caught:
        apply_patch(sample(), [operation])
    assert (caught.value.code, caught.value.pointer, caught.value.status_hint) == ("no-such-target", pointer, 422)


def test_the_refusal_names_the_operation_and_what_there_is() -> None:
    refusal = refusal_of(
        [{"op": "test", "path": "/version", "value": 1}, {"op": "remove", "path": f"{FOUND}/parts/fbb"}]
    )
    assert refusal.message.startswith(f"Operation 2 (remove {FOUND}/parts/fbb)")
    assert "fb" in (refusal.would_be_right or "")


@pytest.mark.parametrize(
    ("path", "value"),
    [
        pytest.param("/title", "other", id="another value"),
        pytest.param("/version", True, id="true is not one"),
        pytest.param("/kinds/my-box/list", [2, 1], id="another order of a list"),
        pytest.param("/settings", {"frequency_hz": 60}, id="a member missing"),
        pytest.param("/nothing", 1, id="nothing there"),
    ],
)
def test_a_test_that_fails_is_a_conflict(path: str, value: Any) -> None:
    refusal = refusal_of([{"op": "test", "path": path, "value": value}])
    assert (refusal.code, refusal.status_hint, refusal.pointer) == ("test-failed", 409, path)


def test_at_most_so_many_operations() -> None:
    test = {"op": "test", "path": "/version", "value": 1}
    check_change(sample(), [test] * MOST_OPERATIONS)
    refusal = refusal_of([test] * (MOST_OPERATIONS + 1))
    assert (refusal.code, refusal.status_hint) == ("too-large", 413)


def test_at_most_so_many_bytes() -> None:
    empty = len(compact([{"op": "remove", "path": "/notes", "because": ""}]))
    most = {"op": "remove", "path": "/notes", "because": "x" * (MOST_PATCH_BYTES - empty)}
    check_change(sample(), parse_patch(compact([most]).encode()))
    over = {**most, "because": most["because"] + "x"}
    assert refusal_of([over]).status_hint == 413
    with pytest.raises(Refused) as caught:
        parse_patch(compact([over]).encode())
    assert caught.value.status_hint == 413


@pytest.mark.parametrize("text", [b"{}", b"1", b"[", b'[{"op":"add","op":"add"}]', b"\xff"])
def test_a_text_that_is_no_patch_is_refused(text: bytes) -> None:
    with pytest.raises(Refused) as caught:
        parse_patch(text)
    assert caught.value.pointer is not None


def test_a_copy_that_doubles_is_refused_without_the_memory_for_it() -> None:
    doubling = [{"op": "add", "path": "/kinds", "value": {"a": {"x": "y" * 1000}}}]
    doubling += [{"op": "copy", "from": "/kinds", "path": f"/kinds/k{n}"} for n in range(MOST_OPERATIONS - 1)]
    tracemalloc.start()
    try:
        refusal = refusal_of(doubling, bare())
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert (refusal.code, refusal.status_hint) == ("too-large", 413)
    assert peak < 2 * MOST_BYTES


def test_the_size_holds_after_every_operation_not_only_after_the_last() -> None:
    grown = [{"op": "add", "path": "/kinds", "value": {"a": {"x": "y" * 200_000}}}]
    grown += [{"op": "copy", "from": "/kinds/a", "path": f"/kinds/k{n}"} for n in range(10)]
    refusal = refusal_of([*grown, {"op": "remove", "path": "/kinds"}], bare())
    assert (refusal.code, refusal.pointer) == ("too-large", "/kinds/k9")
    check_change(bare(), [*grown[:-2], {"op": "remove", "path": "/kinds"}], bare())


def nested(depth: int) -> Any:
    """Return lists that lie ``depth`` deep in each other."""
    value: Any = []
    for _ in range(depth - 1):
        value = [value]
    return value


def test_the_depth_holds_after_every_operation() -> None:
    deepest = nested(MOST_DEPTH - 2)
    check_change(bare(), [{"op": "add", "path": "/kinds", "value": {"k": deepest}}])
    refusal = refusal_of([{"op": "add", "path": "/kinds", "value": {"k": [deepest]}}], bare())
    assert refusal.code == "too-deep"
    sink = [
        {"op": "add", "path": "/kinds", "value": {"k": deepest}},
        {"op": "copy", "from": "/kinds", "path": "/kinds/j"},
        {"op": "remove", "path": "/kinds"},
    ]
    assert (refusal_of(sink, bare()).code, refusal_of(sink, bare()).pointer) == ("too-deep", "/kinds/j")


def test_what_was_accepted_as_a_whole_can_be_undone_as_a_whole() -> None:
    """A value that fills a patch would fill its undo over the brim, with the test beside it."""
    full = [{"op": "add", "path": "/kinds", "value": {"k": "x" * (MOST_PATCH_BYTES - 100)}}]
    check_change(bare(), full)
    half = [{"op": "replace", "path": "/kinds", "value": {"k": "y" * (MOST_PATCH_BYTES // 2 - 200)}}]
    check_change(bare(kinds={"k": "x" * (MOST_PATCH_BYTES // 2 - 200)}), half)
    assert refusal_of(half, bare(kinds={"k": "x" * (MOST_PATCH_BYTES // 2 + 200)})).code == "too-large"


def test_a_change_whose_undo_would_not_be_accepted_is_refused() -> None:
    big = bare(kinds={f"k{n}": {"title": "x" * 3000} for n in range(100)})
    refusal = refusal_of([{"op": "remove", "path": "/kinds"}], big)
    assert (refusal.code, refusal.status_hint) == ("too-large", 413)
    check_change(big, [{"op": "remove", "path": "/kinds/k7"}])


def test_the_job_stays_an_object() -> None:
    assert refusal_of([{"op": "replace", "path": "", "value": []}]).code == "bad-patch"
