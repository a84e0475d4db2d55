"""The drawings of a kept job on paper: the same sheets as from the command, and nothing without bounds."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from app.paper import packet as packets
from tests.web.api import Api


def words_of(data: bytes, tmp_path: Path) -> str:
    """Return all words of a PDF, in one line."""
    file = tmp_path / "reply.pdf"
    file.write_bytes(data)
    done = subprocess.run(["pdftotext", str(file), "-"], capture_output=True, text=True, check=True)
    return " ".join(done.stdout.split())


def test_a_job_is_to_be_had_as_pdf(api: Api, job: str, tmp_path: Path) -> None:
    reply = api.get(f"/api/jobs/{job}/drawing.pdf?call=tc=cool-1")

    assert (reply.status_code, reply.mimetype) == (200, "application/pdf")
    assert reply.headers["ETag"] == api.get(f"/api/jobs/{job}/drawing.svg").headers["ETag"]
    assert "Shown: cool 1" in words_of(reply.data, tmp_path)


def test_the_same_question_gives_the_same_bytes(api: Api, job: str) -> None:
    one, other = (api.get(f"/api/jobs/{job}/drawing.pdf?paper=a4&live=no").data for _ in range(2))
    assert one == other


def test_several_views_are_one_packet(api: Api, job: str, tmp_path: Path) -> None:
    words = words_of(api.get(f"/api/jobs/{job}/drawing.pdf?also=timing&also=wires&at=0:tc=cool-1").data, tmp_path)
    assert "Connection diagram, sheet 1 of" in words
    assert "Timing chart" in words
    assert "Wire list" in words


def test_a_sheet_is_to_be_had_as_a_picture(api: Api, job: str) -> None:
    reply = api.get(f"/api/jobs/{job}/drawing.png?dpi=100&paper=letter&turned=upright")

    assert (reply.status_code, reply.mimetype) == (200, "image/png")
    assert reply.data[:4] == b"\x89PNG"
    assert int.from_bytes(reply.data[16:20], "big") == 850  # 8.5 inches


def test_a_sheet_that_is_not_there_is_refused_with_those_that_are(api: Api, job: str) -> None:
    problem = api.get(f"/api/jobs/{job}/drawing.png?sheet=99").get_json()

    assert (problem["status"], problem["code"]) == (422, "no-such-sheet")
    assert problem["would_be_right"].startswith("1 to ")


@pytest.mark.parametrize(
    ("query", "word"),
    [
        ("drawing.pdf?paper=tablecloth", "paper"),
        ("drawing.pdf?capitals=0.1", "capitals"),
        ("drawing.pdf?capitals=nan", "capitals"),
        ("drawing.pdf?dpi=100", "dpi"),
        ("drawing.png?dpi=5000", "dpi"),
        ("drawing.png?sheet=0", "sheet"),
        ("drawing.pdf?also=photograph", "also"),
        ("drawing.pdf?" + "&".join(["also=wires"] * 9), "also"),
    ],
)
def test_what_cannot_be_printed_is_refused(api: Api, job: str, query: str, word: str) -> None:
    problem = api.get(f"/api/jobs/{job}/{query}").get_json()

    assert problem["status"] == 422
    assert problem["parameter"] == word


def test_changes_are_refused_where_no_view_shows_a_sequence(api: Api, job: str) -> None:
    assert api.get(f"/api/jobs/{job}/drawing.pdf?at=0:tc=cool-1&also=wires").status_code == 422


def test_a_packet_has_a_bound(api: Api, job: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(packets, "MOST_SHEETS", 0)
    problem = api.get(f"/api/jobs/{job}/drawing.pdf").get_json()

    assert (problem["status"], problem["code"]) == (422, "too-many-sheets")
    assert problem["would_be_right"]
