"""An ohmmeter: hand-computed networks, parallel paths against an independent answer, and what it must not say."""

from __future__ import annotations

from typing import Any

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.circuit.impedance import wire_ohms
from app.circuit.meter import Reading, read_with
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Conductor, Layout, Part
from app.job.refusal import Refused
from tests.circuit.bench import CATALOGUE, sketch

MAINS_OFF = {"mains": {"main": "off"}}


def ohms(layout: Layout, a: str, b: str, **fields: Any) -> Reading:
    circuit = build_circuit(layout, CATALOGUE)
    point = solve(circuit, Situation.model_validate({**MAINS_OFF, **fields}))
    return read_with("ohms", circuit, point, a, b)


def lamp(ohms: float) -> dict[str, Any]:
    """A load that is a plain resistance of so many ohms."""
    return {"kind": "lamp", "settings": {"va": 24.0**2 / ohms}}


def test_a_resistance_is_its_volts_squared_over_its_watts() -> None:
    assert ohms(sketch({"lp": lamp(57.6)}), "lp.A", "lp.B").ohms == pytest.approx(57.6)


def test_parallel_paths_are_counted_and_one_end_lifted_takes_them_away() -> None:
    layout = sketch({"la": lamp(30.0), "lb": lamp(60.0)}, "w1: la.A lb.A", "w2: la.B lb.B")
    assert ohms(layout, "la.A", "la.B").ohms == pytest.approx(20.0)
    lifted = ohms(layout, "la.A", "la.B", faults=[{"is": "conductor-open", "at": "conductor:w2"}])
    assert lifted.ohms == pytest.approx(30.0)


def test_a_conductor_is_its_copper() -> None:
    layout = Layout(
        parts={"sa": Part(kind="joint"), "sb": Part(kind="joint")},
        conductors={"w1": Conductor(ends=("sa.A", "sb.A"), length_m=30.48, size_awg=18)},
    )
    assert ohms(layout, "sa.A", "sb.A").ohms == pytest.approx(wire_ohms(30.48, 18))
    cut = ohms(layout, "sa.A", "sb.A", faults=[{"is": "conductor-open", "at": "conductor:w1"}])
    assert cut.floating


def test_contacts_are_read_as_they_stand_at_rest() -> None:
    layout = sketch({"re": "relay"})
    assert ohms(layout, "re.COM", "re.NC").ohms == pytest.approx(0.02)
    assert ohms(layout, "re.COM", "re.NO").floating
    assert "open" in ohms(layout, "re.COM", "re.NO").why


def test_what_leaks_across_an_open_contact_passes_no_direct_current() -> None:
    assert ohms(sketch({"bo": "board"}), "bo.R", "bo.OUT").floating


def test_a_coil_whose_copper_nobody_gave_reads_far_below_its_impedance() -> None:
    # Handbook 15: a coil of 10 VA has 57.6 Ω at 60 Hz and perhaps 10 to 20 Ω of copper.
    reading = ohms(sketch({"re": {"kind": "relay", "settings": {"va": 10.0}}}), "re.A", "re.B")
    assert reading.ohms is None
    assert reading.between_ohms is not None
    least, most = reading.between_ohms
    assert least <= 10
    assert 20 <= most < 57.6


def test_hot_to_common_reads_the_winding() -> None:
    # Handbook 15: R to C with the secondary attached reads its winding, about an ohm.
    reading = ohms(sketch({"xf": "supply", "bo": "board"}, "xf.R bo.R", "xf.C bo.C"), "bo.R", "bo.C")
    assert reading.between_ohms is not None
    assert 0.3 < reading.between_ohms[0] < 1.0 < reading.between_ohms[1] < 2.0


def test_the_winding_off_one_end_lets_the_rest_be_read() -> None:
    layout = sketch({"xf": "supply", "lp": lamp(100.0)}, "w1: xf.R lp.A", "xf.C lp.B")
    lifted = ohms(layout, "lp.A", "lp.B", faults=[{"is": "conductor-open", "at": "conductor:w1"}])
    assert lifted.ohms == pytest.approx(100.0)


