"""A whole check of one layout: every rule, one list of findings, and how much was looked at."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.catalogue.catalogue import Catalogue
from app.checks.accepting import judged
from app.checks.context import CheckContext
from app.checks.facts.weather import looked_at_closely
from app.checks.finding import SEVERITIES, Finding
from app.checks.registry import all_rules
from app.checks.rule import Rule
from app.checks.told import Told, told
from app.circuit.network import Circuit, build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.solve import solve_all
from app.job.model import Job

RULE_ERROR = "rule-error"


@dataclass(frozen=True, slots=True)
class Coverage:
    """How much was looked at: groups of coupled parts, situations made, situations that there are."""

    groups: int
    situations_made: int
    situations_possible: int


@dataclass(frozen=True, slots=True)
class LayoutReport:
    """What a check says of one layout, with the circuit and its operating points (idle first) for others to read.

    ``told`` has the same findings in the same order, with what the job's records say of each.
    """

    findings: tuple[Finding, ...]
    coverage: Coverage
    circuit: Circuit
    points: tuple[OperatingPoint, ...]
    told: tuple[Told, ...]


def check_layout(job: Job, layout_name: str, catalogue: Catalogue) -> LayoutReport:
    """Return all findings of a layout, the worst first, each once, several notes of one rule as one.

    What was set aside is among them; ``told`` says so.

    Raises:
        KeyError: the job has no such layout.
    """
    layout = job.layouts[layout_name]
    circuit = build_circuit(layout, catalogue, job.settings.frequency_hz)
    situations = looked_at_closely(layout, catalogue)
    points = tuple(solve_all(circuit, situations))
    context = CheckContext(job, layout_name, catalogue, circuit, points)
    several = told(judged(findings_of(context, all_rules()), job, layout_name))
    several.sort(key=lambda each: _order(each.finding))
    findings = tuple(each.finding for each in several)
    return LayoutReport(findings, coverage_of(context), circuit, points, tuple(several))


def coverage_of(context: CheckContext) -> Coverage:
    """Return how much of a layout is looked at."""
    groups = context.groups
    made, possible = (sum(counts) for counts in ((each.made for each in groups), (each.possible for each in groups)))
    return Coverage(len(groups), made, possible)


def context_of(job: Job, layout_name: str, catalogue: Catalogue) -> CheckContext:
    """Return the context of a layout with everything solved, for asking single rules."""
    layout = job.layouts[layout_name]
    situations = looked_at_closely(layout, catalogue)
    circuit = build_circuit(layout, catalogue, job.settings.frequency_hz)
    return CheckContext(job, layout_name, catalogue, circuit, solve_all(circuit, situations))


def findings_of(context: CheckContext, rules: Iterable[Rule]) -> tuple[Finding, ...]:
    """Return what ``rules`` find: by severity, rule and subjects, the same fault in several calls once."""
    found: dict[tuple[str, tuple[str, ...]], Finding] = {}
    for rule in rules:
        for finding in _ask(rule, context):
            found.setdefault((finding.rule, finding.subjects), finding)
    return tuple(sorted(found.values(), key=_order))


def _ask(rule: Rule, context: CheckContext) -> list[Finding]:
    """One rule that fails must not hide what the others have to say."""
    try:
        return list(rule.check(context))
    except Exception as error:
        return [
            Finding(
                rule=RULE_ERROR,
                severity="warning",
                subjects=(f"rule:{rule.name}",),
                message=f"The rule {rule.name} could not look at this layout ({type(error).__name__}: {error}).",
                why="What this rule would have said is missing here: take its silence for nothing.",
            )
        ]


def _order(finding: Finding) -> tuple[int, str, tuple[str, ...]]:
    return (SEVERITIES.index(finding.severity), finding.rule, finding.subjects)
