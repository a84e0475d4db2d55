"""Notes of one rule as one finding: a person reads once that six spares have no note, and opens it for each of them.

Rules of the file: dangers and warnings are never folded. What is folded keeps everything: the subjects of all, every
fix, and under ``each`` of the evidence what every one of them said and measured.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby
from typing import Any

from app.checks.finding import Evidence, Finding, evidence_document
from app.checks.registry import rule_named

NAMED = 3
"""So many are named before the rest is counted."""


def fold_notes(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings with several notes of one rule as one, at the place of the first; they come sorted."""
    folded: list[Finding] = []
    for (severity, _), group in groupby(findings, key=lambda each: (each.severity, each.rule)):
        several = list(group)
        foldable = severity == "note" and len(several) > 1
        folded += [_folded(sorted(several, key=_as_counted))] if foldable else several
    return tuple(folded)


def _as_counted(finding: Finding) -> list[tuple[int, str]]:
    """Order w5 before w10."""
    pieces = re.findall(r"\d+|\D+", " ".join(finding.subjects))
    return [(int(piece), "") if piece.isdigit() else (-1, piece) for piece in pieces]


def _folded(several: Sequence[Finding]) -> Finding:
    first = several[0]
    more = {**first.evidence.more, "each": [_document(each) for each in several]}
    return Finding(
        rule=first.rule,
        severity=first.severity,
        subjects=tuple(dict.fromkeys(subject for each in several for subject in each.subjects)),
        message=_message(several),
        why=first.why,
        situation=first.situation,
        assumes=tuple(dict.fromkeys(words for each in several for words in each.assumes)),
        evidence=Evidence(
            first.evidence.probe, first.evidence.volts, first.evidence.tolerance_volts, first.evidence.call, more
        ),
        fix=_fix(several),
    )


def _message(several: Sequence[Finding]) -> str:
    together = rule_named(several[0].rule).together
    if not together:
        rest = len(several) - 1
        return f"{several[0].message} There {'is one' if rest == 1 else f'are {rest}'} more of this sort."
    return together.format(count=len(several), names=_names([each.brief for each in several]))


def _names(briefs: Sequence[str]) -> str:
    """Return ``w1, w2 and w3``, or ``w1, w2, w3 and 4 more``."""
    rest = len(briefs) - NAMED
    said = [*briefs[:NAMED], f"{rest} more"] if rest > 0 else list(briefs)
    return f"{', '.join(said[:-1])} and {said[-1]}"


def _document(finding: Finding) -> dict[str, Any]:
    return {
        "subjects": list(finding.subjects),
        "message": finding.message,
        "evidence": evidence_document(finding.evidence),
    }


def _fix(several: Sequence[Finding]) -> tuple[Mapping[str, Any], ...] | None:
    """Return the fixes of all as one step; None where one of them has none, so that *mend it* never mends a part."""
    operations: list[Mapping[str, Any]] = []
    for each in several:
        if each.fix is None:
            return None
        operations += [operation for operation in each.fix if operation not in operations]
    return tuple(operations)
