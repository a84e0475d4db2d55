"""Nothing moves without a cause in the list of events, and the events replayed give every operating point."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.kind import Kind
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.job.model import Layout
from app.job.sketch import sketch
from app.sequence.event import CHANGE, TIMER
from app.sequence.run import Run
from tests.checks.chance import layout_by_chance
from tests.circuit.bench import CATALOGUE
from tests.circuit.random_layouts import layouts, relay_ladders
from tests.sequence.playing import DEMOS, at_the_beginning, demo_circuit, play, play_demo, replayed, script, told


def every_event_has_its_cause(run: Run, changes: list[str]) -> None:
    """A cause is a change of that instant, a timer, or something told before in it; what stays is not told."""
    made = {(float(at), said) for at, _, said in (line.partition(":") for line in changes)}
    now_s, before = -1.0, set[str]()
    shown = at_the_beginning(run)
    for event in run.events:
        assert shown.get(event.what) != event.now, event
        shown[event.what] = event.now
        if event.at_s != now_s:
            now_s, before = event.at_s, set()
        if event.cause.startswith(CHANGE):
            assert (event.at_s, event.cause.removeprefix(CHANGE)) in made, event
        elif not event.cause.startswith(TIMER):
            assert event.cause in before, event
        before.add(event.what)


def events_give_every_point(run: Run) -> None:
    """What was told until an instant is what stands there; a part in doubt, or in a cycle, is told as such."""
    for at_s, shown in replayed(run):
        point = run.point_at(at_s)
        effects = {f"effect:{part}:{effect}" for part, effect in point.effects}
        assert {what for what, now in shown.items() if what.startswith("effect:") and now == "on"} == effects, at_s
        if point.settled:
            for name, state in point.elements.items():
                said = shown.get(f"element:{name}", "")
                assert said == state.state or "unknown" in (said, state.state), (at_s, name)


@pytest.mark.parametrize("name", DEMOS)
def test_every_demo_by_chance(name: str) -> None:
    layout, catalogue = DEMOS[name]
    chance = Random(name)
    for _ in range(4):
        changes = script(chance, layout, catalogue)
        run = play(demo_circuit(name), *changes)
        every_event_has_its_cause(run, changes)
        events_give_every_point(run)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(layouts(), st.randoms(use_true_random=False))
def test_layouts_of_simple_kinds(layout: Layout, chance: Random) -> None:
    changes = script(chance, layout, CATALOGUE)
    run = play(build_circuit(layout, CATALOGUE), *changes)
    every_event_has_its_cause(run, changes)
    events_give_every_point(run)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(relay_ladders(), st.sampled_from(["main=off", "supply=60", "supply=106"]))
def test_ladders_that_race_and_chatter(ladder: tuple[Layout, Situation], said: str) -> None:
    layout, start = ladder
    changes = [f"1:{said}", "2:main=on", "3:supply=100"]
    run = play(build_circuit(layout, CATALOGUE), *changes, start=start)
    every_event_has_its_cause(run, changes)
    events_give_every_point(run)


def by_chance(seed: int) -> None:
    """Play a layout by chance through a script by chance."""
    chance = Random(seed)
    catalogue = builtin_catalogue()
    layout = layout_by_chance(chance, catalogue)
    changes = script(chance, layout, catalogue)
    run = play(build_circuit(layout, catalogue), *changes)
    every_event_has_its_cause(run, changes)
    events_give_every_point(run)
    assert run.ends in ("settled", "cycles", "cut off")


@pytest.mark.parametrize("seed", [11, 12, 13], ids=["elder", "hazel", "rowan"])
def test_layouts_by_chance(seed: int) -> None:
    for number in range(40):
        by_chance(1000 * seed + number)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(20, 30), ids=lambda seed: f"block-{chr(97 + seed - 20)}")
def test_many_layouts_by_chance(seed: int) -> None:
    for number in range(1000):
        by_chance(10_000 * seed + number)


def test_a_delay_that_outlasts_chatter_has_its_cause() -> None:
    fields = {
        "title": "Relay that holds a lamp",
        "summary": "",
        "terminals": {letter: {"function": "dry", "use": "x"} for letter in ("A", "B", "COM", "NC", "X", "Y")},
        "elements": {
            "coil": {"is": "coil", "between": ["A", "B"], "va_sealed": 6, "va_inrush": 6},
            "nc": {"is": "contact", "between": ["COM", "NC"], "by": "coil", "rest": "closed"},
            "held_c": {"is": "contact", "between": ["X", "Y"], "by": "held"},
        },
        "states": {"held": "hold(coil, 5 s)"},
    }
    catalogue = CATALOGUE.with_kinds({"holding-relay": Kind.model_validate(fields)})
    layout = sketch(
        {"s": "supply", "h": "hand-switch", "k": "holding-relay"},
        *("s.R h.A", "h.B k.A", "k.COM k.A", "k.NC s.R", "k.B s.C"),
    )
    # The coil pulls in by the switch and interrupts itself once the switch is open.
    changes = ["10:h.hand=open", "30:h.hand=closed", "40:h.hand=open"]
    run = play(build_circuit(layout, catalogue), *changes)
    assert [why.why for _, why in run.unsettled] == ["chatter", "chatter"]
    every_event_has_its_cause(run, changes)
    events_give_every_point(run)
    assert told(run, "element:k.coil", "state:k.held")[:3] == [
        (10.0, "element:k.coil", "released"),
        (10.0, "element:k.coil", "chatters"),
        (15.0, "state:k.held", "off"),
    ]


def test_a_chain_of_causes_leads_from_the_call_to_the_compressor() -> None:
    run = play_demo("bakery-flat-heat-pump:as-left", "0:tc=cool-1")
    cause = {event.what: event.cause for event in run.events}

    chain = ["effect:ou:compressor"]
    while chain[-1] in cause:
        chain.append(cause[chain[-1]])

    assert chain == [
        "effect:ou:compressor",
        "element:ou.contactor",
        "element:ou.run_c",
        "state:ou.may_run",
        "element:ou.run_asked",
        "element:tc.y",
        "change:tc=cool-1",
    ]


def test_a_timer_that_runs_out_and_starts_anew_in_one_instant_is_the_cause_every_time() -> None:
    # Behind 200 ohms the input of the unit is on, but the inrush of its contactor takes the volts from it at once.
    thin = {"kind": "resistor", "settings": {"ohms": 200.0}}
    layout = sketch(
        {"xf": "supply", "s": "hand-switch", "r": thin, "ou": "condensing-unit"},
        *("xf.R s.A", "s.B r.A", "r.B ou.Y", "ou.C xf.C"),
    )
    start = Situation(set={"s.hand": "open"})
    run = play(build_circuit(layout, CATALOGUE), "0:s.hand=closed", "1900:s.hand=open", for_s=2000.0, start=start)
    tried = [event for event in run.events if event.what == "state:ou.may_run" and event.now == "on"]
    assert len(tried) >= 3
    assert {event.cause for event in tried[1:]} == {"timer:ou.may_run"}
