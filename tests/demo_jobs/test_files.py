"""The demo jobs as files: they open, they read well, they show every kind."""

from __future__ import annotations

import json

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.job.reading import document_of
from tests.demo_jobs.demos import BUILT_IN, NAMES, SCHOOL_ROW, SOUND, demo, layouts, text_of
from tests.demo_jobs.school_row import school_row
from tests.demo_jobs.writing import job_text

INSULATION = {"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR", "GNYE"}
"""Codes of IEC 60757."""


def test_there_are_sound_and_faulty_ones() -> None:
    assert len(SOUND) >= 9
    assert set(BUILT_IN) <= set(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_it_opens_and_says_again_what_it_said(name: str) -> None:
    assert document_of(demo(name).job) == json.loads(text_of(name))


@pytest.mark.parametrize("name", NAMES)
def test_it_stands_in_its_file_one_thing_a_line(name: str) -> None:
    assert job_text(json.loads(text_of(name))).encode() == text_of(name)


def test_the_school_row_is_what_its_generator_makes() -> None:
    assert job_text(school_row()).encode() == text_of(SCHOOL_ROW)
    assert len(demo(SCHOOL_ROW).job.layouts["as-left"].parts) == 100


def test_every_kind_is_used_somewhere() -> None:
    used = {part.kind for name, layout in layouts() for part in demo(name).job.layouts[layout].parts.values()}
    assert set(builtin_catalogue()) - used == set()


@pytest.mark.parametrize(("name", "layout"), layouts())
def test_every_conductor_has_an_insulation_code_and_every_spare_a_note(name: str, layout: str) -> None:
    for conductor in demo(name).job.layouts[layout].conductors.values():
        assert conductor.insulation in INSULATION
        assert conductor.landed() or "spare" in conductor.note


@pytest.mark.parametrize(("name", "layout"), layouts())
def test_every_part_stands_on_the_grid_with_a_label_and_a_place(name: str, layout: str) -> None:
    parts = demo(name).job.layouts[layout].parts.values()
    for part in parts:
        assert part.label
        assert part.place != "main"
        assert part.at is not None
        assert part.at[0] % 12 == part.at[1] % 12 == 0
    assert len({part.at for part in parts}) == len(parts)


@pytest.mark.parametrize("name", NAMES)
def test_it_tells_a_story_of_the_town(name: str) -> None:
    assert "Quillmere" in demo(name).job.notes
