"""A small bench for the tests of the circuit: simple kinds of our own, demo layouts, and short words to solve them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.catalogue import Catalogue
from app.catalogue.check_kind import check_kind
from app.catalogue.kind import Kind
from app.catalogue.opening import open_job
from app.circuit.network import build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Layout
from app.job.sketch import sketch

DEMO_JOBS = Path(__file__).parents[2] / "demo_jobs"


def terminals(**uses: str) -> dict[str, Any]:
    return {letter: {"function": function, "use": function} for letter, function in uses.items()}


SIMPLE: dict[str, dict[str, Any]] = {
    "supply": {
        "title": "Supply",
        "terminals": terminals(R="supply", C="common"),
        "settings": {
            "va": {"default": 40, "least": 1, "most": 200},
            "volts": {"default": 24.0, "least": 1, "most": 60},
            "regulation": {"default": 0.1, "least": 0.01, "most": 0.5},
            "phase_deg": {"default": 0, "choices": [0, 180, "unknown"]},
        },
        "elements": {
            "secondary": {
                "is": "source",
                "between": ["R", "C"],
                "volts": "volts",
                "va": "va",
                "regulation": "regulation",
                "phase_deg": "phase_deg",
                "mains": "main",
            }
        },
    },
    "fused-supply": {
        "title": "Supply with a fuse",
        "terminals": terminals(R="supply", C="common"),
        "settings": {"fuse_amps": {"default": 3.0, "least": 0.001, "most": 10}},
        "elements": {
            "secondary": {"is": "source", "between": ["hot", "C"], "va": 40},
            "fuse": {"is": "fuse", "between": ["hot", "R"], "amps": "fuse_amps"},
        },
    },
    "relay": {
        "title": "Relay with a changeover contact",
        "terminals": terminals(A="call", B="common", COM="dry", NO="dry", NC="dry"),
        "settings": {"va": {"default": 6.0, "least": 0.1, "most": 40}},
        "elements": {
            "coil": {"is": "coil", "between": ["A", "B"], "va_sealed": "va", "va_inrush": "va"},
            "no": {"is": "contact", "between": ["COM", "NO"], "by": "coil"},
            "nc": {"is": "contact", "between": ["COM", "NC"], "by": "coil", "rest": "closed"},
        },
        "effects": {"pump": "coil"},
    },
    "four-pole-relay": {
        "title": "Relay with four contacts",
        "terminals": terminals(A="call", B="common", **{f"{n}{side}": "dry" for n in range(1, 5) for side in "AB"}),
        "elements": {
            "coil": {"is": "coil", "between": ["A", "B"], "va_sealed": 6, "va_inrush": 9},
            "c1": {"is": "contact", "between": ["1A", "1B"], "by": "coil"},
            "c2": {"is": "contact", "between": ["2A", "2B"], "by": "coil"},
            "c3": {"is": "contact", "between": ["3A", "3B"], "by": "coil", "rest": "closed"},
            "c4": {"is": "contact", "between": ["4A", "4B"], "by": "coil", "rest": "closed"},
        },
        "effects": {"pump": "coil"},
    },
    "contactor": {
        "title": "Contactor with inrush",
        "terminals": terminals(A="call", B="common"),
        "settings": {
            "va_sealed": {"default": 7.0, "least": 0.1, "most": 40},
            "va_inrush": {"default": 30.0, "least": 0.1, "most": 80},
            "power_factor": {"default": 0.7, "least": 0.1, "most": 1},
        },
        "elements": {
            "coil": {
                "is": "coil",
                "between": ["A", "B"],
                "va_sealed": "va_sealed",
                "va_inrush": "va_inrush",
                "power_factor_inrush": "power_factor",
            }
        },
        "effects": {"compressor": "coil"},
    },
    "lamp": {
        "title": "Load",
        "terminals": terminals(A="call", B="common"),
        "settings": {"va": {"default": 10.0, "least": 0.1, "most": 100}},
        "elements": {"load": {"is": "load", "between": ["A", "B"], "va": "va"}},
    },
    "board": {
        "title": "Board with an input that moves a contact, and a hold through a timer",
        "terminals": terminals(R="supply", C="common", W="call", OUT="call"),
        "settings": {"threshold": {"default": 12.0, "least": 1, "most": 24}},
        "switches": {"limit": {"rest": "closed"}},
        "elements": {
            "call": {"is": "input", "between": ["W", "C"], "ohms": 3000, "threshold_volts": "threshold"},
            "out": {"is": "contact", "between": ["R", "OUT"], "by": "run", "off_leak_ohms": 26500},
        },
        "states": {"run": "after(wanted, 30 s) and limit", "wanted": "call or hold(call, 90 s)"},
        "effects": {"furnace-heat": "run", "indoor-fan": "wanted or not limit"},
    },
    "control": {
        "title": "Control with contacts",
        "terminals": terminals(R="supply", Y="call", W="call"),
        "switches": {"mode": {"positions": ["auto", "off"], "rest": "auto"}},
        "elements": {
            "y": {"is": "contact", "between": ["R", "Y"], "by": "calls"},
            "w": {"is": "contact", "between": ["R", "W"], "by": "calls"},
        },
        "calls": {
            "cool-1": {"when": "mode == 'auto'", "closes": {"y": "true"}},
            "heat-1": {"closes": {"w": "true"}},
        },
    },
    "electronic-control": {
        "title": "Control that must be awake",
        "terminals": terminals(R="supply", C="common", Y="call"),
        "settings": {"battery": {"default": False, "choices": [True, False]}},
        "elements": {
            "self": {"is": "load", "between": ["R", "C"], "va": 2, "powers_above": 16},
            "y": {"is": "contact", "between": ["R", "Y"], "by": "calls"},
        },
        "calls": {"cool-1": {"closes": {"y": "true"}}},
    },
    "hand-switch": {
        "title": "Switch",
        "terminals": terminals(A="dry", B="dry"),
        "switches": {"hand": {"rest": "closed"}},
        "elements": {"contact": {"is": "contact", "between": ["A", "B"], "by": "hand"}},
    },
    "jumper-strip": {
        "title": "Strip with a jumper",
        "terminals": terminals(A="through", B="through"),
        "jumpers": {"bar": {"rest": "removed"}},
        "elements": {"bar_c": {"is": "jumper", "between": ["A", "B"], "by": "bar"}},
    },
    "joint": {
        "title": "Joint of four",
        "terminals": terminals(A="through", B="through", D="through"),
        "elements": {"ab": {"is": "trace", "between": ["A", "B"]}, "bd": {"is": "trace", "between": ["B", "D"]}},
    },
    "chassis": {
        "title": "Chassis",
        "terminals": terminals(G="chassis"),
        "elements": {"earth": {"is": "ground", "at": "G"}},
    },
    "bus-box": {
        "title": "Box with a data bus",
        "terminals": terminals(D1="bus", D2="bus"),
        "elements": {"bus": {"is": "opaque", "nodes": ["D1", "D2"], "why": "data"}},
    },
    "resistor": {
        "title": "Resistor",
        "terminals": terminals(A="through", B="through"),
        "settings": {"ohms": {"default": 100.0, "least": 0.1, "most": 1e6}},
        "elements": {"r": {"is": "input", "between": ["A", "B"], "ohms": "ohms", "threshold_volts": 600}},
    },
}


def simple_catalogue() -> Catalogue:
    kinds = {name: Kind.model_validate({"summary": "", **fields}) for name, fields in SIMPLE.items()}
    for name, kind in kinds.items():
        check_kind(name, kind)
    return builtin_catalogue().with_kinds(kinds)


CATALOGUE = simple_catalogue()


def demo_layouts() -> dict[str, tuple[Layout, Catalogue]]:
    """Return every layout of every demo job, by ``job:layout``; there must be some."""
    found = {}
    for path in sorted(DEMO_JOBS.glob("*.json")):
        opened = open_job(path.read_bytes())
        for name, layout in opened.job.layouts.items():
            found[f"{path.stem}:{name}"] = (layout, opened.catalogue)
    assert found, f"no demo job in {DEMO_JOBS}"
    return found


def solved(layout: Layout, situation: Situation | None = None, catalogue: Catalogue = CATALOGUE) -> OperatingPoint:
    return solve(build_circuit(layout, catalogue), situation or Situation())


def asking(**calls: str) -> Situation:
    return Situation.model_validate({"calls": {part: tuple(names.split()) for part, names in calls.items()}})


def faulty(*faults: dict[str, Any], **fields: Any) -> Situation:
    return Situation.model_validate({"faults": faults, **fields})


__all__ = ["CATALOGUE", "asking", "demo_layouts", "faulty", "sketch", "solved"]
