"""Layouts by chance: any kinds, any settings, any wires. Nobody wires like that; nothing may break on it."""

from __future__ import annotations

from random import Random

from app.catalogue.catalogue import Catalogue
from app.job.model import Layout
from app.job.sketch import sketch


def layout_by_chance(chance: Random, catalogue: Catalogue) -> Layout:
    """Return a layout of a few parts, one of them a transformer and one a thermostat, and up to 18 wires."""
    thermostats = [name for name in catalogue if catalogue.kind(name).calls]
    kinds = {f"p{place}": chance.choice([*catalogue, "unknown"]) for place in range(chance.randint(2, 6))}
    kinds |= {"xf": "control-transformer", "tc": chance.choice(thermostats)}
    parts = {
        name: {"kind": kind, "place": chance.choice(["here", "there"]), "settings": _settings(chance, catalogue, kind)}
        for name, kind in kinds.items()
    }
    terminals = [f"{name}.{letter}" for name, kind in kinds.items() for letter in _letters(catalogue, kind)]
    low_volts = [terminal for terminal in terminals if not terminal.endswith((".L1", ".L2"))]
    return sketch(parts, *(_wire(chance, terminals, low_volts) for _ in range(chance.randint(1, 18))))


def _settings(chance: Random, catalogue: Catalogue, kind: str) -> dict[str, object]:
    if kind == "unknown":
        return {}
    found: dict[str, object] = {
        name: chance.choice(setting.choices)
        for name, setting in catalogue.kind(kind).settings.items()
        if setting.choices and chance.random() < 0.3
    }
    return found | {name: chance.choice(["fitted", "removed"]) for name in catalogue.kind(kind).jumpers}


def _letters(catalogue: Catalogue, kind: str) -> list[str]:
    return ["1", "2"] if kind == "unknown" else list(catalogue.kind(kind).terminals)


def _wire(chance: Random, terminals: list[str], low_volts: list[str]) -> str:
    start, goal = (chance.choice(low_volts if chance.random() < 0.95 else terminals) for _ in range(2))
    other = chance.random()
    return f"{start} {'-' if other < 0.05 else '?' if other < 0.08 else goal}"
