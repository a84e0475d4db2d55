"""Random patches against a plain model of RFC 6902, and what holds for every patch whatever it is."""

import copy
import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.job.change import change_job
from app.job.json_values import compact
from app.job.patch import apply_patch
from app.job.reading import document_of, job_from_document
from app.job.refusal import Refused
from app.job.working_copy import WorkingCopy
from tests.job.chance import places, some_patch
from tests.job.four_checks import check_change, check_words, text_of
from tests.job.plain_patch import Impossible, plainly_patched
from tests.job.samples import sample

KEYS = st.sampled_from(["a", "b", "c", "a/b", "m~n", "", "0", "é"])
VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-2, 2)
    | st.sampled_from([0.0, 1.0, -1.0, 0.5])
    | st.sampled_from(["", "x"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=3),
    max_leaves=12,
)
OBJECTS = st.dictionaries(KEYS, VALUES, max_size=4)


@st.composite
def documents_with_patches(draw: st.DrawFn) -> tuple[dict[str, Any], list[dict[str, Any]]]:
    """Draw an object and operations, each made for the document as the plain model has it by then."""
    document = draw(OBJECTS)
    operations: list[dict[str, Any]] = []
    now: Any = document
    for _ in range(draw(st.integers(1, 6))):
        operation = draw(operations_on(now))
        operations.append(operation)
        try:
            now = plainly_patched(now, [operation])
        except Impossible:
            break
    return document, operations


@st.composite
def operations_on(draw: st.DrawFn, document: Any) -> dict[str, Any]:
    # The root is left out: over it a job refuses more than plain RFC 6902 does, and other tests say what.
    known = list(places(document))[1:] or ["/a"]
    op = draw(st.sampled_from(["add", "remove", "replace", "move", "copy", "test"]))
    path = draw(st.sampled_from(known)) if op != "add" or draw(st.booleans()) else draw(new_places(known))
    operation: dict[str, Any] = {"op": op, "path": path}
    if op in ("add", "replace", "test"):
        operation["value"] = draw(VALUES)
    if op in ("move", "copy"):
        operation["from"] = draw(st.sampled_from(known))
    return operation


def new_places(known: list[str]) -> st.SearchStrategy[str]:
    return st.tuples(st.sampled_from(["", *known]), st.sampled_from(["/a", "/b", "/-", "/0", "/1", "/a~1b"])).map(
        "".join
    )


@settings(deadline=None, max_examples=300)
@given(documents_with_patches())
def test_a_patch_does_what_the_plain_model_does(drawn: tuple[dict[str, Any], list[dict[str, Any]]]) -> None:
    document, operations = drawn
    try:
        wanted = plainly_patched(document, operations)
    except Impossible:
        with pytest.raises(Refused):
            apply_patch(document, operations)
        return
    check_change(document, operations, wanted)


@settings(deadline=None, max_examples=300)
@given(documents_with_patches())
def test_the_size_is_known_after_every_operation(drawn: tuple[dict[str, Any], list[dict[str, Any]]]) -> None:
    document, operations = drawn
    working = WorkingCopy(document)
    for operation in operations:
        steps = tuple(step.replace("~1", "/").replace("~0", "~") for step in operation["path"].split("/")[1:])
        try:
            if operation["op"] == "remove":
                working.sizes.bytes_of(working.at(steps))
                working.remove(steps)
            elif operation["op"] == "replace":
                working.replace(steps, operation["value"])
            elif operation["op"] == "add":
                working.add(steps, operation["value"])
        except Refused:
            return
        assert working.bytes == len(compact(working.document).encode())
        assert working.sizes.bytes_of(working.document) == working.bytes


def check_some_patches(seed: str, count: int) -> int:
    """Apply ``count`` random patches to the sample job, one after another, and return how many were taken."""
    chance = random.Random(seed)
    job, taken = job_from_document(sample()), 0
    document = document_of(job)
    for _ in range(count):
        operations = some_patch(chance, document)
        kept = copy.deepcopy(document)
        try:
            changed = change_job(job, operations, lambda _: None)
        except Refused as refusal:
            check_words(refusal, operations)
            assert text_of(document) == text_of(kept), "a refused patch has changed the document"
        else:
            taken += 1
            check_change(document, operations, changed.document)
            if chance.random() < 0.1:
                job, document = changed.job, document_of(changed.job)
    return taken


def test_random_patches_are_taken_whole_or_refused_in_words() -> None:
    assert check_some_patches("a slice", 400) > 10


@pytest.mark.slow
@pytest.mark.parametrize("seed", ["north", "east", "south", "west"])
def test_ten_thousand_random_patches(seed: str) -> None:
    assert check_some_patches(seed, 2500) > 100
