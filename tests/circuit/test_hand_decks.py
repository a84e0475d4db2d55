"""Decks typed by hand from the wiring, not made by our builder, solved by ngspice and held against us.

Figures by hand: a 40 VA supply of 24 V and 10 % is 26.4 V behind 1.44 Ω; a load of S VA is 576/S Ω; a coil of S VA
sealed at power factor 0.5 is 288/S Ω of resistance and 576/S · √0.75 Ω of reactance, at 0.7 (inrush) 403.2/S Ω and
576/S · √0.51 Ω; 60 Hz is 376.99111843077515 rad/s; a metre of 18 AWG is 1/58 Ω·mm² over 0.823 mm² of copper.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

import pytest

from app.circuit.situation import Situation
from app.job.model import Layout
from tests.circuit.bench import asking, faulty, sketch, solved
from tests.circuit.spice import run_decks

PARAMS = """
.param w=376.99111843077515
.param metre={1/58/(3.141592653589793/4*(0.127*92**(18/39))*(0.127*92**(18/39)))}
"""


@dataclass
class Case:
    layout: Layout
    deck: str
    nodes: dict[str, str]
    """Node of the deck by terminal, ``0`` for the reference."""
    situation: Situation = field(default_factory=Situation)
    floating: tuple[str, ...] = ()


def long_wires(layout: Layout, **metres: float) -> Layout:
    wires = {name: wire.model_copy(update={"length_m": metres.get(name)}) for name, wire in layout.conductors.items()}
    return layout.model_copy(update={"conductors": wires})


CASES = {
    "one load": Case(
        sketch({"xf": "supply", "la": "lamp"}, "xf.R la.A", "xf.C la.B"),
        """one load
v1 e 0 ac 26.4
r1 e hot 1.44
r2 hot 0 57.6
""",
        {"xf.R": "hot", "la.A": "hot", "la.B": "0"},
    ),
    "a relay at the end of 30 m of 18 AWG": Case(
        long_wires(sketch({"xf": "supply", "k": "relay"}, "xf.R k.A", "xf.C k.B"), w1=30.0, w2=30.0),
        """long run
v1 e 0 ac 26.4
r1 e hot 1.44
r2 hot far {30*metre}
r3 far mid 48
l3 mid back {96*sqrt(0.75)/w}
r4 back 0 {30*metre}
""",
        {"xf.R": "hot", "k.A": "far", "k.B": "back", "xf.C": "0"},
        floating=("k.COM", "k.NO"),
    ),
    "a call closes a contact and a contactor pulls in": Case(
        sketch({"xf": "supply", "tc": "control", "ou": "contactor"}, "xf.R tc.R", "tc.Y ou.A", "ou.B xf.C"),
        """sealed contactor
v1 e 0 ac 26.4
r1 e hot 1.44
r2 hot y 0.02
r3 y m {288/7}
l3 m 0 {576/7*sqrt(0.75)/w}
""",
        {"tc.R": "hot", "tc.Y": "y", "ou.A": "y", "ou.B": "0"},
        asking(tc="cool-1"),
        floating=("tc.W",),
    ),
    "at 60 % the same contactor stays out and takes its inrush": Case(
        sketch({"xf": "supply", "tc": "control", "ou": "contactor"}, "xf.R tc.R", "tc.Y ou.A", "ou.B xf.C"),
        """brown-out
v1 e 0 ac 15.84
r1 e hot 1.44
r2 hot y 0.02
r3 y m {403.2/30}
l3 m 0 {576/30*sqrt(0.51)/w}
""",
        {"tc.R": "hot", "tc.Y": "y", "ou.A": "y", "ou.B": "0"},
        Situation(calls={"tc": ("cool-1",)}, supply_percent=60),
    ),
    "the common is missing, so that two loads are in series": Case(
        sketch(
            {"xf": "supply", "la": "lamp", "lb": {"kind": "lamp", "settings": {"va": 20}}},
            *("xf.R la.A", "la.B lb.B", "lb.A xf.C"),
        ),
        """loads in series
v1 e 0 ac 26.4
r1 e hot 1.44
r2 hot mid 57.6
r3 mid 0 28.8
""",
        {"la.A": "hot", "la.B": "mid", "lb.B": "mid", "lb.A": "0"},
    ),
    "two supplies the wrong way round, joined": Case(
        sketch(
            {"xa": "supply", "xb": {"kind": "supply", "settings": {"va": 20, "phase_deg": 180}}},
            *("xa.R xb.R", "xa.C xb.C"),
        ),
        """opposed
