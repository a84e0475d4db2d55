"""What a check has to say."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from app.circuit.situation import Situation

Severity = Literal["danger", "warning", "note"]
SEVERITIES: tuple[Severity, ...] = ("danger", "warning", "note")


@dataclass(frozen=True, slots=True)
class Evidence:
    """What a meter can confirm: where to probe, what to expect, which call shows it.

    ``probe`` is a pair of terminals of one place; ``volts`` what is expected there, within ``tolerance_volts``;
    ``call`` the call that shows it (``tc=cool-1``) or None for idle. ``more`` holds further figures of the rule with
    units in their names, such as ``amps_before_opening``.
    """

    probe: tuple[str, str] | None = None
    volts: float | None = None
    tolerance_volts: float | None = None
    call: str | None = None
    more: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that a rule has found.

    ``subjects`` are subject strings (``part:fb``, ``terminal:fb.R``, ``conductor:w3``, ``element:ou.contactor``), the
    main one first. ``fix`` is a JSON Patch against the job document, one undoable step, or None. ``brief`` names in a
    word or two what it is about, for a sentence about several of its kind.
    """

    rule: str
    severity: Severity
    subjects: tuple[str, ...]
    message: str
    why: str
    situation: Situation | None = None
    assumes: tuple[str, ...] = ()
    evidence: Evidence = Evidence()
    fix: tuple[Mapping[str, Any], ...] | None = None
    brief: str = ""


def evidence_document(evidence: Evidence) -> dict[str, Any]:
    """Return evidence as plain data."""
    document: dict[str, Any] = {}
    if evidence.probe is not None:
        document["probe"] = list(evidence.probe)
        document["volts"] = evidence.volts
        document["tolerance_volts"] = evidence.tolerance_volts
    document["call"] = evidence.call
    document.update(evidence.more)
    return document
