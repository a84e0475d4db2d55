"""What comes when the bench is opened: the drawing in the page, every module named in it, all of it packed."""

from __future__ import annotations

import gzip
import re
from pathlib import Path
from urllib.parse import urljoin

import pytest
from werkzeug.test import TestResponse

from tests.web.api import Api

IMPORTED = re.compile(r'\bfrom\s+"(\.[^"]+)"|^import\s+"(\.[^"]+)"', re.MULTILINE)
STATIC = Path(__file__).resolve().parents[2] / "static"
UNPACKS = {"Accept_Encoding": "gzip"}


def fetch(api: Api, path: str, **headers: str) -> TestResponse:
    """Return a reply, read to its end so that no file stays open."""
    said = {name.replace("_", "-"): value for name, value in headers.items()}
    return api.client.get(path, headers=said, buffered=True)


def page_of(api: Api, job: str) -> str:
    """Return the page of the bench of a job."""
    return api.client.get(f"/jobs/{job}").get_data(as_text=True)


def without_edition(path: str) -> str:
    """Return the address of a file under which it stands in its folder."""
    return re.sub(r"^/static/[0-9a-f]{12}/", "/static/", path)


def imported_by(address: str) -> set[str]:
    """Return the addresses of all modules that a module needs, layer by layer."""
    found: set[str] = set()
    asked = {address}
    while asked:
        words = {one: (STATIC / one.removeprefix("/static/")).read_text(encoding="utf-8") for one in asked}
        names = {urljoin(one, a or b) for one, text in words.items() for a, b in IMPORTED.findall(text)}
        asked = names - found
        found |= names
    return found


def test_the_page_holds_the_drawing_that_the_bench_asks_for_first(api: Api, job: str) -> None:
    drawing = api.client.get(f"/jobs/{job}/shown").get_json()["drawing"]
    assert drawing[drawing.index("<svg") :].replace("<svg", '<svg class="drawing"', 1) in page_of(api, job)


def test_a_drawing_that_the_page_has_does_not_come_again(api: Api, job: str) -> None:
    assert re.search('data-revision="1"', page_of(api, job))
    look = f"/jobs/{job}/shown?view=connection&drawn="
    assert api.client.get(f"{look}1").get_json()["drawing"] is None
    for other in (
        f"{look}2",
        f"{look}1&insides=yes",
        f"{look}1&supply=0",
        f"/jobs/{job}/shown?view=ladder&drawn=1",
    ):
        assert api.client.get(other).get_json()["drawing"].startswith("<"), other


def test_the_page_names_every_module_that_its_script_needs(api: Api, job: str) -> None:
    page = page_of(api, job)
    named = re.findall(r'<link rel="modulepreload" href="([^"]+)"', page)
    assert len(named) == len(set(named))
    assert {without_edition(path) for path in named} == imported_by("/static/bench/main.js")


def test_nothing_but_styles_is_asked_for_before_the_drawing_is_painted(api: Api, job: str) -> None:
    page = page_of(api, job)
    (script,) = re.findall(r'<script type="module" src="([^"]+)"', page)
    assert imported_by(without_edition(script)) == set()
    # What is in a template waits for the script.
    outside = re.sub(r"<template\b.*?</template>", "", page, flags=re.DOTALL)
    assert set(re.findall(r'<link rel="([^"]+)"', outside)) == {"icon", "stylesheet"}


@pytest.mark.parametrize(
    "path", ["/static/bench/sheet/surface.js", "/static/style/sheet.css", "/", "/api/openapi.json"]
)
def test_a_reply_is_packed_for_whoever_unpacks_it(api: Api, path: str) -> None:
    plain, packed = fetch(api, path), fetch(api, path, **UNPACKS)
    assert "Content-Encoding" not in plain.headers
    assert packed.headers["Content-Encoding"] == "gzip"
    assert gzip.decompress(packed.data) == plain.data
    assert len(packed.data) < len(plain.data) / 2
    assert "Accept-Encoding" in plain.headers["Vary"]
    assert "Accept-Encoding" in packed.headers["Vary"]


def test_who_refuses_a_packed_reply_gets_none(api: Api) -> None:
    reply = fetch(api, "/static/style/sheet.css", Accept_Encoding="gzip;q=0, identity")
    assert "Content-Encoding" not in reply.headers


def test_a_packed_reply_names_its_revision_as_a_plain_one_does(api: Api, job: str) -> None:
    path = f"/api/jobs/{job}"
    assert fetch(api, path, **UNPACKS).headers["ETag"] == fetch(api, path).headers["ETag"] == '"1"'


def test_what_has_not_changed_is_still_not_sent_again(api: Api) -> None:
    path = "/static/style/sheet.css"
    tag = fetch(api, path, **UNPACKS).headers["ETag"]
    reply = fetch(api, path, **UNPACKS, If_None_Match=tag)
    assert (reply.status_code, reply.data) == (304, b"")


def test_a_picture_is_left_as_it_is(api: Api) -> None:
    reply = fetch(api, "/static/pictures/bench.png", **UNPACKS)
    assert "Content-Encoding" not in reply.headers
