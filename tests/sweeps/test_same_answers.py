"""Changes that must change nothing, on layouts by chance: findings, roles, effects, readings between pairs."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import pairwise
from random import Random
from typing import Any

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.checks.check import check_layout
from app.circuit.meter import read
from app.circuit.operating_point import OperatingPoint
from app.explain.roles import roles_of
from app.job.model import Layout
from app.job.names import part_of
from app.job.sketch import sketch_job
from tests.circuit.chance import layout_by_chance
from tests.circuit.test_metamorphic import CHANGES
from tests.circuit.to_the_last_digits import same

CATALOGUE = builtin_catalogue()
ABOUT_COLOUR = frozenset({"insulation-misleads"})
ABOUT_ONE_CONDUCTOR = frozenset({"conductor-long-or-thin", "insulation-misleads", "letter-differs"})
"""What compares the two ends of one conductor, or its length, cannot say the same of two."""
ONE_OF_SEVERAL_WAYS = frozenset({"hot-to-common-short", "safety-bypassed", "sources-joined"})
"""Where several ways lead from one to the other, one of the shortest is named: which of them, ids and splices decide.
Then the finding itself must stay, and what else it names, but not the conductors of the way."""
STRANGE = ("aa-strange", "zz-strange", "w-strange")


@dataclass(frozen=True)
class Told:
    """What is said of a layout: findings by rule with severity and subjects, roles by conductor, operating points."""

    findings: frozenset[tuple[str, str, frozenset[str]]]
    roles: Mapping[str, tuple[str, str]]
    points: tuple[OperatingPoint, ...]


def told(layout: Layout, named: Callable[[str], str]) -> Told:
    """Return what is said of a layout, each name turned into what it was called before the change."""
    report = check_layout(sketch_job(layout), "as-left", CATALOGUE)
    findings = frozenset(
        (finding.rule, finding.severity, frozenset(each for subject in finding.subjects if (each := named(subject))))
        for finding in report.findings
    )
    roles = roles_of(layout, CATALOGUE, report.circuit, report.points)
    by_name = {
        named(f"conductor:{name}"): (role.name, role.mode) for name, role in roles.items() if named(f"conductor:{name}")
    }
    return Told(findings, by_name, report.points)


def back_from(change: str, layout: Layout, new: Callable[[str], str]) -> Callable[[str], str]:
    """Return what turns a subject of the changed layout into the one before, empty for what the change added."""
    names = [*layout.parts, *(f"conductor-{name}" for name in layout.conductors)]
    parts = {new(name): name for name in names[: len(layout.parts)]}

    def back(subject: str) -> str:
        sort, _, name = subject.partition(":")
        if change == "other ids":
            if sort == "conductor":
                return f"conductor:{name[2:][::-1]}"
            part, dot, rest = name.partition(".")
            return f"{sort}:{parts.get(part, part)}{dot}{rest}"
        if part_of(name) in STRANGE or name.startswith("sp-"):
            return ""
        if change == "conductors split by splices" and sort == "conductor":
            return f"conductor:{name.removesuffix('-a').removesuffix('-b')}"
        return subject

    return back


def without(findings: frozenset[tuple[str, str, frozenset[str]]], rules: frozenset[str]) -> set[Any]:
    """Return the findings of all other rules, those about nothing but what was added left out."""
    return {
        (rule, severity, frozenset(_lasting(rule, subjects)))
        for rule, severity, subjects in findings
        if rule not in rules and subjects
    }


def _lasting(rule: str, subjects: frozenset[str]) -> set[str]:
    return {each for each in subjects if rule not in ONE_OF_SEVERAL_WAYS or not each.startswith("conductor:")}


def readings(points: tuple[OperatingPoint, ...], terminals: list[str]) -> list[Any]:
    found = []
    for point in points:
        for a, b in pairwise(terminals):
            reading = read(point, a, b)
            found.append(
                reading.volts if reading.volts is not None else ("floating" if reading.floating else "unknown")
            )
    return found


def assert_nothing_changes(layout: Layout, change: str) -> None:
    other, new = CHANGES[change](layout)
    back = back_from(change, layout, new)
    before, after = told(layout, str), told(other, back)
    # Of two cores of a cable that are alike in all but their names, the first by name is told.
    about = (ABOUT_COLOUR if "colour" in change or "ids" in change else frozenset()) | (
        ABOUT_ONE_CONDUCTOR if "split" in change else frozenset()
    )
    assert without(before.findings, about) == without(after.findings, about)
    assert before.roles == after.roles
    by_situation = {_key(point, str): point for point in after.points}
    matching = [by_situation[_key(point, new)] for point in before.points]
    for was, now in zip(before.points, matching, strict=True):
        ours = {(part, effect) for part, effect in now.effects if part not in STRANGE}
        assert {(new(part), effect) for part, effect in was.effects} == ours
    terminals = sorted(before.points[0].terminals)
    first = readings(before.points, terminals)
    second = readings(tuple(matching), [new(terminal) for terminal in terminals])
    assert all(same(a, b) for a, b in zip(first, second, strict=True))


def _key(point: OperatingPoint, new: Callable[[str], str]) -> str:
    """Return what tells one situation of a layout from another."""
    asked = point.situation
    calls = sorted((new(part), names) for part, names in asked.calls.items())
    positions = sorted((new(name), value) for name, value in asked.set.items())
    return str((calls, positions, asked.supply_percent, asked.outdoor_c))


def layouts(seed: str, count: int) -> list[Layout]:
    chance = Random(seed)
    return [layout_by_chance(chance, CATALOGUE, fewest=3, most=8) for _ in range(count)]


@pytest.mark.parametrize("change", CHANGES)
def test_a_change_that_must_change_nothing_changes_nothing(change: str) -> None:
    for layout in layouts(f"{change}: a few", 12):
        assert_nothing_changes(layout, change)


@pytest.mark.slow
@pytest.mark.parametrize("change", CHANGES)
def test_on_many_layouts_it_changes_nothing_either(change: str) -> None:
    for layout in layouts(f"{change}: many", 400):
        assert_nothing_changes(layout, change)
