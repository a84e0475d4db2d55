"""What is told as known although something was not seen stays so, whatever is put there: tried with real things.

Behind every unseen end something is put at random: a wire to hot or common, a load, a switch, a relay of which the
contact works another unseen end. Then the circuit is solved as it really is, and held against what was told before.
"""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from app.circuit.network import build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.circuit.veil import TOLD_WITHIN
from app.job.model import Conductor, Layout, Part, UnknownEnd
from tests.circuit.bench import CATALOGUE
from tests.circuit.random_layouts import layouts_and_situations

EMF = 26.4
UNSEEN = UnknownEnd(unknown="behind the wall")
HalfSeen = tuple[Layout, Situation, dict[str, str]]
"""A layout with unseen ends, a situation, and where the conductors with such an end are landed."""


@st.composite
def half_seen(draw: st.DrawFn) -> HalfSeen:
    """Return a layout with unseen ends, a situation, and where each of the conductors with such an end is landed."""
    layout, situation = draw(layouts_and_situations())
    terminals = sorted(build_circuit(layout, CATALOGUE).terminals)
    landed = draw(st.lists(st.sampled_from(terminals), min_size=1, max_size=3))
    unseen = {f"u{at}": terminal for at, terminal in enumerate(landed)}
    lengths = st.sampled_from([None, None, 3.0, 20.0])
    conductors = {name: Conductor(ends=(terminal, UNSEEN), length_m=draw(lengths)) for name, terminal in unseen.items()}
    return layout.model_copy(update={"conductors": {**layout.conductors, **conductors}}), situation, unseen


def behind(data: st.DataObject, layout: Layout, unseen: dict[str, str], sides: dict[str, list[str]]) -> Layout:
    """Return the layout with something real behind each unseen end; ``sides`` are hot and common where it may lead."""
    parts: dict[str, Part] = {**layout.parts, "zs": Part(kind="supply")}
    conductors: dict[str, Conductor] = dict(layout.conductors)
    free: list[str] = []
    for name in unseen:
        what = data.draw(st.sampled_from(["nothing", "wire", "lamp", "switch", "relay", "other", "contact"]))
        to = data.draw(st.sampled_from(sides[name])) if sides[name] else None
        if what == "nothing" or (to is None and what != "other"):
            conductors[name] = landed(layout, name, None)
        elif what == "other":
            free.append(name)
        elif what == "wire":
            conductors[name] = landed(layout, name, to)
        elif what == "contact" and (relay := next((part for part in parts if part.startswith("zr-")), None)):
            pole = data.draw(st.sampled_from(["NO", "NC"]))
            conductors[name] = landed(layout, name, f"{relay}.{pole}")
            conductors[f"{name}-more"] = Conductor(ends=(f"{relay}.COM", to))
        else:
            part = f"z{'r' if what in ('relay', 'contact') else 'x'}-{name}"
            settings_of: dict[str, Any] = (
                {"va": data.draw(st.sampled_from([3.0, 6.0, 12.0]))} if what != "switch" else {}
            )
            kind = {"lamp": "lamp", "switch": "hand-switch"}.get(what, "relay")
            parts[part] = Part(kind=kind, settings=settings_of)
            conductors[name] = landed(layout, name, f"{part}.A")
            conductors[f"{name}-more"] = Conductor(ends=(f"{part}.B", to))
    for one, other in zip(free[::2], free[1::2], strict=False):
        conductors[one] = landed(layout, one, unseen[other])
        del conductors[other]
    if len(free) % 2:
        conductors[free[-1]] = landed(layout, free[-1], None)
    return layout.model_copy(update={"parts": parts, "conductors": conductors})


def landed(layout: Layout, name: str, to: str | None) -> Conductor:
    found = layout.conductors[name]
    return found.model_copy(update={"ends": (found.ends[0], to)})


