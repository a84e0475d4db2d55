"""A second way to an operating point, written from the definition alone: dense, naive, one circuit, one big matrix.

It shares nothing with the engine but the documents, the kinds, the walk over a term's tree and the order of a kind's
states.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import networkx as nx
import numpy as np

from app.catalogue.catalogue import Catalogue, figure, settings_of
from app.catalogue.kind import Kind
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import holds
from app.circuit.situation import Situation
from app.circuit.template import template_of
from app.job.model import Layout, UnknownEnd
from tests.circuit.independent_faults import broken


@dataclass
class Answer:
    settled: bool
    why: str | None
    volts: dict[str, complex]
    component: dict[str, int]
    on: dict[str, bool]
    effects: set[tuple[str, str]]
    blown: dict[str, float]


def known_kind(layout: Layout, catalogue: Catalogue, part: str) -> Kind:
    """Return the kind of a part, of which this way needs to know everything."""
    kind = catalogue.kind_of(layout.parts[part])
    if kind is None:
        raise ValueError("the naive way knows nothing of the unknown")
    return kind


def or_false(names: dict[str, Any]) -> Callable[[str], Any]:
    """Return what looks a name up; nothing is true before it was worked out."""
    return lambda name: names.get(name, False)


class Naive:
    """The circuit as plain lists: parts, elements (name, element, node, node), values by ``part.name``."""

    def __init__(self, layout: Layout, catalogue: Catalogue, situation: Situation) -> None:
        self.situation = situation
        self.faults = broken(layout, catalogue, situation.faults)
        self.kinds = {part: known_kind(layout, catalogue, part) for part in sorted(layout.parts)}
        self.values: dict[str, dict[str, Any]] = {}
        joined: nx.Graph[str] = nx.Graph()
        joined.add_nodes_from(f"{part}.{letter}" for part, kind in self.kinds.items() for letter in kind.terminals)
        self.elements: list[tuple[str, str, Any, str, str]] = []
        for part, kind in self.kinds.items():
            self.values[part] = settings_of(kind, layout.parts[part])
            for name, element in kind.elements.items():
                if element.is_ == "ground":
                    joined.add_edge(f"{part}.{element.at}", "earth")
                elif element.is_ == "opaque":
                    raise ValueError("the naive way knows nothing of the unknown")
                else:
                    a, b = (f"{part}.{node}" for node in element.between)
                    joined.add_nodes_from((a, b))
                    if element.is_ == "trace":
                        joined.add_edge(a, b)
                    else:
                        self.elements.append((part, name, element, a, b))
        for name, value in {**situation.set, **self.faults.otherwise}.items():
            part, _, what = name.partition(".")
            self.values[part][what] = value
        self.wires: list[tuple[float, str, str]] = []
        joins = [(ohms, a, b) for a, b, ohms in self.faults.added]
        for wire in self.faults.wires.values():
            if any(isinstance(end, UnknownEnd) for end in wire.ends):
                raise ValueError("the naive way knows nothing of the unknown")
            one, other = wire.ends
            if isinstance(one, str) and isinstance(other, str):
                joins.append((wire.ohms or 0.0, one, other))
        for ohms, a, b in joins:
            if ohms:
                joined.add_nodes_from((a, b))
                self.wires.append((ohms, a, b))
            else:
                joined.add_edge(a, b)
        self.node = {point: at for at, group in enumerate(nx.connected_components(joined)) for point in group}
        self.size = max(self.node.values(), default=-1) + 1

    def f(self, part: str, value: float | str) -> float:
        return figure(value, self.values[part])

    def judged(self) -> list[tuple[str, str, Any, str, str]]:
        return [
            each for each in self.elements
            if each[2].is_ in ("coil", "input") or (each[2].is_ == "load" and each[2].powers_above is not None)
        ]  # fmt: skip

    def work_out(self, state: dict[str, bool]) -> tuple[dict[str, bool], dict[str, dict[str, Any]]]:
        """States in order of dependence, then all contacts: return (closed by ``part.name``, all names by part)."""
        closed: dict[str, bool] = {}
        names: dict[str, dict[str, Any]] = {}
        for part, kind in self.kinds.items():
            now = {**self.values[part], "outdoor_c": self.situation.outdoor_c}
            now.update({name: state[f"{part}.{name}"] for name in kind.elements if f"{part}.{name}" in state})
            power = [n for n, e in kind.elements.items() if e.is_ == "load" and e.powers_above is not None]
            awake = now.get("battery") is True or not power or any(now[name] for name in power)
            asked = self.situation.calls.get(part, ())
            now.update({call: awake and call in asked for call in kind.calls})
            # Where states read each other through timers the order is part of the definition: it is the kind's own.
            trees = {name: parse_term(kind.states[name]) for name, _ in template_of(kind).states}
            for _ in range(len(trees) + 1):
                for name, tree in trees.items():
                    now[name] = holds(tree, or_false(now))
            for name, element in kind.elements.items():
                if element.is_ == "jumper":
                    closed[f"{part}.{name}"] = now[element.by] == "fitted"
                elif element.is_ == "contact" and element.by in kind.switches:
                    closed[f"{part}.{name}"] = now[element.by] == "closed"
                elif element.is_ == "contact":
                    if element.by == "calls":
                        moved = any(
                            now[call] and name in said.closes and holds(parse_term(said.closes[name]), now.__getitem__)
                            for call, said in kind.calls.items()
                            if holds(parse_term(said.when), or_false(now))
                        )
                    else:
                        moved = bool(now[element.by])
                    closed[f"{part}.{name}"] = moved != (element.rest == "closed")
            closed.update({n: on for n, on in self.faults.forced.items() if n in closed})
            names[part] = now
        return closed, names

    def siemens(self, part: str, name: str, element: Any, state: dict[str, bool], closed: dict[str, bool]) -> complex:
        full = f"{part}.{name}"
        if full in self.faults.dead:
            return 0j
        match element.is_:
            case "source":
                mains = str(self.values[part].get(element.mains, element.mains))
                live = self.situation.mains.get(mains, "on") == "on" and self.faults.forced.get(full, True)
                share = max(self.f(part, element.regulation), 0.01)
                return complex(live * self.f(part, element.va) / self.f(part, element.volts) ** 2 / share)
            case "jumper":
                return complex(1000.0 * closed[full])
            case "contact" if closed[full]:
                return 50 + 0j
            case "contact":
                return complex(1 / self.f(part, element.off_leak_ohms) if element.off_leak_ohms is not None else 0)
            case "fuse":
                return complex(state[full] / 0.03)
            case "input":
                return complex(1 / self.f(part, element.ohms))
            case "load":
                va, factor = self.f(part, element.va), self.f(part, element.power_factor)
            case "coil" if state[full]:
                va, factor = self.f(part, element.va_sealed), self.f(part, element.power_factor_sealed)
            case _:
                va, factor = self.f(part, element.va_inrush), self.f(part, element.power_factor_inrush)
        return 1 / cmath.rect(self.f(part, element.volts) ** 2 / va, math.acos(factor)) if va else 0j

    def linear(self, state: dict[str, bool], closed: dict[str, bool]) -> tuple[Any, dict[int, int], set[int]]:
        """Return (volts by node, component by node, components with a source)."""
        matrix = np.zeros((self.size, self.size), dtype=complex)
        amps = np.zeros(self.size, dtype=complex)
        graph = nx.empty_graph(self.size)
        sources = []
        branches = [(complex(1 / ohms), a, b) for ohms, a, b in self.wires]
        for part, name, element, a, b in self.elements:
            y = self.siemens(part, name, element, state, closed)
            branches.append((y, a, b))
            if element.is_ == "source" and y:
                emf = self.open_volts(part, element)
                phase = self.values[part].get(element.phase_deg, element.phase_deg)
                emf *= (-1 if phase == 180 else 1) * self.situation.supply_percent / 100
                amps[self.node[a]] += emf * y
                amps[self.node[b]] -= emf * y
                sources.append((-self.f(part, element.va), f"{part}.{name}", self.node[b]))
        for y, a, b in branches:
            i, j = self.node[a], self.node[b]
            if y and i != j:
                matrix[i, i] += y
                matrix[j, j] += y
                matrix[i, j] -= y
                matrix[j, i] -= y
                graph.add_edge(i, j)
        component = {n: at for at, group in enumerate(nx.connected_components(graph)) for n in group}
        reference = {at: node for node, at in reversed(component.items())}
        for _, _, node in sorted(sources, reverse=True):
            reference[component[node]] = node
        if "earth" in self.node:
            reference[component[self.node["earth"]]] = self.node["earth"]
        for node in reference.values():
            matrix[node, node] += 1
        volts = np.linalg.solve(matrix, amps) if self.size else amps
        return volts, component, {component[node] for _, _, node in sources}

    def open_volts(self, part: str, source: Any) -> float:
        volts = self.f(part, source.volts) * (1 + max(self.f(part, source.regulation), 0.01))
        if source.tap:
            volts *= self.f(part, source.line_volts) / source.taps[str(self.values[part][source.tap])]
        return volts

    def across(self, volts: Any, component: dict[int, int], a: str, b: str) -> float:
        i, j = self.node[a], self.node[b]
        return abs(volts[i] - volts[j]) if component[i] == component[j] else 0.0

    def slack(self) -> float:
        volts = [self.open_volts(p, e) for p, _, e, _, _ in self.elements if e.is_ == "source"]
        return 1e-9 * max(volts, default=0)

    def limits(self, part: str, element: Any) -> tuple[float, float]:
        """Return (on from, off below) in volts."""
        if element.is_ == "coil":
            rated = self.f(part, element.volts)
            return self.f(part, element.pull_in) * rated, self.f(part, element.drop_out) * rated
        if element.is_ == "input":
            return self.f(part, element.threshold_volts), 0.8 * self.f(part, element.threshold_volts)
        return self.f(part, element.powers_above), self.f(part, element.powers_above)

    def one_pass(self, state: dict[str, bool]) -> tuple[dict[str, bool], dict[str, float], Any]:
        """Return (state after, amps of whole fuses, linear answer)."""
        closed, _ = self.work_out(state)
        linear = self.linear(state, closed)
        volts, component, _ = linear
        after = dict(state)
        for part, name, element, a, b in self.judged():
            full = f"{part}.{name}"
            on_from, off_below = self.limits(part, element)
            limit = (off_below if state[full] else on_from) - self.slack()
            after[full] = full not in self.faults.dead and self.across(volts, component, a, b) >= limit
        amps = {
            f"{part}.{name}": abs(volts[self.node[a]] - volts[self.node[b]]) / 0.03
            for part, name, element, a, b in self.elements
            if element.is_ == "fuse" and state[f"{part}.{name}"]
        }
        return after, amps, linear


def rest(naive: Naive) -> dict[str, bool]:
    state = {f"{part}.{name}": False for part, name, *_ in naive.judged()}
    fuses = [f"{part}.{name}" for part, name, e, *_ in naive.elements if e.is_ == "fuse"]
    return {**state, **{fuse: naive.faults.forced.get(fuse, True) for fuse in fuses}}


def settle_naively(layout: Layout, catalogue: Catalogue, situation: Situation) -> Answer:
    naive = Naive(layout, catalogue, situation)
    state, why, blown = run(naive, rest(naive))
    if why == "cycle":
        coils = {f"{part}.{name}" for part, name, element, *_ in naive.judged() if element.is_ == "coil"}
        why = "race" if any(one_first(naive, state, coil) for coil in sorted(coils)) else "chatter"
    _, _, (volts, component, live) = naive.one_pass(state)
    closed, names = naive.work_out(state)
    terminals = [f"{part}.{letter}" for part, kind in naive.kinds.items() for letter in kind.terminals]
    return Answer(
        settled=why is None,
        why=why,
        volts={t: volts[naive.node[t]] for t in terminals if component[naive.node[t]] in live},
        component={t: component[naive.node[t]] for t in terminals},
        on={**state, **closed},
        effects={
            (part, effect)
            for part, kind in naive.kinds.items()
            for effect, text in kind.effects.items()
            if holds(parse_term(text), names[part].__getitem__)
        },
        blown=blown,
    )


def run(naive: Naive, state: dict[str, bool]) -> tuple[dict[str, bool], str | None, dict[str, float]]:
    """Return (last state, None or ``cycle`` or ``undecided``, amps of fuses before they opened)."""
    ratings = {f"{p}.{n}": naive.f(p, e.amps) for p, n, e, *_ in naive.elements if e.is_ == "fuse"}
    seen: list[tuple[dict[str, bool], dict[str, float]]] = []
    blown: dict[str, float] = {}
    for _ in range(4 * len(state) + 8):
        after, amps, _ = naive.one_pass(state)
        seen.append((state, amps))
        states = [old for old, _ in seen]
        if after in states:
            cycle = seen[states.index(after) :]
            most = {fuse: max(amps.get(fuse, 0) for _, amps in cycle) for fuse in ratings if after[fuse]}
            over = {fuse: a / ratings[fuse] for fuse, a in most.items() if a > 1.35 * ratings[fuse]}
            if not over:
                return after, None if len(cycle) == 1 else "cycle", blown
            for fuse, ratio in over.items():
                if ratio >= max(over.values()) * (1 - 1e-9):
                    after = {**after, fuse: False}
                    blown[fuse] = most[fuse]
        state = after
    return state, "undecided", blown


def one_first(naive: Naive, state: dict[str, bool], coil: str) -> bool:
    """Let one coil move first from the first state of the cycle in which it is about to; tell whether it settles."""
    first = state
    while True:
        after, _, _ = naive.one_pass(state)
        if after[coil] != state[coil]:
            return run(naive, {**state, coil: after[coil]})[1] is None
        state = after
        if state == first:
            return False
