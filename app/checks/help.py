"""The help page of a rule, made from its docstring and its examples."""

from __future__ import annotations

import inspect
from collections.abc import Mapping
from dataclasses import dataclass

from app.checks.finding import Severity
from app.checks.rule import Bad, Good, Rule

HEADINGS = ("What it checks", "Why it matters", "What to do", "Limits")
"""The headings that every rule's docstring has, in this order."""


@dataclass(frozen=True, slots=True)
class RuleHelp:
    """What a person reads about a rule. ``sections`` gives paragraphs by heading, in the order of ``HEADINGS``."""

    name: str
    severity: Severity
    title: str
    sections: Mapping[str, str]
    good: tuple[Good, ...]
    bad: tuple[Bad, ...]


def rule_help(rule: Rule) -> RuleHelp:
    """Return the help page of a rule.

    Raises:
        ValueError: the docstring lacks a heading or has them in another order.
    """
    _, _, rest = inspect.cleandoc(rule.text).partition("\n")
    sections = _sections(rest)
    if tuple(sections) != HEADINGS:
        raise ValueError(f"the docstring of {rule.name} has the headings {tuple(sections)}, not {HEADINGS}")
    return RuleHelp(rule.name, rule.severity, rule.title, sections, rule.good, rule.bad)


def _sections(text: str) -> dict[str, str]:
    """A heading is a line of its own that is one of ``HEADINGS``; what follows until the next is its text."""
    sections: dict[str, list[str]] = {}
    into: list[str] = []
    for line in text.splitlines():
        if line.strip() in HEADINGS:
            into = sections.setdefault(line.strip(), [])
        else:
            into.append(line.strip())
    return {heading: "\n".join(lines).strip() for heading, lines in sections.items()}