def sides_of(layout: Layout, told: OperatingPoint, unseen: dict[str, str]) -> dict[str, list[str]]:
    """Hot and common of the sources of the component in which an end is landed; where it has none, of an unseen one."""
    circuit = build_circuit(layout, CATALOGUE)
    ends = [f"{name.split('.')[0]}.{letter}" for name in circuit.sources for letter in "RC"]
    live = {told.component[end] for end in ends}
    return {
        name: [end for end in ends if told.component[end] == told.component[terminal]]
        if told.component[terminal] in live
        else ["zs.R", "zs.C"]
        for name, terminal in unseen.items()
    }


def hold_against(told: OperatingPoint, real: OperatingPoint, layout: Layout) -> None:
    within = TOLD_WITHIN * EMF * told.situation.supply_percent / 100
    for name, state in told.elements.items():
        if state.state not in ("unknown", ""):
            assert real.elements[name].state == state.state, name
        if not state.amps_unknown and state.volts:
            # Amps are as sure as the volts at both ends.
            siemens = state.amps / state.volts
            assert abs(real.elements[name].amps - state.amps) <= 2 * within * siemens + 1e-6, name
    for part, effect in told.effects:
        assert (part, effect) in real.effects
    for part, effect in real.effects:
        if part in layout.parts:
            assert (part, effect) in told.effects + told.effects_in_doubt
    for name, terminal in told.terminals.items():
        reference = terminal.reference
        if terminal.floating:
            assert real.terminals[name].floating, name
        elif terminal.volts is not None and reference is not None and reference in told.terminals:
            there, zero = real.terminals[name].volts, real.terminals[reference].volts
            assert there is not None, name
            assert zero is not None, reference
            assert abs(there - zero - terminal.volts) <= within + 1e-6, name


def with_contacts_as_wires(layout: Layout) -> Layout:
    """Return the layout with a wire in place of each contact that was put behind an unseen end."""
    conductors = dict(layout.conductors)
    for name, conductor in layout.conductors.items():
        end = conductor.ends[1]
        if isinstance(end, str) and end.startswith("zr-") and end.endswith((".NO", ".NC")):
            beyond = conductors.pop(f"{name}-more").ends[1]
            conductors[name] = conductor.model_copy(update={"ends": (conductor.ends[0], beyond)})
    return layout.model_copy(update={"conductors": conductors})


def overloads(real: OperatingPoint, told: OperatingPoint, unseen: dict[str, str]) -> bool:
    """Return whether more flows behind the unseen ends than the law takes for granted."""
    there = [real.conductors[name] for name in unseen if name in real.conductors]
    beyond = [conductor for name, conductor in real.conductors.items() if name.endswith("-more")]
    assume(not any(conductor.unknown for conductor in (*there, *beyond)))
    amps = max([sum(each.amps for each in there), *(each.amps for each in beyond)])
    return not set(real.blown) <= set(told.blown) or amps > 20 / EMF


def look(data: st.DataObject, case: HalfSeen) -> None:
    layout, situation, unseen = case
    told = solve(build_circuit(layout, CATALOGUE), situation)
    real_layout = behind(data, layout, unseen, sides_of(layout, told, unseen))
    real = solve(build_circuit(real_layout, CATALOGUE), situation)
    # What the law takes for granted: no short and no overload behind an unseen end, nor one that a relay makes there
    # again and again, of which the last look need not tell.
    closed = solve(build_circuit(with_contacts_as_wires(real_layout), CATALOGUE), situation)
    assume(not any(overloads(each, told, unseen) for each in (real, closed)))
    hold_against(told, real, layout)


@given(case=half_seen(), data=st.data())
@settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
def test_what_is_told_stays_whatever_is_put_there(case: HalfSeen, data: st.DataObject) -> None:
    look(data, case)


@pytest.mark.slow
@given(case=half_seen(), data=st.data())
@settings(max_examples=20_000, deadline=None, suppress_health_check=list(HealthCheck))
def test_what_is_told_stays_in_many_circuits(case: HalfSeen, data: st.DataObject) -> None:
    look(data, case)
