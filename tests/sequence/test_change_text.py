"""Changes said in a line: what each says, and what is refused with what would be right."""

from __future__ import annotations

import pytest

from app.circuit.situation import Situation
from app.circuit.supplies import supplies_of
from app.job.refusal import Refused
from app.sequence.change_text import read_changes
from tests.sequence.playing import DEMOS

LAYOUT, CATALOGUE = DEMOS["post-office-dual-fuel:as-left"]


def after(*lines: str) -> Situation:
    """Return the situation after some changes."""
    situation = Situation()
    for change in read_changes(lines, LAYOUT, CATALOGUE, situation):
        situation = change.made_to(situation)
    return situation


SAID = {
    "a call": (["0:tc=cool-1"], {"calls": {"tc": ("cool-1",)}}),
    "two calls at once": (["0:tc=cool-1+fan"], {"calls": {"tc": ("cool-1", "fan")}}),
    "a call in place of another": (["0:tc=cool-1", "5:tc=fan"], {"calls": {"tc": ("fan",)}}),
    "no call any more": (["0:tc=cool-1", "5:tc=idle"], {}),
    "no call, said shortly": (["0:tc=cool-1", "5:tc="], {}),
    "a switch": (["0:fb.limit=open"], {"set": {"fb.limit": "open"}}),
    "a setting": (["0:fb.blower_off_s=120"], {"set": {"fb.blower_off_s": 120}}),
    "a disconnect": (["0:furnace=off"], {"mains": {"furnace": "off"}}),
    "the weather": (["0:outdoor=-8"], {"outdoor_c": -8.0}),
    "the supply": (["0:supply=88"], {"supply_percent": 88.0}),
    "in the order of time": (["9:outdoor=1", "3:outdoor=2"], {"outdoor_c": 1.0}),
    "in the order given where time is the same": (["3:outdoor=2", "3:outdoor=1"], {"outdoor_c": 1.0}),
}


@pytest.mark.parametrize(("lines", "expected"), SAID.values(), ids=SAID.keys())
def test_a_line_says(lines: list[str], expected: dict[str, object]) -> None:
    assert after(*lines) == Situation.model_validate(expected)


def test_all_disconnects_at_once() -> None:
    supplies = supplies_of(LAYOUT, CATALOGUE)
    assert supplies
    assert after("0:mains=off").mains == dict.fromkeys(supplies, "off")


def test_a_fault_comes_on_top_of_those_that_are_there() -> None:
    first, second = sorted(LAYOUT.conductors)[:2]
    faults = after(f"0:fault=conductor-open:{first}", f"5:fault=joint-ohms:{second}:5", "9:tc=fan").faults
    assert [(fault.is_, fault.at, fault.ohms) for fault in faults] == [
        ("conductor-open", f"conductor:{first}", None),
        ("joint-ohms", f"conductor:{second}", 5.0),
    ]


def test_words_are_those_of_the_line() -> None:
    [change] = read_changes(["2.5:tc=cool-1"], LAYOUT, CATALOGUE, Situation())
    assert (change.at_s, change.words) == (2.5, "tc=cool-1")


REFUSED = {
    "no time": ("tc=cool-1", "bad-change"),
    "a time before the beginning": ("-1:tc=cool-1", "bad-change"),
    "a time that is none": ("soon:tc=cool-1", "bad-change"),
    "a time without end": ("inf:tc=cool-1", "bad-change"),
    "nothing said": ("5:", "bad-change"),
    "no value": ("5:tc", "bad-change"),
    "a supply that is not there": ("5:attic=off", "bad-change"),
    "a part that is not there": ("5:attic=cool-1", "bad-situation"),
    "a part that is not there, idle": ("5:attic=idle", "bad-situation"),
    "a call that is none": ("5:tc=defrost", "bad-situation"),
    "a call of other controls": ("5:tc=open", "bad-situation"),
    "a switch that is not there": ("5:fb.hatch=open", "bad-situation"),
    "a position that it does not have": ("5:fb.limit=ajar", "bad-situation"),
    "an outdoor temperature beyond all": ("5:outdoor=900", "bad-situation"),
    "a fault of no sort": ("5:fault=rust:w1", "bad-situation"),
    "a fault on nothing": ("5:fault=conductor-open:w999", "bad-fault"),
}


@pytest.mark.parametrize(("line", "code"), REFUSED.values(), ids=REFUSED.keys())
def test_what_does_not_fit_is_refused(line: str, code: str) -> None:
    with pytest.raises(Refused) as caught:
        after(line)
    assert caught.value.code == code
    assert caught.value.would_be_right


def test_a_call_is_judged_by_the_set_up_of_its_time() -> None:
    with pytest.raises(Refused) as caught:
        after("5:tc.mode=off", "9:tc=cool-1")
    assert "tc is not set up for call cool-1" in caught.value.message
    assert after("5:tc=cool-1", "9:tc.mode=off").calls == {"tc": ("cool-1",)}
