"""What is in series and in parallel is laid out so, and what is neither is said to be a bridge."""

from __future__ import annotations

from app.catalogue.builtin import builtin_catalogue
from app.drawing.ladder.graph import Piece
from app.drawing.ladder.ladder import ladder_of
from app.drawing.ladder.series import bridges
from app.job.sketch import sketch
from tests.demo_jobs.demos import demo
from tests.drawing.ladder.seen import SeenLadder

CATALOGUE = builtin_catalogue()
RAILS = {"R": "hot", "C": "common"}


def pieces(*said: str) -> list[Piece]:
    """Return pieces from words such as ``x contact R a``."""
    return [Piece(*each.split()) for each in said]  # type: ignore[arg-type]


def test_series_and_parallel_leave_no_bridge() -> None:
    nested = pieces(
        "s1 contact R a", "s2 contact a b", "s3 contact R b", "k1 coil b C", "k2 coil b C",
        "s4 contact b d", "k3 coil d C",
    )  # fmt: skip
    assert bridges(nested, RAILS) == ()


def test_a_contact_between_two_fed_loads_is_a_bridge() -> None:
    tied = pieces("s1 contact R a", "k1 coil a C", "s2 contact R b", "k2 coil b C", "x contact a b")
    assert [piece.name for piece in bridges(tied, RAILS)] == ["x"]


def test_the_same_contact_is_none_where_the_second_load_has_no_feed_of_its_own() -> None:
    fed = pieces("s1 contact R a", "k1 coil a C", "k2 coil b C", "x contact a b")
    assert bridges(fed, RAILS) == ()


def test_a_wire_is_no_bridge_however_many_screws_it_passes() -> None:
    tied = pieces(
        "s1 contact R a", "k1 coil a C", "s2 contact R b", "k2 coil b C", "w1 conductor a m", "w2 conductor m b"
    )
    assert bridges(tied, RAILS) == ()


def test_a_bridge_is_drawn_and_said() -> None:
    opened = demo("tannery-cold-in-winter")
    layout = opened.job.layouts["as-left"]
    found = [piece.name for section in ladder_of(layout, opened.catalogue).sections for piece in section.bridges]
    assert found == ["ou.valve_call_c"]
    seen = SeenLadder(layout, opened.catalogue)
    assert "ou.valve_call_c" in {element for element, _, _ in seen.symbols}
    assert any("is a bridge" in record.text.words for record in seen.texts if record.text)


def test_contacts_in_parallel_stand_below_one_another_between_the_same_places() -> None:
    """Two thermostats that call one furnace: the second contact is tied to where the first one leads."""
    layout = sketch(
        {"xf": "control-transformer", "a": "thermostat-heat-only", "b": "thermostat-heat-only", "fr": "fan-relay"},
        "xf.R a.R", "xf.R b.R", "a.W fr.G", "b.W fr.G", "fr.C xf.C",
    )  # fmt: skip
    rungs = {rung.number: rung for rung in ladder_of(layout, CATALOGUE).rungs()}
    _, first, second = rungs.values()
    assert [piece.sort for piece in first.pieces] == ["contact", "conductor", "coil"]
    assert [piece.sort for piece in second.pieces] == ["contact", "conductor"]
    assert (second.end.ending, second.end.rung, second.end.place, second.end.by_name) == ("tie", first.number, 2, False)


def test_a_short_is_a_rung_of_its_own_and_said_to_be_one() -> None:
    opened = demo("signal-house-fifth-wire")
    layout = opened.job.layouts["as-left"]
    ladder = ladder_of(layout, opened.catalogue)
    rung = next(rung for rung in ladder.rungs() if rung.number == ladder.rung_of["w7"])
    assert [piece.name for piece in rung.pieces] == ["w7"]
    assert (ladder.rails[rung.start.rail].side, ladder.rails[rung.end.rail].side) == ("hot", "common")
    words = [record.text.words for record in SeenLadder(layout, opened.catalogue).texts if record.text]
    assert any(each.startswith("A short:") for each in words)


def test_supplies_that_a_jumper_joins_are_two_ladders_with_that_jumper_between_them() -> None:
    opened = demo("counting-house-joined-supplies")
    ladder = ladder_of(opened.job.layouts["as-left"], opened.catalogue)
    assert len([section for section in ladder.sections if section.hot]) == 2
    rung = next(rung for rung in ladder.rungs() if rung.number == ladder.rung_of["tc.supply_jumper"])
    assert {ladder.rails[end.rail].side for end in (rung.start, rung.end)} == {"hot"}
    assert rung.start.rail != rung.end.rail
    assert rung.end.by_name


def test_a_load_that_nothing_feeds_keeps_its_lead_on_its_rung() -> None:
    layout = demo("lifeboat-house-fresh-and-dry").job.layouts["as-left"]
    ladder = ladder_of(layout, CATALOGUE)
    rung = next(rung for rung in ladder.rungs() if rung.number == ladder.rung_of["ou.stage_solenoid"])
    assert [piece.name for piece in rung.pieces] == ["ou.second_stage_c", "ou.stage_solenoid"]
    assert rung.start.ending == "open"
