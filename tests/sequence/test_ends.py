"""How runs end: settled where nothing is left to come, cycling where a state comes back, or cut off; and say so."""

from __future__ import annotations

import pytest

from app.catalogue.kind import Kind
from app.circuit.logic import enabled_calls, values_of
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.circuit.template import template_of
from app.job.refusal import Refused
from app.job.sketch import Parts
from app.sequence.change import Change
from app.sequence.moments import MOST_INSTANTS
from app.sequence.run import run_sequence
from app.sequence.telling import warning_words
from tests.circuit.bench import CATALOGUE, sketch
from tests.sequence.playing import DEMOS, demo_circuit, play_demo, play_layout, times_of

SLOW_DEMO = "school-row-hundred-parts:as-left"
SHORTENED = 12
"""Of the hundred parts so many controls are enough."""


def calls_of(name: str) -> list[tuple[str, str]]:
    """Return every call of every control of a demo."""
    layout, catalogue = DEMOS[name]
    found = []
    for part in sorted(layout.parts):
        kind = catalogue.kind_of(layout.parts[part])
        if kind is not None:
            found += [
                (part, call) for call in enabled_calls(template_of(kind), values_of(kind, layout.parts[part], {}))
            ]
    return found[:SHORTENED] if name == SLOW_DEMO else found


@pytest.mark.parametrize("name", DEMOS)
def test_where_calls_stay_a_run_ends_where_solve_does(name: str) -> None:
    circuit = demo_circuit(name)
    for part, call in calls_of(name):
        run = play_demo(name, f"0:{part}={call}")
        point = solve(circuit, Situation.model_validate({"calls": {part: (call,)}}))
        last = run.point_at(run.until_s)
        assert run.ends == "settled", (part, call)
        known = {name: state.state for name, state in last.elements.items() if state.state != "unknown"}
        assert known.items() <= {name: state.state for name, state in point.elements.items()}.items()
        if "unknown" in {state.state for state in point.elements.values()}:
            # Clocks leave more open than the settled meaning does, never less.
            assert set(last.effects) <= set(point.effects)
            assert set(last.effects_in_doubt) >= set(point.effects_in_doubt)
        else:
            assert (last.effects, last.effects_in_doubt) == (point.effects, ()), (part, call)
        assert last.blown.keys() == point.blown.keys()


@pytest.mark.parametrize("name", DEMOS)
def test_a_run_without_changes_says_nothing_and_stands_as_at_rest(name: str) -> None:
    run = play_demo(name)
    assert (run.events, run.ends, run.until_s) == ((), "settled", 0.0)
    assert run.point_at(0).effects == solve(demo_circuit(name), Situation()).effects


def test_what_has_long_stood_so_has_no_delay_left() -> None:
    start = Situation.model_validate({"calls": {"tc": ("heat-1",)}})
    circuit = demo_circuit("bell-loft-heat-only:as-left")
    run = run_sequence(circuit, [], 3600, start)
    assert run.events == ()
    assert run.point_at(0).runs("furnace-heat") == ["fb"]
    again = run_sequence(circuit, [Change(0, "tc=idle", calls={"tc": ()})], 3600, start)
    assert times_of(again, "effect:fb:indoor-fan") == [(90.0, "off")]


def buzzer() -> Parts:
    """A relay that interrupts its own coil, behind a switch."""
    return {"s": "supply", "h": {"kind": "hand-switch", "settings": {}}, "k": "relay"}


BUZZER_WIRES = ("s.R h.A", "h.B k.COM", "k.NC k.A", "k.B s.C")


def test_a_relay_that_interrupts_itself_is_told_as_chatter_and_never_settles() -> None:
    run = play_layout(sketch(buzzer(), *BUZZER_WIRES), "5:h.hand=open", "10:h.hand=closed")
    assert [(at_s, each.why, each.elements) for at_s, each in run.unsettled] == [(10.0, "chatter", ("k.coil",))]
    assert times_of(run, "element:k.coil")[-1] == (10.0, "chatters")
    assert (run.ends, run.period_s) == ("cycles", 0.0)
    assert "At 0:10 coil of k chatter: they pull in and let go in turn." in warning_words(run)
    assert not run.point_at(10).settled


def test_for_a_delay_what_chatters_has_let_go() -> None:
    fields = {
        "title": "Relay with a late state",
        "summary": "",
        "terminals": {letter: {"function": "dry", "use": "x"} for letter in ("A", "B", "COM", "NC", "X", "Y")},
        "elements": {
            "coil": {"is": "coil", "between": ["A", "B"], "va_sealed": 6, "va_inrush": 6},
            "nc": {"is": "contact", "between": ["COM", "NC"], "by": "coil", "rest": "closed"},
            "late_c": {"is": "contact", "between": ["X", "Y"], "by": "late"},
        },
        "states": {"late": "after(coil, 5 s)"},
    }
    catalogue = CATALOGUE.with_kinds({"late-relay": Kind.model_validate(fields)})
    parts = {"s": "supply", "h": "hand-switch", "k": "late-relay"}
    run = play_layout(sketch(parts, *BUZZER_WIRES), "5:h.hand=open", "10:h.hand=closed", catalogue=catalogue)
    assert run.unsettled
    assert times_of(run, "state:k.late") == []
    assert (run.ends, run.until_s) == ("cycles", 10.0)


