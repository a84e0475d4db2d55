"""Changes that must change nothing: readings between pairs and effects stay what they were."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Any

import pytest

from app.catalogue.catalogue import Catalogue
from app.circuit.meter import read
from app.circuit.network import build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all
from app.job.model import Cable, Conductor, Layout, Part
from tests.backwards import backwards
from tests.circuit.bench import CATALOGUE, demo_layouts
from tests.circuit.to_the_last_digits import same

DEMOS = {name: case for name, case in demo_layouts().items() if len(case[0].parts) < 20}
SPLICE_LETTER = next(iter(CATALOGUE.kinds["splice"].terminals))
Change = Callable[[Layout], tuple[Layout, Callable[[str], str]]]


def with_fields(layout: Layout, **fields: Any) -> Layout:
    return layout.model_copy(update=fields)


def same_name(name: str) -> str:
    return name


def reversed_order(layout: Layout) -> tuple[Layout, Callable[[str], str]]:
    turned = with_fields(layout, parts=backwards(layout.parts), conductors=backwards(layout.conductors))
    return turned, same_name


def other_colours(layout: Layout) -> tuple[Layout, Callable[[str], str]]:
    wires = {name: wire.model_copy(update={"insulation": "RD"}) for name, wire in layout.conductors.items()}
    return with_fields(layout, conductors=wires), same_name


def ends_turned(layout: Layout) -> tuple[Layout, Callable[[str], str]]:
    wires = {name: wire.model_copy(update={"ends": wire.ends[::-1]}) for name, wire in layout.conductors.items()}
    return with_fields(layout, conductors=wires), same_name


def other_ids(layout: Layout) -> tuple[Layout, Callable[[str], str]]:
    def other(name: str) -> str:
        part, _, letter = name.partition(".")
        # The letters turned around sort the parts in another order.
        new = "z" + part[::-1].replace("_", "-")
        return f"{new}.{letter}" if letter else new

    wires = {
        f"x-{name[::-1]}": wire.model_copy(
            update={"ends": tuple(other(end) if isinstance(end, str) else end for end in wire.ends)}
        )
        for name, wire in layout.conductors.items()
    }
    return with_fields(
        layout, parts={other(name): part for name, part in layout.parts.items()}, conductors=wires
    ), other


def a_stranger(layout: Layout) -> tuple[Layout, Callable[[str], str]]:
    # Parts that share air are not unrelated: a fan in it is one that a heater may need.
    parts: Mapping[str, Part] = {
        "aa-strange": Part(kind="control-transformer", air="strange"),
        **layout.parts,
        "zz-strange": Part(kind="fan-relay", air="strange"),
    }
    letters = {"w-strange": Conductor(ends=("aa-strange.R", "zz-strange.G"), length_m=3.0)}
    return with_fields(layout, parts=parts, conductors={**layout.conductors, **letters}), same_name


def split_by_splices(layout: Layout) -> tuple[Layout, Callable[[str], str]]:
    parts, wires = dict(layout.parts), {}
    for name, wire in layout.conductors.items():
        if len(wire.landed()) < 2:
            wires[name] = wire
            continue
        length_m, size_awg = wire.length_and_size(layout.cables) or (None, 18)
        part = length_m if length_m is None else length_m / 3
        rest = length_m if length_m is None else length_m * 2 / 3
        parts[f"sp-{name}"] = Part(kind="splice")
        splice = f"sp-{name}.{SPLICE_LETTER}"
        halves = ("a", (wire.ends[0], splice), part), ("b", (splice, wire.ends[1]), rest)
        for half, ends, its_length_m in halves:
            wires[f"{name}-{half}"] = Conductor(
                ends=ends, length_m=its_length_m, size_awg=size_awg, insulation=wire.insulation
            )
    return with_fields(layout, parts=parts, conductors=wires, cables=dict[str, Cable]()), same_name


CHANGES: dict[str, Change] = {
    "keys in another order": reversed_order,
    "insulation of another colour": other_colours,
    "ends turned around": ends_turned,
    "other ids": other_ids,
    "an unrelated part": a_stranger,
    "conductors split by splices": split_by_splices,
}


def readings(point: OperatingPoint, terminals: list[str]) -> list[Any]:
    found = []
    for a, b in pairwise(terminals):
        reading = read(point, a, b)
        found.append(reading.volts if reading.volts is not None else ("floating" if reading.floating else "unknown"))
    return found


@pytest.mark.parametrize("change", CHANGES)
@pytest.mark.parametrize("name", DEMOS)
def test_readings_and_effects_stay(name: str, change: str) -> None:
    layout, catalogue = DEMOS[name]
    other, new = CHANGES[change](layout)
    points = solved_for(layout, catalogue, situations_of(layout, catalogue))
    asked = [Situation(calls={new(part): calls for part, calls in point.situation.calls.items()}) for point in points]
    again = solved_for(other, catalogue, asked)
    terminals = sorted(points[0].terminals)
    for before, after in zip(points, again, strict=True):
        assert {(new(part), effect) for part, effect in before.effects} == set(after.effects)
        first, second = readings(before, terminals), readings(after, [new(terminal) for terminal in terminals])
        wrong = [pair for pair, a, b in zip(pairwise(terminals), first, second, strict=True) if not same(a, b)]
        assert not wrong


def solved_for(layout: Layout, catalogue: Catalogue, situations: list[Situation]) -> list[OperatingPoint]:
    return solve_all(build_circuit(layout, catalogue), situations)
