"""Short words to play a run, to look things up in it, and to make up scripts by chance."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from random import Random

from app.catalogue.catalogue import Catalogue
from app.circuit.logic import enabled_calls, values_of
from app.circuit.network import Circuit, build_circuit
from app.circuit.situation import Situation
from app.circuit.supplies import supplies_of
from app.circuit.template import template_of
from app.job.model import Layout
from app.sequence.change_text import read_changes
from app.sequence.event import Event
from app.sequence.run import Run, run_sequence
from tests.circuit.bench import CATALOGUE, demo_layouts

DEMOS = demo_layouts()
GAPS_S = (0, 0.5, 1, 7, 30, 61, 200, 299, 300, 301, 900)


@cache
def demo_circuit(name: str) -> Circuit:
    """Return the circuit of a demo layout (``job:layout``), compiled once."""
    layout, catalogue = DEMOS[name]
    return build_circuit(layout, catalogue)


def play(circuit: Circuit, *changes: str, for_s: float = 7200.0, start: Situation | None = None) -> Run:
    """Run through changes said as ``SECONDS:CHANGE``."""
    read = read_changes(changes, circuit.layout, circuit.catalogue, start or Situation())
    return run_sequence(circuit, read, for_s, start)


def play_demo(name: str, *changes: str, for_s: float = 7200.0) -> Run:
    """Run a demo layout through changes."""
    return play(demo_circuit(name), *changes, for_s=for_s)


def play_layout(layout: Layout, *changes: str, catalogue: Catalogue = CATALOGUE, for_s: float = 7200.0) -> Run:
    """Run a layout of simple kinds through changes."""
    return play(build_circuit(layout, catalogue), *changes, for_s=for_s)


def times_of(run: Run, what: str) -> list[tuple[float, str]]:
    """Return when something became what."""
    return [(event.at_s, event.now) for event in run.events if event.what == what]


def told(run: Run, *subjects: str) -> list[tuple[float, str, str]]:
    """Return (when, what, now) of some subjects, in the order of the events."""
    return [(event.at_s, event.what, event.now) for event in run.events if event.what in subjects]


def replayed(run: Run) -> Iterator[tuple[float, dict[str, str]]]:
    """Yield each instant with all that was told until its end; before it, what stands at the beginning."""
    shown = at_the_beginning(run)
    yield -1.0, dict(shown)
    events: list[Event] = list(run.events)
    for at, event in enumerate(events):
        shown[event.what] = event.now
        if at + 1 == len(events) or events[at + 1].at_s != event.at_s:
            yield event.at_s, dict(shown)


def at_the_beginning(run: Run) -> dict[str, str]:
    """Return what every element and effect is before the first change."""
    point = run.moments[0].point
    shown = {f"element:{name}": state.state for name, state in point.elements.items() if state.state}
    return shown | {f"effect:{part}:{effect}": "on" for part, effect in point.effects}


def script(chance: Random, layout: Layout, catalogue: Catalogue, most: int = 8, *, faults: bool = True) -> list[str]:
    """Return changes by chance: calls, switches, mains, supply, weather, cut conductors."""
    controls, switches = _movable(layout, catalogue)
    supplies = list(supplies_of(layout, catalogue))
    lines = []
    at_s = 0.0
    for _ in range(chance.randint(1, most)):
        at_s += chance.choice(GAPS_S)
        sort = chance.random()
        if sort < 0.45 and controls:
            part = chance.choice(sorted(controls))
            lines.append(f"{at_s:g}:{part}={chance.choice([*controls[part], 'idle'])}")
        elif sort < 0.75 and switches:
            name, positions = chance.choice(switches)
            lines.append(f"{at_s:g}:{name}={chance.choice(positions)}")
        elif sort < 0.85 and supplies:
            lines.append(f"{at_s:g}:{chance.choice([*supplies, 'mains'])}={chance.choice(['on', 'off'])}")
        elif sort < 0.9:
            lines.append(f"{at_s:g}:supply={chance.choice([60, 70, 88, 100, 106])}")
        elif sort < 0.95:
            lines.append(f"{at_s:g}:outdoor={chance.choice([-20, -5, 5, 20])}")
        elif layout.conductors and faults:
            lines.append(f"{at_s:g}:fault=conductor-open:{chance.choice(sorted(layout.conductors))}")
    return lines


def _movable(layout: Layout, catalogue: Catalogue) -> tuple[dict[str, list[str]], list[tuple[str, tuple[str, ...]]]]:
    """Return the calls of each control as it is set up, and the switches with their positions (none that sets up)."""
    controls: dict[str, list[str]] = {}
    switches: list[tuple[str, tuple[str, ...]]] = []
    for part in sorted(layout.parts):
        kind = catalogue.kind_of(layout.parts[part])
        if kind is None:
            continue
        calls = enabled_calls(template_of(kind), values_of(kind, layout.parts[part], {}))
        if calls:
            controls[part] = calls
        switches += [
            (f"{part}.{name}", switch.positions) for name, switch in sorted(kind.switches.items()) if name != "mode"
        ]
    return controls, switches