def test_chatter_ends_when_its_supply_ends_and_the_run_goes_on() -> None:
    run = play_layout(sketch(buzzer(), *BUZZER_WIRES), "5:h.hand=open", "10:h.hand=closed", "20:main=off")
    assert times_of(run, "element:k.coil")[-1] == (20.0, "released")
    assert run.ends == "settled"
    assert run.point_at(20).settled


def test_an_interlocked_pair_is_told_as_a_race_and_goes_on_with_one_first() -> None:
    layout = sketch(
        {"s": "supply", "h": "hand-switch", "k1": "relay", "k2": "relay"},
        *("s.R h.A", "h.B k1.COM", "h.B k2.COM", "k2.NC k1.A", "k1.NC k2.A", "k1.B s.C", "k2.B s.C"),
    )
    run = play_layout(layout, "0:h.hand=open", "10:h.hand=closed")
    assert [(at_s, each.why) for at_s, each in run.unsettled] == [(10.0, "race")]
    assert "At 0:10 coil of k1, coil of k2 race: coil of k1 is taken to move first." in warning_words(run)
    point = run.point_at(10)
    assert (point.elements["k1.coil"].state, point.elements["k2.coil"].state) == ("pulled-in", "released")
    assert run.ends == "settled"


def test_a_failing_furnace_cycles_and_its_cycle_goes_on() -> None:
    run = play_demo("bell-loft-heat-only:as-left", "0:tc=heat-1", "10:fb.flame=open")
    # Lockout after the third trial, one hour of it, and everything again.
    assert run.ends == "cycles"
    lockouts = times_of(run, "state:fb.locked_out")
    assert [now for _, now in lockouts] == ["on", "off"]
    assert lockouts[1][0] - lockouts[0][0] == 3600
    period = run.period_s or 0
    trial_s = next(at for at, now in times_of(run, "element:fb.gas_valve") if now == "pulled-in") + 1
    for seconds in (trial_s, trial_s + period, trial_s + 7 * period):
        assert run.point_at(seconds).elements["fb.gas_valve"].state == "pulled-in"


def test_a_run_with_something_still_to_come_is_cut_off() -> None:
    run = play_demo("bell-loft-heat-only:as-left", "0:tc=heat-1", for_s=30)
    assert (run.ends, run.until_s) == ("cut off", 30.0)
    assert "effect:fb:furnace-heat" not in {event.what for event in run.events}


def test_a_run_of_very_many_instants_is_cut_off() -> None:
    changes = [Change(at, f"outdoor={at % 7}", outdoor_c=at % 7) for at in range(MOST_INSTANTS + 50)]
    run = run_sequence(demo_circuit("bell-loft-heat-only:as-left"), changes, 5000)
    assert run.ends == "cut off"
    assert run.until_s == MOST_INSTANTS - 1


@pytest.mark.parametrize("at_s", [-1.0, 61.0], ids=["before", "after"])
def test_a_change_outside_the_run_is_refused(at_s: float) -> None:
    with pytest.raises(Refused) as caught:
        run_sequence(demo_circuit("bell-loft-heat-only:as-left"), [Change(at_s, "main=off")], 60)
    assert caught.value.code == "bad-change"
    assert caught.value.would_be_right


def test_a_fuse_that_has_opened_stays_open() -> None:
    layout = sketch({"s": "fused-supply", "h": "hand-switch"}, "s.R h.A", "h.B s.C")
    run = play_layout(layout, "20:h.hand=open", "30:main=off", "40:main=on")
    assert run.point_at(0).elements["s.fuse"].state == "open"
    assert run.point_at(40).elements["s.fuse"].state == "open"
    assert run.point_at(40).blown["s.fuse"] > 3


def test_a_fuse_opens_at_the_instant_of_the_short() -> None:
    layout = sketch({"s": "fused-supply", "k": "relay"}, "s.R k.A", "k.B s.C")
    run = play_layout(layout, "10:fault=short:k.A,k.B")
    assert times_of(run, "element:s.fuse") == [(10.0, "open")]
    assert times_of(run, "element:k.coil") == [(10.0, "released")]
    assert run.point_at(9).elements["k.coil"].state == "pulled-in"


def test_where_the_phase_between_sources_is_not_known_the_run_says_what_it_takes_for_granted() -> None:
    layout = sketch(
        {"a": "supply", "b": {"kind": "supply", "settings": {"phase_deg": "unknown"}}, "l": "lamp"},
        *("a.C b.C", "a.R l.A", "b.R l.B"),
    )
    assert play_layout(layout).assumes == ("b.secondary is in phase with the other sources",)
    assert play_demo("bell-loft-heat-only:as-left").assumes == ()
