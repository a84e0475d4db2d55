"""Findings and reports as the JSON of the commands and the service."""

from __future__ import annotations

from typing import Any

from app.checks.check import Coverage, LayoutReport
from app.checks.finding import Finding, evidence_document
from app.checks.help import rule_help
from app.checks.rule import Rule
from app.checks.told import Told
from app.circuit.situation import Situation


def finding_document(finding: Finding) -> dict[str, Any]:
    """Return one finding as plain data."""
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "subjects": list(finding.subjects),
        "situation": None if finding.situation is None else situation_document(finding.situation),
        "message": finding.message,
        "why": finding.why,
        "assumes": list(finding.assumes),
        "evidence": evidence_document(finding.evidence),
        "fix": None if finding.fix is None else [dict(operation) for operation in finding.fix],
    }


def report_document(report: LayoutReport) -> dict[str, Any]:
    """Return what ``check`` says of one layout: its findings and what was looked at.

    Where the job has records about findings, ``accepted`` names those that are set aside (a danger is ``still_open``),
    and ``back`` those that were, and what has changed since. All of them are among the findings too.
    """
    document: dict[str, Any] = {
        "findings": [finding_document(finding) for finding in report.findings],
        "coverage": coverage_document(report.coverage),
    }
    accepted = [accepted_document(each) for each in report.told if each.places and not each.back]
    back = [{**accepted_document(each), "why": each.back} for each in report.told if each.back]
    return document | ({"accepted": accepted} if accepted else {}) | ({"back": back} if back else {})


def accepted_document(each: Told) -> dict[str, Any]:
    """Return which finding the records of the job speak of, and the reason that they give."""
    found = each.finding
    said = {"rule": found.rule, "subjects": list(found.subjects), "reason": each.reason}
    return said | ({"still_open": True} if found.severity == "danger" else {})


def coverage_document(coverage: Coverage) -> dict[str, int]:
    """Return how much was looked at."""
    return {
        "groups": coverage.groups,
        "situations_made": coverage.situations_made,
        "situations_possible": coverage.situations_possible,
    }


def rule_document(rule: Rule) -> dict[str, Any]:
    """Return one rule of the registry: its name, severity, help page and the names of its examples."""
    page = rule_help(rule)
    return {
        "name": page.name,
        "severity": page.severity,
        "title": page.title,
        "sections": dict(page.sections),
        "good": [example.name for example in page.good],
        "bad": [example.name for example in page.bad],
    }


def situation_document(situation: Situation) -> dict[str, Any]:
    """Return a situation in the shape in which it is also given."""
    return situation.model_dump(mode="json", by_alias=True)
