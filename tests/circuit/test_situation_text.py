"""Situations said in options, and what is refused."""

from __future__ import annotations

from typing import Any

import pytest

from app.circuit.situation import Fault, Situation
from app.circuit.situation_text import check_situation, parse_situation
from app.job.refusal import Refused
from tests.circuit.bench import CATALOGUE, sketch

LAYOUT = sketch(
    {"xf": "supply", "tc": "control", "fb": "board", "j": "jumper-strip", "box": "unknown"}, "xf.R tc.R", "tc.W fb.W"
)


def test_nothing_said_is_idle() -> None:
    assert parse_situation() == Situation()


def test_everything_said() -> None:
    said = parse_situation(
        ["tc=cool-1", "tc=heat-1", "tc=cool-1"],
        ["fb.limit=open", "xf.va=75", "xf.regulation=0.05", "tc.quiet=true"],
        "88",
        -7.5,
        [
            "conductor-open:w1",
            "short:tc.W,xf.R:2.5",
            "short:conductor:w1,terminal:fb.C",
            "coil-open:k.coil",
            "joint-ohms:conductor:w2:5",
        ],
        ["main=on", "outdoor=off"],
    )
    assert said.calls == {"tc": ("cool-1", "heat-1")}
    assert said.set == {"fb.limit": "open", "xf.va": 75, "xf.regulation": 0.05, "tc.quiet": True}
    assert (said.supply_percent, said.outdoor_c) == (88.0, -7.5)
    assert said.mains == {"main": "on", "outdoor": "off"}
    assert said.faults == tuple(
        Fault.model_validate({"is": name, "at": at, "ohms": ohms})
        for name, at, ohms in (
            ("conductor-open", "conductor:w1", None),
            ("short", ("terminal:tc.W", "terminal:xf.R"), 2.5),
            ("short", ("conductor:w1", "terminal:fb.C"), None),
            ("coil-open", "element:k.coil", None),
            ("joint-ohms", "conductor:w2", 5.0),
        )
    )


NONSENSE: dict[str, dict[str, Any]] = {
    "a call without a part": {"calls": ["cool-1"]},
    "a call that is none": {"calls": ["tc=freeze"]},
    "a setting without a value": {"sets": ["fb.limit="]},
    "a setting without a part": {"sets": ["limit=open"]},
    "a supply that is no number": {"supply": "high"},
    "a supply out of bounds": {"supply": 500},
    "a supply that is not finite": {"supply": "nan"},
    "an outdoor temperature out of bounds": {"outdoor": "-300"},
    "a disconnect that is neither on nor off": {"mains": ["main=half"]},
    "a fault that is none": {"faults": ["melted:w1"]},
    "a fault at no place": {"faults": ["short"]},
    "a fault at three places": {"faults": ["short:a.A,b.B,c.C"]},
    "a fault with an empty place": {"faults": ["short:a.A,"]},
    "a fault with less than no ohms": {"faults": ["short:a.A,b.B:-1"]},
}


@pytest.mark.parametrize("what", NONSENSE)
def test_nonsense_is_refused(what: str) -> None:
    with pytest.raises(Refused) as refused:
        parse_situation(**NONSENSE[what])
    assert refused.value.code == "bad-situation"
    assert refused.value.would_be_right


FITTING: dict[str, Situation] = {
    "idle": Situation(),
    "a call": Situation(calls={"tc": ("cool-1",)}),
    "a switch": Situation(set={"fb.limit": "open"}),
    "a jumper": Situation(set={"j.bar": "fitted"}),
    "a number": Situation(set={"xf.va": 75}),
}
NOT_FITTING: dict[str, Situation] = {
    "a part that is not there": Situation(calls={"nobody": ("fan",)}),
    "a call that the kind lacks": Situation(calls={"tc": ("fan",)}),
    "a call of a part without calls": Situation(calls={"xf": ("fan",)}),
    "a call that the set-up lacks": Situation(calls={"tc": ("cool-1",)}, set={"tc.mode": "off"}),
    "a setting that is not there": Situation(set={"fb.colour": "red"}),
    "a position that is not there": Situation(set={"fb.limit": "ajar"}),
    "a jumper position that is not there": Situation(set={"j.bar": "open"}),
    "a number out of bounds": Situation(set={"xf.va": 7500}),
    "a truth for a number": Situation(set={"xf.va": True}),
    "a supply that is not there": Situation(mains={"garage": "off"}),
    "a part of unknown kind": Situation(set={"box.limit": "open"}),
}


@pytest.mark.parametrize("what", FITTING)
def test_what_fits_is_accepted(what: str) -> None:
    check_situation(FITTING[what], LAYOUT, CATALOGUE)


@pytest.mark.parametrize("what", NOT_FITTING)
def test_what_does_not_fit_is_refused(what: str) -> None:
    with pytest.raises(Refused) as refused:
        check_situation(NOT_FITTING[what], LAYOUT, CATALOGUE)
    assert refused.value.code == "bad-situation"
    assert refused.value.would_be_right


def test_a_fault_that_names_nothing_is_refused() -> None:
    with pytest.raises(Refused) as refused:
        check_situation(parse_situation(faults=["conductor-open:w77"]), LAYOUT, CATALOGUE)
    assert refused.value.code == "bad-fault"
