"""A change of a job is judged on its end result."""

from typing import Any

import pytest

from app.job.change import change_job
from app.job.model import Job
from app.job.reading import document_of, job_from_document
from app.job.refusal import Refused
from tests.job.four_checks import check_change
from tests.job.samples import sample

FOUND = "/layouts/as-found"
TAKE_OFF: list[dict[str, Any]] = [
    {"op": "replace", "path": f"{FOUND}/conductors/w1/ends/1", "value": None},
    {"op": "remove", "path": f"{FOUND}/conductors/w2"},
]
REMOVE: list[dict[str, Any]] = [{"op": "remove", "path": f"{FOUND}/parts/tc"}]


def nothing_to_say(_: Job) -> None:
    """A judge that is content."""


@pytest.mark.parametrize(
    "operations", [TAKE_OFF + REMOVE, REMOVE + TAKE_OFF], ids=["off first", "off afterwards in the same patch"]
)
def test_a_part_goes_when_the_patch_leaves_nothing_on_it(operations: list[dict[str, Any]]) -> None:
    patched = check_change(sample(), operations)
    changed = change_job(job_from_document(sample()), operations, nothing_to_say)
    assert changed.document == patched.document == document_of(changed.job)
    assert changed.inverse == patched.inverse


def test_a_part_on_which_something_is_landed_stays() -> None:
    with pytest.raises(Refused) as caught:
        change_job(job_from_document(sample()), [*REMOVE, TAKE_OFF[0]], nothing_to_say)
    refusal = caught.value
    assert (refusal.code, refusal.pointer) == ("part-still-landed", f"{FOUND}/parts/tc")
    assert "w2 on tc.W" in refusal.message
    assert "w1" not in refusal.message
    assert "same patch" in (refusal.would_be_right or "")


def test_a_part_on_which_nothing_is_landed_goes() -> None:
    operations = [{"op": "remove", "path": f"{FOUND}/parts/spare"}]
    assert (
        "spare" not in change_job(job_from_document(sample()), operations, nothing_to_say).job.layouts["as-found"].parts
    )


def test_a_whole_layout_goes_at_once() -> None:
    changed = change_job(job_from_document(sample()), [{"op": "remove", "path": FOUND}], nothing_to_say)
    assert set(changed.job.layouts) == {"as-left"}


def test_the_judge_sees_the_result_and_has_the_last_word() -> None:
    seen: list[Job] = []

    def judge(job: Job) -> None:
        seen.append(job)
        raise Refused("unheard-of", "No.", pointer="/title")

    job = job_from_document(sample())
    with pytest.raises(Refused, match="No"):
        change_job(job, [{"op": "replace", "path": "/title", "value": "new"}], judge)
    assert [each.title for each in seen] == ["new"]
    assert document_of(job) == sample()


def test_a_misshapen_result_is_refused_with_its_place_in_the_document() -> None:
    with pytest.raises(Refused) as caught:
        change_job(
            job_from_document(sample()),
            [{"op": "add", "path": f"{FOUND}/parts/fb/at/-", "value": 3}],
            nothing_to_say,
        )
    assert caught.value.pointer == f"{FOUND}/parts/fb/at"


def test_do_undo_redo() -> None:
    job = job_from_document(sample())
    done = change_job(job, TAKE_OFF + REMOVE, nothing_to_say)
    undone = change_job(done.job, done.inverse, nothing_to_say)
    redone = change_job(undone.job, undone.inverse, nothing_to_say)
    assert undone.job == job
    assert redone.job == done.job
