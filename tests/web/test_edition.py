"""Scripts and styles are kept for good under an address that changes with them, and asked for again under any other."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest

from app.web.edition import edition_of
from tests.web.api import Api

FOR_GOOD = "private, max-age=31536000, immutable"


def named_in_page(api: Api, job: str) -> list[str]:
    page = api.client.get(f"/jobs/{job}").get_data(as_text=True)
    return re.findall(r'(?:href|src)="(/static/[^"]+)"', page)


def kept(api: Api, path: str) -> str:
    return api.client.get(path, buffered=True).headers["Cache-Control"]


def test_all_that_a_page_names_is_of_one_edition_and_kept_for_good(api: Api, job: str) -> None:
    named = named_in_page(api, job)
    assert len(named) > 100
    (edition,) = {path.split("/")[2] for path in named}
    assert re.fullmatch("[0-9a-f]{12}", edition)
    for path in named:
        assert kept(api, path) == FOR_GOOD, path


def test_under_the_address_of_another_edition_or_none_a_browser_asks_each_time(api: Api, job: str) -> None:
    path = next(path for path in named_in_page(api, job) if path.endswith("start.js"))
    _, static, edition, *rest = path.split("/")
    for other in (f"/{static}/{'/'.join(rest)}", f"/{static}/{'0' * len(edition)}/{'/'.join(rest)}"):
        assert kept(api, other) == "no-cache"
        assert api.client.get(other, buffered=True).data == api.client.get(path, buffered=True).data


def test_what_is_not_there_is_not_kept(api: Api, job: str) -> None:
    edition = named_in_page(api, job)[0].split("/")[2]
    reply = api.client.get(f"/static/{edition}/nothing.js")
    assert reply.status_code == 404
    assert "max-age" not in reply.headers["Cache-Control"]


@pytest.mark.parametrize("change", ["text", "name", "new", "gone"])
def test_the_edition_changes_with_any_file(tmp_path: Path, change: str) -> None:
    (tmp_path / "inner").mkdir()
    one, other = tmp_path / "one.js", tmp_path / "inner" / "other.js"
    for path in (one, other):
        path.write_text("export {};\n")
        os.utime(path, ns=(1, 1))
    before = edition_of(tmp_path)
    assert edition_of(tmp_path) == before
    if change == "text":
        other.write_text("export { };\n")
    elif change == "name":
        other.rename(tmp_path / "inner" / "another.js")
    elif change == "new":
        (tmp_path / "inner" / "new.js").write_text("")
    else:
        other.unlink()
    assert edition_of(tmp_path) != before
