"""What a patch does, each case with the four checks."""

import copy
from typing import Any

import pytest

from app.job.patch import MOST_OPERATIONS, apply_patch
from app.job.refusal import Refused
from tests.job.four_checks import check_change, text_of
from tests.job.samples import sample

LEFT = "/layouts/as-left"
FOUND = "/layouts/as-found"


def changed(*changes: tuple[str, Any]) -> dict[str, Any]:
    """Return the sample with values set by dotted way; the value ``GONE`` takes one away."""
    document = sample()
    for way, value in changes:
        at: Any = document
        *steps, last = [int(step) if step.isdigit() else step for step in way.split(".")]
        for step in steps:
            at = at[step]
        if value is GONE:
            del at[last]
        else:
            at[last] = value
    return document


GONE = object()

CASES: dict[str, tuple[list[dict[str, Any]], dict[str, Any]]] = {
    "nothing": ([], sample()),
    "a test that holds": ([{"op": "test", "path": "/version", "value": 1.0}], sample()),
    "move onto itself": ([{"op": "move", "from": FOUND, "path": FOUND}], sample()),
    "replace by the same": ([{"op": "replace", "path": "/title", "value": "House on the slope"}], sample()),
    "add a part to a layout without parts": (
        [
            {"op": "add", "path": f"{LEFT}/parts", "value": {}},
            {"op": "add", "path": f"{LEFT}/parts/ou", "value": {"kind": "condensing-unit"}},
        ],
        changed(("layouts.as-left.parts", {"ou": {"kind": "condensing-unit"}})),
    ),
    "move a part on the sheet": (
        [{"op": "replace", "path": f"{FOUND}/parts/fb/at", "value": [500, 120]}],
        changed(("layouts.as-found.parts.fb.at", [500, 120])),
    ),
    "land an end": (
        [{"op": "replace", "path": f"{FOUND}/conductors/w9/ends/1", "value": "tc.C"}],
        changed(("layouts.as-found.conductors.w9.ends.1", "tc.C")),
    ),
    "an integer becomes a float": (
        [{"op": "replace", "path": f"{FOUND}/conductors/w12/length_m", "value": 3.0}],
        changed(("layouts.as-found.conductors.w12.length_m", 3.0)),
    ),
    "one becomes true": (
        [{"op": "replace", "path": f"{FOUND}/parts/fb/settings/fuse_amps", "value": True}],
        changed(("layouts.as-found.parts.fb.settings.fuse_amps", True)),
    ),
    "add overwrites a member that is no id": (
        [{"op": "add", "path": f"{FOUND}/parts/fb/label", "value": "Board"}],
        changed(("layouts.as-found.parts.fb.label", "Board")),
    ),
    "remove a member": (
        [{"op": "remove", "path": f"{FOUND}/cables/cb1/note"}],
        changed(("layouts.as-found.cables.cb1.note", GONE)),
    ),
    "take a conductor away": (
        [{"op": "remove", "path": f"{FOUND}/conductors/w1"}],
        changed(("layouts.as-found.conductors.w1", GONE)),
    ),
    "copy a layout into an empty one": (
        [{"op": "remove", "path": LEFT}, {"op": "copy", "from": FOUND, "path": LEFT}],
        changed(("layouts.as-left", sample()["layouts"]["as-found"])),
    ),
    "rename a conductor": (
        [{"op": "move", "from": f"{FOUND}/conductors/w12", "path": f"{FOUND}/conductors/w13"}],
        changed(
            ("layouts.as-found.conductors.w13", sample()["layouts"]["as-found"]["conductors"]["w12"]),
            ("layouts.as-found.conductors.w12", GONE),
        ),
    ),
    "accept a finding before another": (
        [{"op": "add", "path": "/records/accepted/0", "value": {"rule": "x", "subjects": [], "reason": ""}}],
        changed(("records.accepted", [{"rule": "x", "subjects": [], "reason": ""}, *sample()["records"]["accepted"]])),
    ),
    "accept a finding after another": (
        [{"op": "add", "path": "/records/accepted/-", "value": {"rule": "x", "subjects": [], "reason": ""}}],
        changed(("records.accepted", [*sample()["records"]["accepted"], {"rule": "x", "subjects": [], "reason": ""}])),
    ),
    "a list shrinks in its middle": (
        [{"op": "remove", "path": "/kinds/my-box/list/0"}],
        changed(("kinds.my-box.list", [2])),
    ),
    "a list becomes an object": (
        [{"op": "replace", "path": "/kinds/my-box/list", "value": {"0": 1}}],
        changed(("kinds.my-box.list", {"0": 1})),
    ),
    "keys with slash and tilde": (
        [{"op": "add", "path": "/kinds/my-box/terminals/O~1B~0", "value": {}}],
        changed(("kinds.my-box.terminals.O/B~", {})),
    ),
    "the whole document": ([{"op": "replace", "path": "", "value": {"title": "x"}}], {"title": "x"}),
    "members that RFC 6902 does not know are ignored": (
        [{"op": "remove", "path": "/notes", "value": 1, "from": 3, "because": "told so"}],
        changed(("notes", GONE)),
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_change_does_what_it_says_and_can_be_taken_back(name: str) -> None:
    operations, result = CASES[name]
    check_change(sample(), operations, result)


def test_what_did_not_change_is_shared() -> None:
    start = sample()
    after = apply_patch(start, [{"op": "replace", "path": "/title", "value": "x"}]).document
    assert after["layouts"] is start["layouts"]


def test_a_value_of_the_patch_that_changes_later_changes_no_document_before_it_is_used_again() -> None:
    value = {"kind": "x"}
    patch: list[dict[str, Any]] = [
        {"op": "add", "path": f"{FOUND}/parts/new", "value": value},
        {"op": "add", "path": f"{FOUND}/parts/new/label", "value": "x"},
    ]
    check_change(sample(), patch)
    assert value == {"kind": "x"}


def test_the_inverse_is_short_however_long_the_way() -> None:
    there_and_on = [{"op": "replace", "path": "/title", "value": f"{n}"} for n in range(MOST_OPERATIONS)]
    assert check_change(sample(), there_and_on).inverse == (
        {"op": "test", "path": "/title", "value": "499"},
        {"op": "replace", "path": "/title", "value": "House on the slope"},
    )


def test_many_additions_can_be_undone_within_the_limits() -> None:
    new = [
        {"op": "add", "path": f"{FOUND}/conductors/n{n}", "value": {"ends": [None, None]}}
        for n in range(MOST_OPERATIONS)
    ]
    inverse = check_change(sample(), new).inverse
    assert [(each["op"], each["path"]) for each in inverse] == [
        ("test", f"{FOUND}/conductors"),
        ("replace", f"{FOUND}/conductors"),
    ]


@pytest.mark.parametrize(
    "other",
    [
        pytest.param({"op": "replace", "path": f"{FOUND}/conductors/w9/ends/1", "value": "tc.W"}, id="moved on"),
        pytest.param({"op": "remove", "path": f"{FOUND}/conductors/w9"}, id="taken away"),
        pytest.param({"op": "replace", "path": f"{FOUND}/conductors/w9/ends/1", "value": None}, id="taken off"),
    ],
)
def test_an_undo_after_somebody_elses_change_is_refused(other: dict[str, Any]) -> None:
    mine = apply_patch(sample(), [{"op": "replace", "path": f"{FOUND}/conductors/w9/ends/1", "value": "tc.C"}])
    theirs = apply_patch(mine.document, [other])
    with pytest.raises(Refused) as caught:
        apply_patch(theirs.document, mine.inverse)
    assert (caught.value.code, caught.value.status_hint) == ("test-failed", 409)
    assert caught.value.pointer == f"{FOUND}/conductors/w9/ends/1"


def test_an_undo_leaves_what_somebody_else_did_elsewhere() -> None:
    mine = apply_patch(sample(), [{"op": "replace", "path": f"{FOUND}/conductors/w9/ends/1", "value": "tc.C"}])
    theirs = apply_patch(mine.document, [{"op": "replace", "path": "/title", "value": "theirs"}])
    assert text_of(apply_patch(theirs.document, mine.inverse).document) == text_of(changed(("title", "theirs")))


def test_a_refused_patch_leaves_the_document_as_it_was() -> None:
    start = sample()
    kept = copy.deepcopy(start)
    with pytest.raises(Refused):
        apply_patch(start, [{"op": "remove", "path": "/title"}, {"op": "remove", "path": "/title"}])
    assert start == kept
