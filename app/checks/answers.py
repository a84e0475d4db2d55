"""Findings and reports as the JSON of the commands and the service."""

from __future__ import annotations

from typing import Any

from app.checks.check import Coverage, LayoutReport
from app.checks.finding import Finding, evidence_document
from app.checks.help import rule_help
from app.checks.rule import Rule
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
    """Return what ``check`` says of one layout: its findings and what was looked at."""
    return {
        "findings": [finding_document(finding) for finding in report.findings],
        "coverage": coverage_document(report.coverage),
    }


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
