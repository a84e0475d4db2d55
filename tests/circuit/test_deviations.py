"""The situations of a group: all of its families, each once, the simplest first, and as many as are counted."""

from __future__ import annotations

from itertools import islice

import pytest
from hypothesis import HealthCheck, given, settings

from app.catalogue.builtin import builtin_catalogue
from app.circuit.axes import axes_of, temperatures_of
from app.circuit.deviations import Axes
from app.circuit.network import build_circuit
from app.circuit.outcomes import outcomes_of
from app.circuit.situation import Situation
from app.circuit.situation_text import check_situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all
from app.job.model import Layout
from tests.backwards import backwards
from tests.circuit.bench import CATALOGUE, demo_layouts, sketch
from tests.circuit.random_layouts import layouts

ZONES = sketch(
    {"xf": "supply", "ta": "control", "tb": "electronic-control", "s": "hand-switch", "j": "jumper-strip"},
    *("xf.R ta.R", "xf.R tb.R", "xf.C tb.C", "ta.Y s.A", "s.B j.A", "j.B xf.C"),
)


def axes(layout: Layout) -> Axes:
    circuit = build_circuit(layout, CATALOGUE)
    return axes_of([network.parts for network in circuit.networks], layout, CATALOGUE)


@given(layout=layouts())
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_as_many_are_made_as_are_counted_and_each_once(layout: Layout) -> None:
    found = list(axes(layout).deviations())
    assert len(found) == axes(layout).possible()
    assert len(set(found)) == len(found)
    assert [each.size() for each in found] == sorted(each.size() for each in found)


@given(layout=layouts())
@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_each_is_a_situation_that_the_layout_has(layout: Layout) -> None:
    for deviation in axes(layout).deviations():
        made = deviation.situation()
        check_situation(made, layout, CATALOGUE)
        assert Situation.model_validate(made.model_dump()) == made


def test_the_order_of_the_document_does_not_matter() -> None:
    turned = ZONES.model_copy(update={"parts": backwards(ZONES.parts)})
    assert list(axes(ZONES).deviations()) == list(axes(turned).deviations())


def test_every_call_comes_at_every_supply_and_with_every_call_of_another_control() -> None:
    found = list(axes(ZONES).deviations())
    assert {each.supply_percent for each in found} == {100, 88, 106}
    calls = [("ta", "cool-1"), ("ta", "heat-1"), ("tb", "cool-1")]
    for supply in (100, 88, 106):
        at_supply = {each.calls for each in found if each.supply_percent == supply and each.position is None}
        assert at_supply == {(), *((call,) for call in calls), (calls[0], calls[2]), (calls[1], calls[2])}


def test_every_other_position_comes_alone_and_with_each_call_that_it_leaves() -> None:
    by_position: dict[object, set[object]] = {}
    for each in axes(ZONES).deviations():
        if each.position is not None:
            assert each.supply_percent == 100
            by_position.setdefault(each.position, set()).add(each.calls)
    alone, cool_a, heat_a, cool_b = (), (("ta", "cool-1"),), (("ta", "heat-1"),), (("tb", "cool-1"),)
    assert by_position == {
        ("s.hand", "open"): {alone, cool_a, heat_a, cool_b},
        ("j.bar", "fitted"): {alone, cool_a, heat_a, cool_b},
        # A control that is switched off keeps the call that asks for no position.
        ("ta.mode", "off"): {alone, heat_a, cool_b},
    }


def test_what_only_shares_air_meets_in_pairs_of_calls_alone() -> None:
    apart = sketch(
        {"xa": "supply", "ta": "control", "xb": "supply", "tb": "control", "s": "hand-switch"},
        *("xa.R ta.R", "xb.R tb.R", "tb.Y s.A"),
    )
    found = list(axes(apart).deviations())
    assert any(len(each.calls) == 2 for each in found)
    moved = {call for each in found if each.position == ("s.hand", "open") for call in each.calls}
    assert {control for control, _ in moved} == {"tb"}


