"""Why something runs or does not: paths and stops on a small layout, one thing changed at a time."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from app.circuit.network import build_circuit
from app.circuit.situation_text import parse_situation
from app.circuit.solve import solve
from app.explain.answer import Explanation
from app.explain.following import follow
from app.explain.why import why
from app.job.model import Layout
from app.job.refusal import Refused
from app.job.temperatures import Units
from tests.circuit.bench import CATALOGUE, demo_layouts, sketch

PARTS: Mapping[str, Any] = {
    "xf": "control-transformer",
    "fb": "furnace-board",
    "tc": "thermostat-heat-pump",
    "ou": "condensing-unit",
}
WIRES = (
    "hot: xf.R fb.XF",
    "cold: xf.C fb.XC",
    "r: fb.R tc.R",
    "c: fb.C tc.C",
    "y: fb.Y tc.Y",
    "w: fb.W tc.W",
    "out: fb.Y ou.Y",
    "back: fb.C ou.C",
)
SOUND = sketch(PARTS, *WIRES)


def explained(layout: Layout = SOUND, subject: str = "ou:compressor", calls: str = "", **how: Any) -> Explanation:
    situation = parse_situation(
        calls.split(), how.get("sets", ()), how.get("supply"), how.get("outdoor"), how.get("faults", ())
    )
    circuit = build_circuit(layout, CATALOGUE)
    return why(circuit, solve(circuit, situation), subject)[0]


def names(found: Explanation) -> list[str]:
    return [step.subject.partition(":")[2] for step in found.steps]


def stops_at(found: Explanation) -> str | None:
    return None if found.stops_at is None else names(found)[found.stops_at]


def without(name: str) -> Layout:
    return sketch(PARTS, *(wire for wire in WIRES if not wire.startswith(f"{name}:")))


def instead(name: str, ends: str) -> Layout:
    return sketch(PARTS, *(f"{name}: {ends}" if wire.startswith(f"{name}:") else wire for wire in WIRES))


def test_what_runs_is_told_from_hot_to_common() -> None:
    found = explained(calls="tc=cool-1")
    wires = [name for name in names(found) if "." not in name]
    assert found.verdict == "runs"
    assert found.stops_at is None
    assert names(found)[0] == "xf.secondary"
    assert wires == ["hot", "r", "y", "out", "back", "cold"]
    assert "tc.y" in names(found)
    assert names(found).index("tc.y") < names(found).index("ou.contactor") < names(found).index("back")


def test_the_chain_goes_on_to_the_call() -> None:
    found = explained(calls="tc=cool-1")
    assert any("because Thermostat" in line and "calls cool 1" in line for line in found.words)


def test_volts_fall_from_step_to_step() -> None:
    found = explained(calls="tc=cool-1")
    volts = [step.to_common for step in found.steps if step.to_common is not None]
    assert volts == sorted(volts, reverse=True)
    assert volts[-1] == pytest.approx(0.0, abs=0.01)


def test_where_nothing_calls_it_stops_at_the_contact_of_the_control() -> None:
    found = explained()
    assert (found.verdict, found.stop, stops_at(found)) == ("does-not-run", "call", "tc.y")
    assert any("cool 1" in reason.words for reason in found.reasons if reason.behind is None) or "cool 1" in str(found)


# What is changed while cooling is called, the sort of the root, and what it is about.
STOPS: Mapping[str, tuple[dict[str, Any], str, str]] = {
    "a safety that is open": ({"sets": ["ou.high_pressure=open"]}, "safety", "element:ou.high_pressure_c"),
    "a lead that is cut": ({"faults": ["conductor-open:out"]}, "cut", "conductor:out"),
    "the way back that is cut": ({"faults": ["conductor-open:back"]}, "cut", "conductor:back"),
    "a fuse that opened on a short": ({"faults": ["short:fb.R,fb.C"]}, "fuse", "element:fb.fuse"),
    "a contact that no longer closes": ({"faults": ["contact-dead:tc.y"]}, "broken", "element:tc.y"),
    "a coil that is open": ({"faults": ["coil-open:ou.contactor"]}, "coil-fault", "element:ou.contactor"),
    "a source that is dead": ({"faults": ["source-dead:xf.secondary"]}, "mains", "element:xf.secondary"),
    "no supply at all": ({"supply": 0}, "mains", "element:xf.secondary"),
    "a control without its common": ({"faults": ["conductor-open:c"]}, "cut", "conductor:c"),
}


@pytest.mark.parametrize("case", STOPS)
def test_a_compressor_that_is_called_and_does_not_run(case: str) -> None:
    how, sort, subject = STOPS[case]
    found = explained(calls="tc=cool-1", **how)
    assert found.verdict == "does-not-run"
    assert found.root is not None
    assert (found.root.sort, found.root.subject) == (sort, subject)


def test_a_control_without_power_is_told_as_asleep() -> None:
    found = explained(calls="tc=cool-1", faults=["conductor-open:c"])
    assert (found.stop, stops_at(found)) == ("asleep", "tc.y")


def test_too_few_volts_are_told_as_that() -> None:
    found = explained(calls="tc=cool-1", faults=["joint-ohms:back:30"])
    assert (found.verdict, found.stop) == ("does-not-run", "low-volts")
    assert any("pulls in from 18.0 V" in line for line in found.words)


@pytest.mark.parametrize(
    ("layout", "stop", "subject"),
    [
        (without("out"), "no-supply", "terminal:ou.Y"),
        (without("back"), "no-common", "terminal:ou.C"),
        (instead("back", "fb.C -"), "no-common", "terminal:ou.C"),
        (instead("back", "ou.C -"), "no-common", "terminal:ou.C"),
        (instead("back", "ou.C ?"), "unknown", "terminal:ou.C"),
    ],
    ids=[
        "no call lead",
        "no common lead",
        "a common that ends loose",
        "a common landed on one side",
        "a common that nobody saw",
    ],
)
def test_a_lead_that_is_missing_loose_or_unseen(layout: Layout, stop: str, subject: str) -> None:
    found = explained(layout, calls="tc=cool-1")
    assert found.root is not None
    if stop != "unknown":
        assert (found.root.sort, found.root.subject) == (stop, subject)
    assert found.verdict == ("unknown" if stop == "unknown" else "does-not-run")


def test_a_jumper_that_is_out_is_named() -> None:
    parts = {"xf": "control-transformer", "tc": "thermostat-heat-cool-split", "fr": "fan-relay"}
    layout = sketch(
        {**parts, "tc": {"kind": "thermostat-heat-cool-split", "settings": {"rh_rc": "removed"}}},
        "xf.R tc.RH",
        "tc.G fr.G",
        "fr.C xf.C",
    )
    found = explained(layout, "fr:indoor-fan", "tc=fan")
    assert (found.stop, stops_at(found)) == ("jumper", "tc.supply_jumper")


def test_what_is_called_for_is_looked_at_before_what_a_board_might_close() -> None:
    """W could also come from the outdoor unit while it defrosts; but heat is called, and its supply is out."""
    layout, catalogue = demo_layouts()["post-office-dual-fuel:as-left"]
    circuit = build_circuit(layout, catalogue)
    point = solve(circuit, parse_situation(["tc=emergency-heat"], ["tc.rh_rc=removed"]))
    (found,) = why(circuit, point, "fb:furnace-heat")
    assert found.root is not None
    assert (found.root.sort, found.root.subject) == ("jumper", "element:tc.supply_jumper")


def test_a_chain_over_a_relay_is_followed_to_the_call() -> None:
    parts = {**PARTS, "ir": "isolation-relay"}
    wires = [wire for wire in WIRES if not wire.startswith("out:")]
    layout = sketch(parts, *wires, "coil: fb.Y ir.A1", "fb.C ir.A2", "fb.R ir.COM", "ir.NO ou.Y")
    running, idle = explained(layout, calls="tc=cool-1"), explained(layout)
    assert any("normally open contact" in line.lower() and "coil is pulled in" in line for line in running.words)
    assert any("calls cool 1" in line for line in running.words)
    assert idle.root is not None
    assert (idle.stop, idle.root.sort, idle.root.subject) == ("coil", "call", "element:tc.y")


def test_the_path_that_carries_most_is_told_and_the_others_counted() -> None:
    parts = {"xf": "supply", "ca": "contactor", "st": "joint"}
    layout = Layout.model_validate(
        {
            "parts": {name: {"kind": kind} for name, kind in parts.items()},
            "conductors": {
                "long": {"ends": ["xf.R", "ca.A"], "length_m": 60.0, "size_awg": 20},
                "short": {"ends": ["xf.R", "ca.A"], "length_m": 10.0, "size_awg": 20},
                "back": {"ends": ["ca.B", "xf.C"]},
            },
        }
    )
    found = explained(layout, "ca:compressor")
    assert names(found) == ["xf.secondary", "short", "ca.coil", "back"]
    assert found.others == 1


def test_what_lies_behind_something_unknown_is_unknown() -> None:
    parts = {**PARTS, "mys": "unknown"}
    wires = [wire for wire in WIRES if not wire.startswith(("out:", "back:"))]
    layout = sketch(parts, *wires, "fb.Y mys.1", "mys.2 ou.Y", "mys.3 ou.C")
    assert explained(layout, calls="tc=cool-1").verdict == "unknown"


def test_a_relay_that_interrupts_itself_does_not_settle() -> None:
    layout = sketch({"xf": "supply", "re": "relay"}, "xf.R re.COM", "re.NC re.A", "re.B xf.C")
    found = explained(layout, "element:re.coil")
    assert (found.verdict, found.stop) == ("unsettled", "unsettled")
    assert "in turn" in found.words[0]


def test_a_part_is_explained_by_its_effects() -> None:
    circuit = build_circuit(SOUND, CATALOGUE)
    found = why(circuit, solve(circuit, parse_situation()), "part:ou")
    assert {each.subject for each in found} == {"effect:ou:compressor", "effect:ou:cooling", "effect:ou:outdoor-fan"}


@pytest.mark.parametrize("subject", ["ou:pump", "part:nobody", "element:ou.nothing", "", "conductor:y"])
def test_what_is_not_there_is_refused_with_what_would_be_right(subject: str) -> None:
    circuit = build_circuit(SOUND, CATALOGUE)
    with pytest.raises(Refused) as refused:
        why(circuit, solve(circuit, parse_situation()), subject)
    assert refused.value.code == "unknown-subject"
    assert "ou:compressor" in (refused.value.would_be_right or "")


def test_a_furnace_names_the_limit_that_keeps_it_off() -> None:
    found = explained(subject="fb:furnace-heat", calls="tc=emergency-heat", sets=["fb.limit=open"])
    assert found.root is not None
    assert (found.root.sort, found.root.subject) == ("safety", "element:fb.limit_c")
    assert any("high-temperature limit" in line for line in found.words)


def test_no_sentence_names_an_id_of_a_part_that_has_a_label() -> None:
    layout, catalogue = demo_layouts()["post-office-dual-fuel:as-left"]
    circuit = build_circuit(layout, catalogue)
    point = solve(circuit, parse_situation(["tc=cool-2"]))
    for part in layout.parts:
        for found in why(circuit, point, f"part:{part}"):
            for line in found.words:
                assert not any(f"{each}." in line for each in layout.parts), line
                assert line[0].isupper(), line
                assert line.endswith("."), line


@pytest.mark.parametrize(("units", "cold"), [("us", "23 °F"), ("si", "-5 °C")])
def test_weather_is_told_in_the_unit_of_the_job(units: Units, cold: str) -> None:
    parts = {**PARTS, "ot": "outdoor-temperature-switch"}
    between = sketch(parts, *WIRES[:6], "on: fb.Y ot.A", "out: ot.B ou.Y", WIRES[7])
    circuit = build_circuit(between, CATALOGUE)
    point = solve(circuit, parse_situation(["tc=cool-1"], outdoor=-5))
    runs = " ".join(why(circuit, point, "ou:compressor", units)[0].words)
    assert f"is closed because it is {cold} outdoors" in runs


def test_a_contact_that_a_call_closes_only_in_other_weather_says_so() -> None:
    layout, catalogue = demo_layouts()["post-office-dual-fuel:as-left"]
    circuit = build_circuit(layout, catalogue)

    def said(subject: str, outdoor: float, call: str = "heat-1") -> str:
        point = solve(circuit, parse_situation([f"tc={call}"], outdoor=outdoor))
        return " ".join(why(circuit, point, subject, "us")[0].words)

    assert "calls heat 1, which does not close it while it is -4 °F outdoors" in said("ou:compressor", -20)
    assert "calls heat 1, which does not close it while it is 68 °F outdoors" in said("fb:furnace-heat", 20)
    assert "calls fan, which does not close it; " in said("ou:compressor", 20, "fan")


def test_a_call_that_gets_lost_is_told_before_what_might_bring_the_same_one_day() -> None:
    """W1 could also come from the outdoor unit while it defrosts; but aux heat is called, and its lead is off."""
    layout, catalogue = demo_layouts()["post-office-dual-fuel:as-left"]
    loose = layout.conductors["w9"].model_copy(update={"ends": (None, "tc.W1")})
    layout = layout.model_copy(update={"conductors": {**layout.conductors, "w9": loose}})
    circuit = build_circuit(layout, catalogue)
    point = solve(circuit, parse_situation(["tc=aux-heat"]))
    said = " ".join(why(circuit, point, "fb:furnace-heat")[0].words)
    assert "No supply reaches W1 of Furnace: W1 of Thermostat is hot, and w9 is landed nowhere else." in said
    assert "tempering" not in said
    followed = follow(circuit, point, "fb:furnace-heat")
    assert followed.stop is not None
    assert followed.stop.place == "end:w9.0"
    idle = solve(circuit, parse_situation([]))
    assert "no supply reaches" not in " ".join(why(circuit, idle, "fb:furnace-heat")[0].words).lower()
