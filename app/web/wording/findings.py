"""Findings as rows: one row a rule and its subjects, however many calls show it.

Rules of the file: a row's ``key`` is rule and subjects, so that the page can keep its number and its place; of notes it
is the rule alone, because they come as one a rule, whatever joins them. Danger comes first and is never folded; rows
about a part that nothing is wired to yet are folded together.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from typing import Any

from app.catalogue.spoken import counted, plain, upper_first
from app.checks.check import RULE_ERROR
from app.checks.finding import SEVERITIES, Evidence, Finding
from app.checks.registry import rule_named
from app.checks.told import Told
from app.job.model import Job
from app.job.names import part_of
from app.web.wording.aside import set_aside, take_up
from app.web.wording.calls import situation_words
from app.web.wording.fixes import fix_words
from app.web.wording.naming import Naming


def finding_rows(naming: Naming, several: Iterable[Told], job: Job) -> list[dict[str, Any]]:
    """Return the rows in the order in which they are shown: danger, warning, note, then by place."""
    several = list(several)
    standing = {told.finding.rule for told in several if not told.is_aside}
    rows: dict[str, dict[str, Any]] = {}
    for told in several:
        key = _key(told, standing)
        row = rows.setdefault(key, _row(key, told.finding, naming) | _set_aside(told, job))
        shown = _shown_in(told.finding, naming)
        if shown is not None and shown not in row["shown_in"]:
            row["shown_in"].append(shown)
    return sorted(rows.values(), key=lambda row: (SEVERITIES.index(row["severity"]), row["place"], row["key"]))


def to_wire(naming: Naming, rows: Iterable[dict[str, Any]]) -> dict[str, Any]:
    """Return which parts nothing is wired to yet, and the sentence that stands for their rows."""
    parts = sorted(_bare_parts(naming))
    folded = any(row["folded"] for row in rows)
    return {
        "parts": parts,
        "folds": folded,
        "words": f"Still to wire: {counted(len(parts), 'part')}" if parts else "",
        "names": ", ".join(naming.inner_part(part) for part in parts),
    }


def count_words(rows: Iterable[dict[str, Any]]) -> str:
    """Return ``1 danger, 3 warnings``, nothing where there is none."""
    severities = [row["severity"] for row in rows if not row["aside"]]
    said = [counted(severities.count(severity), severity) for severity in SEVERITIES if severity in severities]
    return ", ".join(said)


def troubles_by_part(rows: Iterable[dict[str, Any]]) -> dict[str, str]:
    """Return for each part the words on the findings that are about it, worst sort only."""
    found: dict[str, list[str]] = {}
    for row in (row for row in rows if not row["aside"]):
        for part in row["parts"]:
            found.setdefault(part, []).append(row["severity"])
    worst = {part: min(severities, key=SEVERITIES.index) for part, severities in found.items()}
    return {part: counted(found[part].count(worst[part]), worst[part]) for part in found}


def _key(told: Told, standing: Container[str]) -> str:
    """Notes of one rule that are set aside are a row of their own beside those of ``standing`` rules."""
    if told.finding.severity == "note":
        return f"{told.finding.rule} aside" if told.is_aside and told.finding.rule in standing else told.finding.rule
    return " ".join([told.finding.rule, *sorted(told.finding.subjects)])


def _set_aside(told: Told, job: Job) -> dict[str, Any]:
    """Return whether and why a finding is set aside, and how that is done and undone."""
    return {
        "aside": told.is_aside,
        "reason": told.reason,
        "back": told.back,
        "set_aside": set_aside(told, job),
        "take_up": take_up(told, job),
    }


def _row(key: str, finding: Finding, naming: Naming) -> dict[str, Any]:
    parts = _parts_of(finding, naming)
    bare = _bare_parts(naming)
    place = naming.layout.parts[parts[0]].place if parts else ""
    return {
        "key": key,
        "rule": finding.rule,
        "severity": finding.severity,
        "title": _title(finding.rule),
        "message": finding.message,
        "why": finding.why,
        "assumes": list(finding.assumes),
        "meter": "" if "each" in finding.evidence.more else _meter_words(finding.evidence, naming),
        "each": _each(finding, naming),
        "subjects": list(finding.subjects),
        "subject_words": [naming.subject(subject) for subject in finding.subjects],
        "parts": parts,
        "place": place,
        "shown_in": [],
        "fix": [dict(operation) for operation in finding.fix] if finding.fix else None,
        "fix_words": fix_words(finding.fix, naming) if finding.fix else "",
        "folded": finding.severity != "danger" and bool(parts) and all(part in bare for part in parts),
    }


def _title(rule: str) -> str:
    """Return what a rule is called; one that could not look has no page."""
    return upper_first(plain(rule)) if rule == RULE_ERROR else rule_named(rule).title


def _shown_in(finding: Finding, naming: Naming) -> dict[str, Any] | None:
    if finding.situation is None or not finding.situation.calls:
        return None
    calls = [f"{part}={call}" for part, asked in finding.situation.calls.items() for call in asked]
    return {"calls": calls, "words": situation_words(finding.situation, naming)}


def _each(finding: Finding, naming: Naming) -> list[dict[str, str]]:
    """Return what each of several notes said, and what a meter shows of it; nothing for a finding that stands alone."""
    return [
        {"message": each["message"], "meter": _meter_words(_evidence(each["evidence"]), naming)}
        for each in finding.evidence.more.get("each", ())
    ]


def _evidence(document: Mapping[str, Any]) -> Evidence:
    probe = document.get("probe")
    if probe is None:
        return Evidence()
    return Evidence((probe[0], probe[1]), document["volts"], document["tolerance_volts"])


def _meter_words(evidence: Evidence, naming: Naming) -> str:
    if evidence.probe is None or evidence.volts is None:
        return ""
    first, second = (naming.terminal(terminal) for terminal in evidence.probe)
    within = f" (within {evidence.tolerance_volts:.1f} V)" if evidence.tolerance_volts is not None else ""
    return f"A meter from {first} to {second} shows {evidence.volts:.1f} V{within}."


def _parts_of(finding: Finding, naming: Naming) -> list[str]:
    found: list[str] = []
    for subject in finding.subjects:
        for part in _parts_of_subject(subject, naming):
            if part in naming.layout.parts and part not in found:
                found.append(part)
    return found


def _parts_of_subject(subject: str, naming: Naming) -> list[str]:
    sort, _, name = subject.partition(":")
    if sort == "conductor":
        conductor = naming.layout.conductors.get(name)
        return [part_of(end) for end in conductor.landed()] if conductor is not None else []
    return [part_of(name)]


def _bare_parts(naming: Naming) -> set[str]:
    wired = {part_of(end) for conductor in naming.layout.conductors.values() for end in conductor.landed()}
    return set(naming.layout.parts) - wired
