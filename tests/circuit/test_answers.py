"""Operating points and readings as JSON, and the deck as text."""

from __future__ import annotations

import json
import math

import pytest

from app.circuit.answers import reading_document, solution_document
from app.circuit.meter import read
from app.circuit.netlist import netlist
from app.circuit.network import build_circuit
from app.circuit.reading import Reading
from app.circuit.situation import Situation
from app.job.refusal import Refused
from tests.backwards import backwards
from tests.circuit.bench import CATALOGUE, asking, demo_layouts, sketch, solved

LAYOUT = sketch({"xf": "supply", "tc": "control", "ou": "contactor"}, "xf.R tc.R", "tc.Y ou.A", "ou.B xf.C", "tc.W ?")


def test_solution_has_the_agreed_shape() -> None:
    document = solution_document(solved(LAYOUT, asking(tc="cool-1")))
    assert document["settled"] is True
    assert document["unsettled"] is None
    assert set(document["terminals"]["ou.A"]) == {"volts", "angle_deg", "reference"}
    assert document["terminals"]["xf.C"] == {"volts": 0.0, "angle_deg": 0.0, "reference": "xf.C"}
    assert document["terminals"]["tc.W"]["unknown"] is True
    assert document["elements"]["ou.coil"]["state"] == "pulled-in"
    assert document["sources"]["xf.secondary"]["va"] == pytest.approx(
        document["terminals"]["xf.R"]["volts"] * document["sources"]["xf.secondary"]["amps"]
    )
    assert document["conductors"]["w2"]["toward"] == 1
    assert document["effects"] == [{"part": "ou", "effect": "compressor"}]


def test_what_floats_says_only_that() -> None:
    document = solution_document(solved(sketch({"xf": "supply", "la": "lamp"})))
    assert document["terminals"]["la.A"] == {"floating": True}


def test_unknown_figures_are_null() -> None:
    layout = sketch(
        {"xf": "supply", "la": "lamp", "lb": "lamp"}, "xf.R la.A", "xf.C la.B", "xf.R ?", "lb.A ?", "lb.B xf.C"
    )
    document = solution_document(solved(layout))
    assert document["elements"]["lb.load"] == {"volts": None, "amps": None, "state": "unknown"}
    assert document["elements"]["la.load"]["volts"] == pytest.approx(25.76, abs=0.01)
    assert document["sources"]["xf.secondary"] == {"va": None, "amps": None}
    assert document["conductors"]["w1"] == {"amps": None, "toward": None}


def test_chatter_is_said() -> None:
    document = solution_document(solved(sketch({"xf": "supply", "k": "relay"}, "xf.R k.COM", "k.NC k.A", "k.B xf.C")))
    assert document["unsettled"] == {"why": "chatter", "elements": ["k.coil"], "period": 2, "outcomes": {}}


def test_the_same_question_gives_the_same_bytes() -> None:
    for layout, catalogue in demo_layouts().values():
        if len(layout.parts) < 20:
            turned = layout.model_copy(
                update={
                    "parts": backwards(layout.parts),
                    "conductors": backwards(layout.conductors),
                }
            )
            texts = [
                json.dumps(solution_document(solved(each, None, catalogue)), sort_keys=True)
                for each in (layout, turned)
            ]
            assert texts[0] == texts[1]
            decks = [netlist(build_circuit(each, catalogue), Situation()) for each in (layout, turned)]
            assert decks[0] == decks[1]


def test_floats_are_not_rounded_and_finite() -> None:
    text = json.dumps(solution_document(solved(LAYOUT, asking(tc="cool-1"))), allow_nan=False)
    volts = json.loads(text)["terminals"]["ou.A"]["volts"]
    assert volts != round(volts, 6)
    assert math.isfinite(volts)


def test_readings() -> None:
    point = solved(LAYOUT)
    assert reading_document(read(point, "xf.R", "xf.C")) == {"volts": pytest.approx(26.4)}
    assert reading_document(read(point, "ou.A", "xf.R")) == {"volts": pytest.approx(26.4)}
    assert reading_document(read(solved(sketch({"xf": "supply", "la": "lamp"})), "xf.R", "la.A")) == {"floating": True}
    assert reading_document(read(point, "tc.W", "xf.R"))["unknown"] is True
    with pytest.raises(Refused, match="no terminal"):
        read(point, "xf.R", "xf.Q")


def test_a_resistance_that_is_known_roughly_is_given_from_and_to() -> None:
    roughly = Reading(unknown=True, why="the copper of a coil", between_ohms=(9.0, 23.0))
    assert reading_document(roughly) == {"unknown": True, "between_ohms": [9.0, 23.0], "why": "the copper of a coil"}


def test_deck_comments_what_floats_or_is_unknown() -> None:
    deck = netlist(build_circuit(LAYOUT, CATALOGUE, frequency_hz=50), Situation())
    lines = deck.splitlines()
    assert "* unknown: tc.W" in lines
    assert any(line.startswith("* map ") and line.endswith(" ou.A tc.Y") for line in lines)
    assert ".ac lin 1 50 50" in lines
    floating = netlist(build_circuit(sketch({"xf": "supply", "la": "lamp"}, "la.A -"), CATALOGUE), Situation())
    assert "* floating: la.A" in floating.splitlines()
    assert "\n* la.load: floating or unknown\n" in floating


def test_deck_of_a_circuit_that_does_not_settle_says_so() -> None:
    layout = sketch({"xf": "supply", "k": "relay"}, "xf.R k.COM", "k.NC k.A", "k.B xf.C")
    assert "does not settle (chatter)" in netlist(build_circuit(layout, CATALOGUE), Situation())