@pytest.mark.parametrize(("a", "b"), [("bo.W", "bo.C"), ("ec.R", "ec.C")])
def test_electronics_have_no_meaningful_resistance(a: str, b: str) -> None:
    reading = ohms(sketch({"bo": "board", "ec": "electronic-control"}), a, b)
    assert reading.unknown
    assert reading.why.startswith("not meaningful")


def test_electronics_beside_a_far_smaller_resistance_do_not_matter() -> None:
    layout = sketch({"bo": "board", "lp": lamp(10.0)}, "bo.W lp.A", "bo.C lp.B")
    assert ohms(layout, "lp.A", "lp.B").ohms == pytest.approx(10.0)


def test_electronics_beside_a_resistance_of_their_own_size_do() -> None:
    layout = sketch({"bo": "board", "lp": lamp(4000.0)}, "bo.W lp.A", "bo.C lp.B")
    assert ohms(layout, "lp.A", "lp.B").why.startswith("not meaningful")


def test_what_is_opaque_is_unknown() -> None:
    assert ohms(sketch({"bb": "bus-box"}), "bb.D1", "bb.D2").unknown


def test_an_end_that_nobody_saw_may_be_a_path() -> None:
    layout = sketch({"sa": "joint", "lp": lamp(10.0)}, "lp.A sa.A", "sa.B ?")
    assert ohms(layout, "lp.A", "lp.B").unknown


def test_an_end_that_nobody_saw_may_be_a_path_beside_a_source_without_supply() -> None:
    layout = sketch({"xf": "supply", "lp": lamp(10.0)}, "xf.R lp.A", "xf.C lp.B", "xf.R ?")
    reading = ohms(layout, "lp.A", "lp.B", mains={}, supply_percent=0)
    assert reading.unknown
    assert "w3" in reading.why
    assert reading.between_ohms is None


def test_power_has_to_be_off() -> None:
    layout = sketch({"xf": "supply", "lp": lamp(10.0)}, "xf.R lp.A", "xf.C lp.B")
    with pytest.raises(Refused) as refused:
        ohms(layout, "lp.A", "lp.B", mains={})
    assert refused.value.code == "power-on"
    assert "mains off" in (refused.value.would_be_right or "")
    assert ohms(layout, "lp.A", "lp.B", mains={}, supply_percent=0).between_ohms is not None


def test_a_live_source_elsewhere_does_not_matter() -> None:
    layout = sketch({"xf": "supply", "lp": lamp(10.0)})
    assert ohms(layout, "lp.A", "lp.B", mains={}).ohms == pytest.approx(10.0)


@st.composite
def resistances(draw: st.DrawFn) -> tuple[int, list[tuple[int, int, float]]]:
    """A connected network: a chain over all of its nodes, and more between any two."""
    nodes = draw(st.integers(2, 7))
    some = st.floats(1.0, 500.0)
    chain = [(at, at + 1, draw(some)) for at in range(nodes - 1)]
    pair = st.tuples(st.integers(0, nodes - 1), st.integers(0, nodes - 1), some)
    return nodes, [*chain, *draw(st.lists(pair.filter(lambda each: each[0] != each[1]), max_size=8))]


@settings(max_examples=60, deadline=None)
@given(network=resistances())
def test_any_network_of_resistances_reads_as_networkx_has_it(network: tuple[int, list[tuple[int, int, float]]]) -> None:
    nodes, edges = network
    parts: dict[str, Any] = {f"n{at}": "joint" for at in range(nodes)}
    parts |= {f"r{at}": lamp(each) for at, (_, _, each) in enumerate(edges)}
    wires = [wire for at, (a, b, _) in enumerate(edges) for wire in (f"n{a}.A r{at}.A", f"n{b}.A r{at}.B")]
    graph: nx.MultiGraph[int] = nx.MultiGraph()
    for a, b, each in edges:
        graph.add_edge(a, b, ohms=each)
    expected = nx.resistance_distance(graph, 0, nodes - 1, weight="ohms", invert_weight=True)
    found = ohms(sketch(parts, *wires), "n0.A", f"n{nodes - 1}.A").ohms
    assert found == pytest.approx(expected, rel=1e-6)
