"""``draw`` on paper: what is written follows from the ending, and an option that would do nothing is refused."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from app.drawing.views import VIEWS
from tests.cli.conftest import Run
from tests.demo_jobs.demos import FOLDER

DUAL_FUEL = FOLDER / "post-office-dual-fuel.json"


def size_of(pdf: Path) -> tuple[float, float]:
    """Return width and height of the first page in points."""
    said = subprocess.run(["pdfinfo", str(pdf)], capture_output=True, text=True, check=True).stdout
    found = re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", said)
    assert found is not None
    return float(found[1]), float(found[2])


def words_of(pdf: Path) -> str:
    """Return all words of a PDF, in one line."""
    done = subprocess.run(["pdftotext", str(pdf), "-"], capture_output=True, text=True, check=True)
    return " ".join(done.stdout.split())


def test_a_pdf_is_written_whole_and_says_nothing(run: Run, sound: Path, tmp_path: Path) -> None:
    out = tmp_path / "job.pdf"
    said = run("draw", sound, "--out", out, "--dated", "2031-05-06")
    assert (said.code, said.out, said.err) == (0, "", "")
    assert "Date: 2031-05-06" in words_of(out)


def test_the_paper_is_that_of_the_units_of_the_job(run: Run, sound: Path, tmp_path: Path) -> None:
    metric = tmp_path / "metric.json"
    metric.write_text(sound.read_text().replace('"title"', '"settings": {"units": "si"}, "title"', 1))
    for job, sides in ((sound, (612, 792)), (metric, (595.28, 841.89))):
        run("draw", job, "--out", tmp_path / "job.pdf")
        assert sorted(size_of(tmp_path / "job.pdf")) == pytest.approx(sides, abs=0.02)


@pytest.mark.parametrize(("turn", "size"), [("upright", (595.28, 841.89)), ("sideways", (841.89, 595.28))])
def test_paper_lies_as_it_is_told_to(run: Run, sound: Path, tmp_path: Path, turn: str, size: tuple[int, int]) -> None:
    run("draw", sound, "--paper", "a4", "--turned", turn, "--out", tmp_path / "job.pdf")
    assert size_of(tmp_path / "job.pdf") == pytest.approx(size, abs=0.02)


def test_several_pictures_are_numbered_and_named(run: Run, tmp_path: Path) -> None:
    said = run("draw", DUAL_FUEL, "--out", tmp_path / "job.png", "--dpi", 60)
    assert len(said.out.splitlines()) > 1
    assert said.out.splitlines() == [str(path) for path in sorted(tmp_path.glob("*.png"))]
    assert {Path(name).read_bytes()[:4] for name in said.out.splitlines()} == {b"\x89PNG"}


def test_one_picture_has_the_name_that_it_is_given(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "JOB.PNG"
    said = run("draw", DUAL_FUEL, "--out", out, "--dpi", 60, "--capitals", 1)
    assert (said.code, said.out) == (0, "")
    assert out.read_bytes()[:4] == b"\x89PNG"


def test_svg_is_on_paper_where_one_is_named(run: Run, tmp_path: Path) -> None:
    said = run("draw", DUAL_FUEL, "--paper", "letter", "--out", tmp_path / "job.svg")
    first = Path(said.out.splitlines()[0]).read_text()
    assert re.search(r'width="(279.4|215.9)mm"', first)
    assert f"sheet 1 of {len(said.out.splitlines())}" in first


def test_all_views_go_into_one_packet(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "job.pdf"
    assert run("draw", DUAL_FUEL, "--view", "all", "--at", "0:tc=heat-1", "--out", out).code == 0
    words = words_of(out)
    counted = {int(number) for number in re.findall(r"sheet \d+ of (\d+)", words)}
    assert len(counted) == 1
    assert "Connection diagram" in words
    without = tmp_path / "without.pdf"
    assert run("draw", DUAL_FUEL, "--view", "all", "--out", without).code == 0
    assert any(view.needs_run for view in VIEWS.values())
    assert "Timing chart" in words
    assert "Timing chart" not in words_of(without)


def test_a_situation_is_named_on_paper(run: Run, sound: Path, tmp_path: Path) -> None:
    run("draw", sound, "--call", "tc=cool-1", "--out", tmp_path / "job.pdf")
    assert "Shown: cool 1" in words_of(tmp_path / "job.pdf")


@pytest.mark.parametrize(
    ("options", "where"),
    [
        (["--out", "job.svg", "--turned", "upright"], "--turned"),
        (["--out", "job.svg", "--capitals", "2"], "--capitals"),
        (["--out", "job.pdf", "--dpi", "150"], "--dpi"),
        (["--out", "job.png", "--dpi", "5000"], "--dpi"),
        (["--out", "job.pdf", "--capitals", "0.1"], "--capitals"),
        (["--out", "job.pdf", "--capitals", "nan"], "--capitals"),
        (["--out", "-", "--paper", "a4"], "-"),
        (["--out", "job.svg", "--view", "connection", "--view", "wires"], "job.svg"),
        (["--out", "job.pdf", "--view", "wires", "--at", "0:tc=heat-1"], "--at"),
    ],
    ids=["turned", "capitals", "dpi", "too-fine", "too-small", "no-height", "stdout", "two-views", "no-sequence"],
)
def test_what_would_do_nothing_is_refused(
    run: Run, sound: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, options: list[str], where: str
) -> None:
    monkeypatch.chdir(tmp_path)
    before = sorted(tmp_path.iterdir())
    said = run("draw", sound, *options)
    assert (said.code, said.out) == (2, "")
    assert said.err.startswith(f"{where}: ")
    assert "would be right" in said.err
    assert sorted(tmp_path.iterdir()) == before


def test_the_files_of_many_sheets_lie_in_the_order_of_the_sheets(run: Run, tmp_path: Path) -> None:
    said = run("draw", DUAL_FUEL, "--view", "all", "--paper", "letter", "--out", tmp_path / "job.svg")
    written = said.out.splitlines()
    assert len(written) > 9
    assert written == [str(path) for path in sorted(tmp_path.glob("*.svg"))]
    assert "sheet 10 of" in Path(written[9]).read_text(encoding="utf-8")
