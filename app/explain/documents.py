"""Explanations in the JSON shape of the commands; floats are not rounded."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from app.explain.answer import Explanation, Reason
from app.explain.explain import ConductorPurpose, Explained
from app.explain.losing import Effects


def explained_document(explained: Explained) -> dict[str, Any]:
    """Return an answer as JSON: ``subject``, ``explanations``, ``purpose`` of a conductor or null, ``words``."""
    return {
        "subject": explained.subject,
        "explanations": [_explanation(each) for each in explained.explanations],
        "purpose": None if explained.purpose is None else _purpose(explained.purpose),
        "words": list(explained.words),
    }


def _explanation(found: Explanation) -> dict[str, Any]:
    return {
        "subject": found.subject,
        "verdict": found.verdict,
        "stop": found.stop or None,
        "root": None if found.root is None else _reason(found.root, deep=False),
        "steps": [asdict(step) for step in found.steps],
        "stops_at": found.stops_at,
        "others": found.others,
        "reasons": [_reason(reason, deep=True) for reason in found.reasons],
        "words": list(found.words),
    }


def _reason(reason: Reason, *, deep: bool) -> dict[str, Any]:
    said: dict[str, Any] = {"sort": reason.sort, "subject": reason.subject, "words": reason.words}
    if deep:
        said["behind"] = None if reason.behind is None else _explanation(reason.behind)
    return said


def _purpose(purpose: ConductorPurpose) -> dict[str, Any]:
    role = purpose.role
    return {
        "role": role.name,
        "mode": role.mode or None,
        "also": list(role.also),
        "hot_in": list(role.hot_in),
        "lost": [
            {"situation": each.situation, "effects": _effects(each.effects), "instead": _effects(each.instead)}
            for each in purpose.lost
        ],
    }


def _effects(effects: Effects) -> list[dict[str, str]]:
    return [{"part": part, "effect": effect} for part, effect in effects]