v1 e 0 ac 26.4
r1 e hot 1.44
v2 f 0 ac 26.4 180
r2 f hot 2.88
""",
        {"xa.R": "hot", "xb.R": "hot", "xb.C": "0"},
    ),
    "two supplies in series through a load": Case(
        sketch(
            {"xa": "supply", "xb": {"kind": "supply", "settings": {"va": 20}}, "la": "lamp"},
            *("xa.R la.A", "la.B xb.C", "xb.R xa.C"),
        ),
        """series
v1 e 0 ac 26.4
r1 e hot 1.44
r2 hot mid 57.6
v2 f mid ac 26.4
r3 f 0 2.88
""",
        {"la.A": "hot", "la.B": "mid", "xb.C": "mid", "xb.R": "0"},
    ),
    "a fuse carries a load": Case(
        sketch({"xf": "fused-supply", "la": {"kind": "lamp", "settings": {"va": 40}}}, "xf.R la.A", "xf.C la.B"),
        """fuse
v1 e 0 ac 26.4
r1 e hot 1.44
r2 hot out 0.03
r3 out 0 14.4
""",
        {"xf.R": "out", "la.A": "out", "la.B": "0"},
    ),
    "an open contact leaks through 26.5 kilohm": Case(
        sketch({"xf": "supply", "fb": "board", "la": "lamp"}, "xf.R fb.R", "xf.C fb.C", "fb.OUT la.A", "la.B fb.C"),
        """leak
v1 e 0 ac 26.4
r1 e hot 1.44
r2 hot out 26500
r3 out 0 57.6
r4 w 0 3000
""",
        {"fb.R": "hot", "fb.OUT": "out", "fb.W": "0", "la.A": "out"},
    ),
    "a chassis is the reference, and a load goes back through it": Case(
        sketch({"xf": "supply", "ch": "chassis", "la": "lamp"}, "xf.C ch.G", "xf.R la.A", "la.B ch.G"),
        """grounded
v1 e 0 ac 26.4
r1 e hot 1.44
r2 hot 0 57.6
""",
        {"xf.R": "hot", "xf.C": "0", "ch.G": "0"},
    ),
    "a relay at rest feeds a load through its closed contact": Case(
        sketch({"xf": "supply", "k": "relay", "la": "lamp"}, "xf.R k.COM", "k.NC la.A", "la.B xf.C"),
        """changeover
v1 e 0 ac 26.4
r1 e hot 1.44
r2 hot nc 0.02
r3 nc 0 57.6
""",
        {"k.COM": "hot", "k.NC": "nc", "la.B": "0"},
        floating=("k.NO", "k.A", "k.B"),
    ),
    "a bridge of resistors that is not in balance": Case(
        sketch(
            {
                "xf": "supply",
                **{
                    f"r{ohms}": {"kind": "resistor", "settings": {"ohms": float(ohms)}} for ohms in (10, 22, 47, 68, 33)
                },
            },
            *("xf.R r10.A", "xf.R r22.A", "r10.B r47.A", "r22.B r68.A", "r47.B xf.C", "r68.B xf.C"),
            *("r10.B r33.A", "r22.B r33.B"),
        ),
        """bridge
v1 e 0 ac 26.4
r1 e hot 1.44
r2 hot a 10
r3 hot b 22
r4 a 0 47
r5 b 0 68
r6 a b 33
""",
        {"xf.R": "hot", "r33.A": "a", "r33.B": "b"},
    ),
    "a short of 2 ohm across a run": Case(
        long_wires(sketch({"xf": "supply", "la": "lamp"}, "xf.R la.A", "xf.C la.B"), w1=12.0, w2=12.0),
        """short
v1 e 0 ac 26.4
r1 e hot 1.44
r2 hot far {12*metre}
r3 far back 57.6
r4 back 0 {12*metre}
r5 far back 2
""",
        {"xf.R": "hot", "la.A": "far", "la.B": "back"},
        faulty({"is": "short", "at": ("terminal:la.A", "terminal:la.B"), "ohms": 2.0}),
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_hand_deck(name: str, tmp_path: Path) -> None:
    case = CASES[name]
    title, _, body = case.deck.partition("\n")
    (volts,) = run_decks(tmp_path, [f"{title}{PARAMS}{body}.ac lin 1 60 60\n.end\n"])
    volts["0"] = 0j
    point = solved(case.layout, case.situation)
    for terminal, node in case.nodes.items():
        state = point.terminals[terminal]
        assert state.volts is not None, terminal
        assert abs(state.volts - volts[node]) <= 1e-6 * max(1.0, abs(volts[node])), (terminal, state.volts, volts[node])
    assert all(point.terminals[terminal].floating for terminal in case.floating)
