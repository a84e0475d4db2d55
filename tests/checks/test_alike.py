"""What must not matter does not: names, colours, order, and a part that nobody wired."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

import pytest

from app.checks.finding import Finding
from app.checks.rule import EXAMPLE_LAYOUT, Bad, Good, Rule
from app.job.reading import document_of, job_from_document
from tests.checks.asking import asked_all, every_example

EVERY = [pytest.param(rule, example, id=f"{rule.name}/{example.name}") for rule, example in every_example()]
SEEN_FROM_OUTSIDE = ("insulation-misleads", "letter-differs", "spare-unlabelled")
"""The rules about what people see: colours and notes, and letters where no note explains them."""
Change = Callable[[Mapping[str, Any]], Mapping[str, Any]]

COLOURS = ("RD", "BU", "WH/BU", "GNYE", "BK")


def as_told(finding: Finding, rename: Callable[[str], str] = lambda name: name) -> tuple[str, str, tuple[str, ...]]:
    """Return a finding without its words: rule, severity, and its subjects as a set in order."""
    return finding.rule, finding.severity, tuple(sorted(_renamed(subject, rename) for subject in finding.subjects))


def _renamed(subject: str, rename: Callable[[str], str]) -> str:
    sort, _, name = subject.partition(":")
    part, dot, inner = name.partition(".")
    return f"{sort}:{rename(part)}{dot}{inner}"


def renamed(layout: Mapping[str, Any], rename: Callable[[str], str]) -> dict[str, Any]:
    """Return a layout's document with every id renamed."""

    def end(found: Any) -> Any:
        if not isinstance(found, str):
            return found
        part, _, letter = found.partition(".")
        return f"{rename(part)}.{letter}"

    conductors = layout["conductors"].items()
    return {
        **layout,
        "parts": {rename(name): part for name, part in layout["parts"].items()},
        "conductors": {
            rename(name): {**conductor, "ends": [end(each) for each in conductor["ends"]]}
            for name, conductor in conductors
        },
    }


def backwards(name: str) -> str:
    """Turn the order of ids round: what sorted first sorts last."""
    return "z" + "".join(_TURNED.get(letter, letter) for letter in name)


_TURNED = dict(zip("abcdefghijklmnopqrstuvwxyz0123456789", "zyxwvutsrqponmlkjihgfedcba9876543210", strict=True))


def in_other_order(layout: Mapping[str, Any]) -> dict[str, Any]:
    return {
        name: dict(reversed(list(value.items()))) if isinstance(value, Mapping) else value
        for name, value in reversed(list(layout.items()))
    }


def recoloured(layout: Mapping[str, Any]) -> dict[str, Any]:
    conductors = {
        name: {**conductor, "insulation": COLOURS[place % len(COLOURS)], "note": "was red once"}
        for place, (name, conductor) in enumerate(layout["conductors"].items())
    }
    return {**layout, "conductors": conductors}


def with_a_part_in_its_box(layout: Mapping[str, Any]) -> dict[str, Any]:
    more = {"spare-unit": {"kind": "heat-pump-unit"}, "spare-panel": {"kind": "zone-panel", "air": "attic"}}
    return {**layout, "parts": {**layout["parts"], **more}}


def ends_turned(layout: Mapping[str, Any]) -> dict[str, Any]:
    conductors = {
        name: {**conductor, "ends": list(reversed(conductor["ends"]))}
        for name, conductor in layout["conductors"].items()
    }
    return {**layout, "conductors": conductors}


def but_for_looks(findings: Iterable[Finding]) -> list[tuple[str, str, tuple[str, ...]]]:
    return [as_told(finding) for finding in findings if finding.rule not in SEEN_FROM_OUTSIDE]


def changed(example: Good | Bad, change: Change) -> tuple[Finding, ...]:
    document = document_of(example.job())
    document["layouts"][EXAMPLE_LAYOUT] = change(document["layouts"][EXAMPLE_LAYOUT])
    return asked_all(job_from_document(document))


def all_at_once(layout: Mapping[str, Any]) -> dict[str, Any]:
    return in_other_order(with_a_part_in_its_box(recoloured(ends_turned(layout))))


@pytest.mark.parametrize(("rule", "example"), EVERY)
def test_nothing_of_it_matters(rule: Rule, example: Good | Bad) -> None:
    assert but_for_looks(changed(example, all_at_once)) == but_for_looks(asked_all(example.job()))


@pytest.mark.slow
@pytest.mark.parametrize("change", [recoloured, in_other_order, with_a_part_in_its_box, ends_turned])
@pytest.mark.parametrize(("rule", "example"), EVERY)
def test_none_of_it_matters_alone(rule: Rule, example: Good | Bad, change: Change) -> None:
    assert but_for_looks(changed(example, change)) == but_for_looks(asked_all(example.job()))


@pytest.mark.parametrize(("rule", "example"), EVERY)
def test_the_findings_follow_their_names(rule: Rule, example: Good | Bad) -> None:
    before = sorted(as_told(finding, backwards) for finding in asked_all(example.job()))
    after = changed(example, lambda layout: renamed(layout, backwards))
    assert sorted(as_told(finding) for finding in after) == before
