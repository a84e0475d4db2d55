"""The log of a job comes a page at a time, and any point of it can be come back to by one change."""

from __future__ import annotations

import pytest

from tests.web.api import Api


def title(words: str) -> list[dict[str, str]]:
    return [{"op": "replace", "path": "/title", "value": words}]


def edited(api: Api, job: str, count: int) -> list[object]:
    """Change a job ``count`` times, every third time as another editor; return its document at each revision."""
    documents = [api.document(job)]
    for number in range(1, count + 1):
        headers = {"Rungwright-Editor": "e-other" if number % 3 == 0 else "e-own"}
        assert api.patch(job, title(f"Title {number}"), number, headers=headers).status_code == 200
        documents.append(api.document(job))
    return documents


def test_pages_from_the_newest_back_are_the_whole_log(api: Api, job: str) -> None:
    edited(api, job, 7)
    pages, before = [], ""
    while before is not None:
        said = api.get(f"/api/jobs/{job}/history?most=3{before}").get_json()
        pages.append([change["revision"] for change in said["changes"]])
        before = said["earlier"] and f"&before={said['earlier']}"

    assert pages == [[6, 7, 8], [3, 4, 5], [2]]
    assert said["revision"] == 8


def test_a_page_that_is_just_full_says_that_nothing_is_before_it(api: Api, job: str) -> None:
    edited(api, job, 3)

    assert api.get(f"/api/jobs/{job}/history?most=3").get_json()["earlier"] is None
    assert api.get(f"/api/jobs/{job}/history?most=2").get_json()["earlier"] == 3
    assert api.get(f"/api/jobs/{job}/history").get_json()["earlier"] is None


def test_the_log_of_one_editor(api: Api, job: str) -> None:
    edited(api, job, 6)

    def revisions(query: str) -> list[int]:
        return [change["revision"] for change in api.get(f"/api/jobs/{job}/history?{query}").get_json()["changes"]]

    assert revisions("editor=e-other") == [4, 7]
    assert revisions("editor=e-own&most=2&before=6") == [3, 5]
    assert revisions("editor=nobody") == []


@pytest.mark.parametrize("query", ["most=0", "most=1001", "before=0", "before=x", "after=1&after=2"])
def test_a_page_that_cannot_be_given_is_refused(api: Api, job: str, query: str) -> None:
    assert api.get(f"/api/jobs/{job}/history?{query}").status_code == 422


def test_back_to_any_point_is_one_change_that_can_be_undone(api: Api, job: str) -> None:
    documents = edited(api, job, 3)
    wires = [{"op": "add", "path": "/layouts/as-left/conductors/w90", "value": {"ends": [None, None]}}]
    api.patch(job, wires, 4)
    documents.append(api.document(job))
    revision = 5
    for to in (1, 3, 4, 5):
        before = api.document(job)
        said = api.get(f"/api/jobs/{job}/back?to={to}").get_json()
        assert said["revision"] == revision

        reply = api.patch(job, said["patch"], revision)

        assert reply.status_code == 200, reply.text
        assert api.document(job) == documents[to - 1]
        revision += 1
        api.patch(job, reply.get_json()["inverse"], revision)
        assert api.document(job) == before
        revision += 1


def test_back_to_where_it_is_changes_nothing(api: Api, job: str) -> None:
    edited(api, job, 2)

    assert api.get(f"/api/jobs/{job}/back?to=3").get_json()["patch"] == []


@pytest.mark.parametrize("to", ["to=9", "to=0", "to=x", ""], ids=["not-yet", "never", "word", "none"])
def test_back_to_nowhere_is_refused(api: Api, job: str, to: str) -> None:
    assert api.get(f"/api/jobs/{job}/back?{to}").status_code == 422


def test_on_top_of_somebody_else_going_back_is_refused(api: Api, job: str) -> None:
    edited(api, job, 2)
    said = api.get(f"/api/jobs/{job}/back?to=1").get_json()
    api.patch(job, title("Theirs"), 3)

    assert api.patch(job, said["patch"], 3).status_code == 412
    assert api.patch(job, said["patch"], 4).status_code == 409
    assert api.document(job)["title"] == "Theirs"
