"""Paths as they are followed over a drawing: from screw to screw, and no farther than hot comes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import pytest

from app.circuit.network import build_circuit
from app.circuit.situation_text import parse_situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.explain.following import Followed, follow
from app.job.model import Layout
from app.job.names import part_of
from tests.circuit.bench import CATALOGUE, demo_layouts, sketch
from tests.explain.test_why import PARTS, SOUND, WIRES, instead, without

DEMOS = {name: found for name, found in demo_layouts().items() if len(found[0].parts) < 20}


def followed(layout: Layout = SOUND, sets: Sequence[str] = (), faults: Sequence[str] = ()) -> Followed:
    situation = parse_situation(["tc=cool-1"], sets, None, None, faults)
    circuit = build_circuit(layout, CATALOGUE)
    return follow(circuit, solve(circuit, situation), "ou:compressor")


def test_what_runs_is_followed_from_screw_to_screw_to_the_common_of_its_source() -> None:
    found = followed()
    ends = [(leg.start, leg.end) for leg in found.legs]
    assert found.stop is None
    assert ends[0][0] == "xf.R"
    assert ends[-1][1] == "xf.C"
    assert [end for _, end in ends[:-1]] == [start for start, _ in ends[1:]]


# What is done to a sound layout, the screw or end at which the path stops, and a word of its flag.
STOPS: Mapping[str, tuple[Followed, str, str]] = {
    "a safety is open": (followed(sets=["ou.high_pressure=open"]), "terminal:ou.Y", "open"),
    "a lead is cut": (followed(faults=["conductor-open:out"]), "terminal:fb.Y", "out"),
    "the way back is cut": (followed(faults=["conductor-open:back"]), "terminal:ou.C", "back"),
    "the source is dead": (followed(faults=["source-dead:xf.secondary"]), "terminal:xf.R", "nothing"),
    "nothing is landed on the output": (followed(without("y")), "terminal:tc.Y", "Y not landed"),
    "nothing leads on to the unit": (followed(without("out")), "terminal:fb.Y", "nothing leads on from Y"),
    "the control has no common": (followed(faults=["conductor-open:c"]), "terminal:tc.C", "c broken"),
    "the unit has no common": (followed(without("back")), "terminal:ou.C", "no common reaches C"),
}


@pytest.mark.parametrize("case", STOPS)
def test_it_stops_at_the_last_screw_that_was_reached(case: str) -> None:
    found, place, words = STOPS[case]
    assert found.stop is not None
    assert found.stop.place == place
    assert words in found.stop.words


def test_it_stops_at_the_loose_end_of_a_lead() -> None:
    layout = instead("y", "fb.Y tc.Y")
    loose = {**layout.conductors, "y": layout.conductors["y"].model_copy(update={"ends": (None, "tc.Y")})}
    found = followed(layout.model_copy(update={"conductors": loose}))
    assert found.stop is not None
    assert (found.stop.place, found.stop.words) == ("end:y.0", "y not landed")
    assert [leg.on for leg in found.legs if leg.on.startswith("conductor:")][:3] == [
        "conductor:hot",
        "conductor:r",
        "conductor:y",
    ]


def test_of_two_outputs_that_get_nowhere_neither_is_named_for_a_screw_of_another_letter() -> None:
    wires = [wire for wire in WIRES if wire.split(":")[0] not in ("y", "w", "out")]
    found = followed(sketch(PARTS, *wires, "out: fb.G ou.Y"))
    assert found.stop is not None
    assert part_of(found.stop.place.partition(":")[2]) != "xf"


@pytest.mark.parametrize("name", sorted(DEMOS))
def test_legs_lie_on_what_they_name_in_the_first_calls_of_every_demo(name: str) -> None:
    layout, catalogue = DEMOS[name]
    circuit = build_circuit(layout, catalogue)
    for situation in situations_of(layout, catalogue)[1:3]:
        point = solve(circuit, situation)
        for part, found in layout.parts.items():
            kind = catalogue.kind_of(found)
            for effect in () if kind is None else kind.effects:
                for leg in follow(circuit, point, f"{part}:{effect}").legs:
                    sort, _, on = leg.on.partition(":")
                    if sort == "conductor":
                        assert {leg.start, leg.end or None} == set(layout.conductors[on].ends)
                    else:
                        assert {part_of(leg.start), part_of(leg.end)} == {on}
