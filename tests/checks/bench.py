"""A bench for figures: a coil and a lamp whose volt-amperes a test chooses, and short words to check a layout."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.catalogue.structure import catalogue_for
from app.checks.check import context_of
from app.checks.context import CheckContext
from app.checks.finding import Finding
from app.checks.registry import rule_named
from app.checks.rule import EXAMPLE_LAYOUT
from app.job.model import Job, Layout
from tests.checks.asking import asked

COIL: Mapping[str, Any] = {
    "title": "Coil",
    "summary": "Invented for the test.",
    "terminals": {"A": {"function": "call", "use": "coil"}, "B": {"function": "common", "use": "coil"}},
    "settings": {
        "sealed": {"default": 40.0, "least": 1.0, "most": 100.0},
        "sealed_factor": {"default": 1.0, "least": 0.1, "most": 1.0},
    },
    "elements": {
        "coil": {
            "is": "coil",
            "between": ["A", "B"],
            "va_sealed": "sealed",
            "va_inrush": 40.0,
            "power_factor_sealed": "sealed_factor",
            "power_factor_inrush": 1.0,
            "basis": "invented for the demo",
        }
    },
}
LAMP: Mapping[str, Any] = {
    "title": "Lamp",
    "summary": "Invented for the test.",
    "terminals": {"A": {"function": "supply", "use": "lamp"}, "B": {"function": "common", "use": "lamp"}},
    "settings": {"va": {"default": 70.0, "least": 0.1, "most": 100.0}},
    "elements": {"lamp": {"is": "load", "between": ["A", "B"], "va": "va", "basis": "invented for the demo"}},
}


def changed(kind: Mapping[str, Any], **figures: float) -> dict[str, Any]:
    """Return the kind of a coil with other figures."""
    return {**kind, "elements": {"coil": {**kind["elements"]["coil"], **figures}}}


def job_of(layout: Layout, **kinds: object) -> Job:
    return Job.model_validate({"title": "Trial", "layouts": {EXAMPLE_LAYOUT: layout}, "kinds": kinds})


def context(layout: Layout, **kinds: object) -> CheckContext:
    job = job_of(layout, **kinds)
    return context_of(job, EXAMPLE_LAYOUT, catalogue_for(job))


def found(rule: str, layout: Layout, **kinds: object) -> tuple[Finding, ...]:
    return asked(rule_named(rule), job_of(layout, **kinds))
