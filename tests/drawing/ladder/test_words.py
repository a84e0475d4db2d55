"""What is written of a ladder names screws that a person can put a finger on."""

from __future__ import annotations

import re

import pytest

from app.drawing.ladder.plan import plan_ladder
from app.drawing.surface.recorder import Record
from tests.demo_jobs.demos import demo, layouts
from tests.drawing.ladder.seen import SeenLadder

POINT = re.compile(r"\b[a-z]+\.[\w/]+")


@pytest.mark.parametrize(("name", "layout"), [pytest.param(*pair, id="-".join(pair)) for pair in layouts()])
def test_what_stands_above_the_rails_names_screws_only(name: str, layout: str) -> None:
    drawn, catalogue = demo(name).job.layouts[layout], demo(name).catalogue
    screws = {f"{part}.{letter}" for part in drawn.parts for letter in catalogue.terminals_of(drawn, part)}
    told = [words for section in plan_ladder(drawn, catalogue).sections for words in section.head]
    assert told
    assert {point for words in told for point in POINT.findall(words)} <= screws


def test_a_rail_inside_a_part_says_in_which_one_it_is() -> None:
    drawn = SeenLadder(
        demo("customs-house-three-valves").job.layouts["as-left"], demo("customs-house-three-valves").catalogue
    )
    told = _words(drawn.texts)
    assert "Common rail: inside bo" in told
    assert any(words.startswith("Hot rail: inside bo to bo.T1, w6 za.E1 to bo.T1") for words in told)


def test_what_stands_on_no_rung_is_told_by_its_empty_screw() -> None:
    opened = demo("lifeboat-house-fresh-and-dry")
    told = " ".join(_words(SeenLadder(opened.job.layouts["as-left"], opened.catalogue).texts))
    assert "contact R to E of Thermostat (tc.E), contact R to G of Fresh-air control (vc.G)" in told


@pytest.mark.parametrize(
    ("name", "state", "words"),
    [
        ("chapel-two-supplies", "open", "Joins hot of 2-T with hot of 1-T where the jumper is fitted."),
        ("counting-house-joined-supplies", "closed", "Joins hot of 2-T with hot of 1-T."),
    ],
)
def test_a_jumper_is_drawn_and_told_as_it_is(name: str, state: str, words: str) -> None:
    drawn = SeenLadder(demo(name).job.layouts["as-left"], demo(name).catalogue)
    symbols = [record.attributes for record in drawn.recorder.drawn("begin") if "data-symbol" in record.attributes]
    assert [found.get("data-state") for found in symbols if found["data-symbol"] == "jumper"] == [state]
    assert words in " ".join(_words(drawn.texts))


def test_a_load_that_does_not_stand_beside_common_is_named_with_its_letters() -> None:
    opened = demo("print-shop-heat-for-water")
    drawn = SeenLadder(opened.job.layouts["as-left"], opened.catalogue)
    told = " ".join(_words(drawn.texts))
    assert "2-SOL: Solenoid, Humidifier" in told
    # Whatever stands beside common has its letters right above its name.
    assert "CON: " not in told


def test_a_load_that_is_called_as_its_part_is_named_once() -> None:
    opened = demo("customs-house-three-valves")
    told = _words(SeenLadder(opened.job.layouts["as-left"], opened.catalogue).texts)
    assert "Pump relay" in told
    assert not any("Pump relay, Pump relay" in words for words in told)


def test_what_is_listed_beside_the_rungs_stands_in_the_order_of_its_numbers() -> None:
    opened = demo("school-row-hundred-parts")
    plan = plan_ladder(opened.job.layouts["as-left"], opened.catalogue)
    told = " ".join([*plan.last_notes, *(words for section in plan.sections for words in section.head)])
    assert "Conductors on no rung: w7, w23, w39, w55, w71." in told
    screws = re.findall(r"humidifier contact of [^(]*\((fb\d+)\.HUM\)", told)
    assert screws == ["fb1", "fb2", "fb3", "fb4", "fb5", "fb13", "fb14"]
    rails = re.findall(r"(?:Hot|Common) rail: [^:]*", told)
    wires = [[int(number) for number in re.findall(r"\bw(\d+) \w+\.", rail)] for rail in rails]
    assert max(map(len, wires)) > 2
    assert [numbers for numbers in wires if numbers != sorted(numbers)] == []


def _words(texts: list[Record]) -> list[str]:
    return [record.text.words for record in texts if record.text is not None]
