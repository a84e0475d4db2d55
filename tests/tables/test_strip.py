"""A strip in one line: what it lands, what it leaves alone, and how each wrong item is told."""

from __future__ import annotations

from typing import Any

import pytest

from app.catalogue.structure import catalogue_for
from app.job.model import Cable, Layout
from app.job.reading import document_of, job_from_document
from app.job.refusal import Refused
from app.job.sketch import sketch, sketch_job
from app.tables.cable_sides import cable_sides, conductors_of
from app.tables.strip import StripChange, strip_at
from tests.job.four_checks import check_change

PARTS = {"fb": "furnace-board", "tc": "thermostat-heat-cool", "xf": "control-transformer"}
CODES = ("RD", "WH", "GN", "YE", "BU")


def cabled(*wires: str, codes: tuple[str | None, ...] = CODES) -> Layout:
    layout = sketch(PARTS, *wires)
    coloured = {
        name: conductor.model_copy(update={"cable": "cb1", "insulation": code})
        for (name, conductor), code in zip(layout.conductors.items(), codes, strict=True)
    }
    return layout.model_copy(update={"cables": {"cb1": Cable()}, "conductors": coloured})


BARE = cabled("- -", "- -", "- -", "- -", "- -")


def typed(layout: Layout, text: str, part: str = "tc", side: int = 1) -> StripChange:
    catalogue = catalogue_for(sketch_job(layout))
    return strip_at(layout, catalogue, "cb1", side, part).change("as-left", text)


def ends_after(layout: Layout, text: str, part: str = "tc", side: int = 1) -> dict[str, tuple[Any, Any]]:
    found = typed(layout, text, part, side)
    assert found.wrong == ()
    after = job_from_document(check_change(document_of(sketch_job(layout)), found.operations).document)
    return {name: conductor.ends for name, conductor in after.layouts["as-left"].conductors.items()}


def test_a_strip_lands_what_it_names_and_leaves_the_rest() -> None:
    ends = ends_after(BARE, "R=RD  w = wh, Y=yellow;G=w3")
    assert ends["w1"] == (None, "tc.R")
    assert ends["w2"] == (None, "tc.W")
    assert ends["w3"] == (None, "tc.G")
    assert ends["w4"] == (None, "tc.Y")
    assert ends["w5"] == (None, None)


def test_either_side_can_be_typed_and_what_stands_so_already_is_no_change() -> None:
    assert ends_after(BARE, "R=RD C=BU", part="fb", side=0)["w5"] == ("fb.C", None)
    landed = cabled("fb.R tc.R", "- -", "- -", "- -", "- -")
    assert typed(landed, "R=RD").operations == ()
    assert [one["path"] for one in typed(landed, "R=RD W=WH").operations] == ["/layouts/as-left/conductors/w2/ends/1"]


def test_landed_nowhere_and_not_looked_at_are_said_too() -> None:
    landed = cabled("fb.R tc.R", "fb.W tc.W", "- -", "- ?", "- -")
    ends = ends_after(landed, "-=RD ?=WH ?=YE")
    assert ends["w1"] == ("fb.R", None)
    assert ends["w2"][1].unknown == "not looked at yet"
    assert ends["w4"] == landed.conductors["w4"].ends, "what is told of an end that was not seen stays"


def test_the_ends_of_a_cable_are_found_whichever_way_they_are_listed() -> None:
    layout = cabled("fb.R tc.R", "tc.W fb.W", "xf.R -", "- tc.G", "tc.Y -")
    sides = cable_sides(conductors_of(layout, "cb1"))
    assert {name: sides.end_at(name, 1) for name in sides.first_end} == {"w1": 1, "w2": 0, "w3": 1, "w4": 1, "w5": 0}
    assert set(sides.parts[0]) == {"fb", "xf"}
    assert set(sides.parts[1]) == {"tc"}
    assert ends_after(layout, "G=WH")["w2"] == ("tc.G", "fb.W")


@pytest.mark.parametrize(
    ("text", "wrong", "right"),
    [
        ("Q=RD", "There is no screw “Q” on tc.", "one of "),
        ("Gg=RD", "There is no screw “Gg” on tc.", "G, if that was meant"),
        ("R=VT", "No conductor of this cable is “VT”.", "one of RD, WH, GN, YE, BU"),
        ("RD=R", "“RD=R” has the conductor before the screw.", "R=RD"),
        ("R", "“R” is no item of a strip.", "a screw, an equals sign and an insulation code, such as R=RD"),
        ("R=RD W=RD", "RD is said twice.", "each conductor once"),
        ("", "Nothing is said.", "a screw, an equals sign and an insulation code, such as R=RD"),
    ],
)
def test_a_wrong_item_is_told_with_what_would_be_right(text: str, wrong: str, right: str) -> None:
    found = typed(BARE, text)
    assert found.operations == ()
    assert [one.wrong for one in found.wrong] == [wrong]
    assert found.wrong[0].would_be_right.startswith(right)


def test_every_wrong_item_is_told_and_nothing_is_applied() -> None:
    found = typed(BARE, "R=RD Q=WH Y=VT G=GN")
    assert found.operations == ()
    assert [(one.number, one.item) for one in found.wrong] == [(2, "Q=WH"), (3, "Y=VT")]


def test_two_conductors_of_one_colour_are_told_apart_by_name() -> None:
    layout = cabled("- -", "- -", "- -", "- -", "- -", codes=("RD", "WH", "WH", "YE", None))
    (wrong,) = typed(layout, "W=WH").wrong
    assert wrong.wrong == "2 conductors of this cable are WH."
    assert wrong.would_be_right == "one of them by name: w2, w3"
    ends = ends_after(layout, "W=w3 G=w5")
    assert ends["w3"] == (None, "tc.W")
    assert ends["w5"] == (None, "tc.G")


def test_a_conductor_never_comes_to_both_ends_on_one_screw() -> None:
    # Side 0 of w1 is at the furnace board; at the thermostat only its other end can be meant.
    layout = cabled("fb.R -", "- -", "- -", "- -", "- -")
    assert ends_after(layout, "R=RD", part="tc")["w1"] == ("fb.R", "tc.R")
    twice = cabled("tc.R tc.W", "- -", "- -", "- -", "- -")
    (wrong,) = typed(twice, "R=RD").wrong
    assert wrong.wrong == "The other end of RD is on R already."


def test_what_is_not_there_is_refused() -> None:
    catalogue = catalogue_for(sketch_job(BARE))
    with pytest.raises(Refused, match="There is no cable “cb9”"):
        strip_at(BARE, catalogue, "cb9", 0, "tc")
    with pytest.raises(Refused, match="There is no part “zz”"):
        strip_at(BARE, catalogue, "cb1", 0, "zz")
