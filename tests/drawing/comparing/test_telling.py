"""Where an end went stands at the screw that it left; a jumper is told by the two screws that it joins."""

from __future__ import annotations

import pytest

from app.drawing.comparing.telling import sentence
from app.drawing.connection.landings import EndName, Landing
from app.drawing.surface.recorder import Record
from app.job.sketch import sketch
from tests.drawing.comparing.seen import SeenChanges
from tests.drawing.generated import CATALOGUE

LONG = "boiler-behind-the-second-stair"
PARTS = {"fb": "furnace-board", "tc": "thermostat-heat-cool-split", LONG: "furnace-board"}


def at_old_screw(now: str) -> tuple[SeenChanges, list[Record]]:
    """Return what is drawn of the old screw of a wire that was moved from ``fb.W`` to ``now``."""
    seen = SeenChanges(sketch(PARTS, "fb.W tc.W"), sketch(PARTS, f"{now} tc.W"), CATALOGUE)
    return seen, [record for record in seen.on_sheet() if record.within("data-conductor") == "w1.was.0"]


@pytest.mark.parametrize(("now", "words"), [("fb.G", "w1 now fb.G"), ("-", "w1 now not landed")])
def test_where_an_end_went_stands_in_the_landing_that_it_left(now: str, words: str) -> None:
    seen, drawn = at_old_screw(now)
    (told,) = [record for record in drawn if record.text is not None]
    assert told.text is not None
    assert told.text.words == words
    assert _within(told, seen.plan.landings[EndName("w1.was.0", 0)])
    # Nothing is loose there: the end is elsewhere.
    assert not [record for record in drawn if record.verb == "circle"]


@pytest.mark.parametrize(("now", "words"), [(f"{LONG}.W", f"now {LONG}.W"), ("?", "now not seen: not seen")])
def test_what_is_too_long_for_the_landing_stands_beyond_it(now: str, words: str) -> None:
    seen, drawn = at_old_screw(now)
    name, told = (record for record in drawn if record.text is not None)
    landing = seen.plan.landings[EndName("w1.was.0", 0)]
    assert name.text is not None
    assert told.text is not None
    assert name.text.words == "w1"
    assert told.text.words == words
    assert _within(name, landing)
    assert not _within(told, landing)


def test_a_jumper_is_told_by_its_screws_and_a_setting_by_its_name() -> None:
    before, after = (
        sketch({"tc": {"kind": PARTS["tc"], "settings": {"rh_rc": state}}, "fb": {"kind": "furnace-board", **fuse}})
        for state, fuse in (("fitted", {}), ("removed", {"settings": {"fuse_amps": 5}}))
    )
    board, thermostat = (sentence(told) for told in SeenChanges(before, after, CATALOGUE).both.told[0])
    assert "Fuse amps: was 3 A; now 5 A." in board
    assert "Jumper RH to RC: was fitted; now removed." in thermostat


def _within(record: Record, landing: Landing) -> bool:
    box = record.bounds()
    assert box is not None
    near, far = sorted((landing.edge.x, landing.port.x))
    return near <= box.x <= box.right <= far
