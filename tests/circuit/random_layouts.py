"""Random small layouts of simple kinds, with a situation."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from app.circuit.situation import Situation
from app.job.model import Conductor, Layout, Part
from tests.circuit.bench import CATALOGUE

KINDS = (
    "relay",
    "relay",
    "contactor",
    "lamp",
    "board",
    "control",
    "electronic-control",
    "hand-switch",
    "jumper-strip",
    "joint",
    "supply",
    "fused-supply",
    "chassis",
)


@st.composite
def layouts(draw: st.DrawFn, most_parts: int = 7) -> Layout:
    kinds = ["supply" if draw(st.booleans()) else "fused-supply"]
    kinds += draw(st.lists(st.sampled_from(KINDS), min_size=2, max_size=most_parts - 1))
    parts = {f"p{at}": Part(kind=kind, settings=draw(_settings(kind))) for at, kind in enumerate(kinds)}
    terminals = [f"{part}.{letter}" for part in parts for letter in CATALOGUE.kinds[parts[part].kind].terminals]
    # Wires from the two sides of the supply make circuits that do something far more often than chance alone.
    ends = st.sampled_from(terminals)
    from_supply = st.tuples(st.sampled_from(["p0.R", "p0.C"]), ends)
    wires = draw(st.lists(st.one_of(from_supply, st.tuples(ends, ends)), min_size=3, max_size=14))
    lengths = st.sampled_from([None, None, 0.5, 12.0, 60.0])
    conductors = {
        f"w{at}": Conductor(ends=wire, length_m=draw(lengths)) for at, wire in enumerate(wires) if wire[0] != wire[1]
    }
    return Layout(parts=parts, conductors=conductors)


@st.composite
def layouts_and_situations(draw: st.DrawFn, most_parts: int = 7) -> tuple[Layout, Situation]:
    layout = draw(layouts(most_parts))
    calls: dict[str, Any] = {}
    positions: dict[str, Any] = {}
    for name, part in layout.parts.items():
        kind = CATALOGUE.kinds[part.kind]
        if kind.calls:
            calls[name] = tuple(draw(st.sets(st.sampled_from(sorted(kind.calls)))))
        for switch, declared in kind.switches.items():
            if draw(st.integers(0, 3)) == 0:
                positions[f"{name}.{switch}"] = draw(st.sampled_from(declared.positions))
        for jumper in kind.jumpers:
            positions[f"{name}.{jumper}"] = draw(st.sampled_from(["fitted", "removed"]))
    supply = draw(st.sampled_from([100.0, 100.0, 88.0, 106.0, 60.0]))
    mains = {"main": "off"} if draw(st.integers(0, 19)) == 0 else {}
    return layout, Situation(calls=calls, set=positions, supply_percent=supply, mains=mains)


@st.composite
def relay_ladders(draw: st.DrawFn) -> tuple[Layout, Situation]:
    """Relays whose coils are fed through each other's contacts: they settle, race and chatter in every way."""
    relays = [f"k{at}" for at in range(draw(st.integers(1, 4)))]
    parts = {"p0": Part(kind="fused-supply", settings={"fuse_amps": draw(st.sampled_from([0.5, 1.0, 3.0]))})}
    parts.update({relay: Part(kind="four-pole-relay") for relay in relays})
    contacts = draw(st.permutations([(relay, n) for relay in relays for n in range(1, 5)]))
    ends: list[tuple[str, str]] = []
    for relay in relays:
        ends.append((f"{relay}.B", "p0.C"))
        for _ in range(draw(st.integers(0, 2))):
            at = "p0.R"
            for _ in range(min(draw(st.integers(0, 2)), len(contacts))):
                through, n = contacts.pop()
                ends.append((at, f"{through}.{n}A"))
                at = f"{through}.{n}B"
            ends.append((at, f"{relay}.A"))
    conductors = {f"w{at}": Conductor(ends=pair) for at, pair in enumerate(ends)}
    return Layout(parts=parts, conductors=conductors), Situation(supply_percent=draw(st.sampled_from([100.0, 85.0])))


def _settings(kind: str) -> st.SearchStrategy[dict[str, Any]]:
    choices: dict[str, Any] = {
        "supply": {"va": st.sampled_from([20, 40, 75]), "phase_deg": st.sampled_from([0, 0, 180])},
        "fused-supply": {"fuse_amps": st.sampled_from([0.2, 1.0, 3.0])},
        "relay": {"va": st.sampled_from([3.0, 6.0, 25.0])},
        "contactor": {"va_inrush": st.sampled_from([30.0, 60.0, 80.0])},
        "board": {"threshold": st.sampled_from([12.0, 20.0])},
        "lamp": {"va": st.sampled_from([5.0, 20.0, 60.0])},
        "electronic-control": {"battery": st.booleans()},
    }
    return st.fixed_dictionaries(choices.get(kind, {}))