def test_both_sides_of_a_threshold_are_looked_at_and_twenty_degrees_stand_for_their_own() -> None:
    switch = {"kind": "outdoor-temperature-switch", "settings": {"switches_at_c": 5.0}}
    dual = {"kind": "thermostat-dual-fuel", "settings": {"switch_over_c": -1.0}}
    layout = sketch({"os": switch, "tc": dual}, "tc.Y1 os.A")
    catalogue = builtin_catalogue()
    assert temperatures_of(["os", "tc"], layout, catalogue) == (20.0, -3.0, 2.0)
    assert temperatures_of(["tc"], layout, catalogue) == (20.0, -3.0)
    assert temperatures_of(["xf"], sketch({"xf": "supply"}), CATALOGUE) == (20.0,)
    warm = sketch({"os": {"kind": "outdoor-temperature-switch", "settings": {"switches_at_c": 20.0}}})
    assert temperatures_of(["os"], warm, catalogue) == (20.0, 18.0, 22.0)


def test_thousands_of_situations_are_never_made_to_take_the_first() -> None:
    controls = {f"t{at}": "control" for at in range(60)}
    crowd = axes(sketch({"xf": "supply", **controls}, *(f"xf.R {control}.R" for control in controls)))
    assert crowd.possible() == 3 * (1 + 120 + 120 * 118 // 2) + 60 * (1 + 119)
    assert len(list(islice(crowd.deviations(), 2000))) == 2000


def test_the_calls_of_the_plain_list_come_first() -> None:
    found = [each.situation() for each in axes(ZONES).deviations()]
    plain = situations_of(ZONES, CATALOGUE)
    assert found[: len(plain)] == plain


@given(layout=layouts())
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_what_has_one_outcome_has_one_answer(layout: Layout) -> None:
    circuit = build_circuit(layout, CATALOGUE)
    situations = [each.situation() for each in islice(axes(layout).deviations(), 120)]
    points = solve_all(circuit, situations)
    for outcome in outcomes_of(circuit, situations):
        first = points[outcome.at[0]]
        for at in outcome.at[1:]:
            other = points[at]
            assert {n: s.state for n, s in other.elements.items()} == {n: s.state for n, s in first.elements.items()}
            assert (other.effects, set(other.blown)) == (first.effects, set(first.blown))
            assert [s.unknown for s in other.terminals.values()] == [s.unknown for s in first.terminals.values()]
            assert [s.floating for s in other.terminals.values()] == [s.floating for s in first.terminals.values()]
            if other.situation.supply_percent == first.situation.supply_percent:
                for name, state in first.terminals.items():
                    there = other.terminals[name].volts
                    assert (state.volts is None) == (there is None)
                    assert state.volts is None or abs(state.volts - (there or 0)) < 1e-9


@pytest.mark.parametrize("name", ["post-office-dual-fuel:as-left", "bakery-flat-heat-pump:as-left"])
def test_the_plain_form_of_a_deviation_comes_to_the_same(name: str) -> None:
    layout, catalogue = demo_layouts()[name]
    circuit = build_circuit(layout, catalogue)
    asked = axes_of([network.parts for network in circuit.networks], layout, catalogue)
    turned = [each for each in asked.deviations() if asked.plain(each) != each]
    assert {each.position for each in turned if each.position} >= {("tc.mode", "cool"), ("tc.mode", "off")}
    assert (len({each.outdoor_c for each in turned}) > 1) == (len(asked.temperatures) > 1)
    with_it = solve_all(circuit, [each.situation() for each in turned])
    without = solve_all(circuit, [asked.plain(each).situation() for each in turned])
    for one, other in zip(with_it, without, strict=True):
        assert one.effects == other.effects
        assert dict(one.elements) == dict(other.elements)
        assert dict(one.terminals) == dict(other.terminals)
