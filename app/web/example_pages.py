"""The examples on the pages of rules and kinds, drawn and in words. Each is made once and kept.

Rules of the file: what a finding names is drawn heavy, and its words stand below, so that a page shows what it says.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup

from app.catalogue.spoken import plain, upper_first
from app.catalogue.structure import catalogue_for
from app.checks.check import check_layout
from app.checks.finding import Finding
from app.checks.registry import rule_named
from app.checks.rule import EXAMPLE_LAYOUT, Bad, Good
from app.checks.shown.kinds import Wiring, bad_for, good_for
from app.job.model import Job, Layout
from app.job.sketch import sketch_job
from app.web.dressing import dressed
from app.web.page_drawings import picture_of, small

_GROUP = re.compile(r'class="(conductor|part|terminal)"((?: data-[a-z]+="[^"]*")*?) data-\1="([^"]+)"')


@dataclass(frozen=True)
class ExampleShown:
    """An example: its name in words, what sort it is, the drawing, the rule that speaks there and what it says.

    ``sort`` is ``bad``, ``good`` or ``near`` (looks like the fault and is none).
    """

    name: str
    sort: str
    drawing: Markup
    rule: str = ""
    said: tuple[str, ...] = ()


@lru_cache(maxsize=128)
def rule_examples(name: str) -> tuple[ExampleShown, ...]:
    """Return the examples of a rule, those on which it speaks first.

    Raises:
        KeyError: there is no rule of this name.
    """
    rule = rule_named(name)
    bad = [_shown(one, "bad", rule.name) for one in rule.bad]
    good = [_shown(one, "near" if one.near_miss else "good", "") for one in rule.good]
    return (*bad, *good)


@lru_cache(maxsize=128)
def kind_examples(kind: str) -> tuple[ExampleShown, ...]:
    """Return a sound wiring with a part of a kind, and one in which something is found."""
    return tuple(_wired(found) for found in (good_for(kind), bad_for(kind)) if found is not None)


def _wired(found: Wiring) -> ExampleShown:
    job = sketch_job(found.layout, EXAMPLE_LAYOUT)
    return _drawn(job, found.name, "bad" if found.rule else "good", found.rule)


def _shown(example: Good | Bad, sort: str, rule: str) -> ExampleShown:
    return _drawn(example.job(), example.name, sort, rule)


def _drawn(job: Job, name: str, sort: str, rule: str) -> ExampleShown:
    catalogue = catalogue_for(job)
    layout = dressed(job.layouts[EXAMPLE_LAYOUT], catalogue)
    subjects: list[str] = []
    said: list[str] = []
    for finding in _findings(job, layout, rule) if rule else ():
        subjects += finding.subjects
        said.append(finding.message)
    drawing = small(heavy(picture_of(layout, catalogue), subjects))
    return ExampleShown(upper_first(plain(name)), sort, drawing, rule, tuple(dict.fromkeys(said)))


def _findings(job: Job, layout: Layout, rule: str) -> list[Finding]:
    report = check_layout(
        job.model_copy(update={"layouts": {EXAMPLE_LAYOUT: layout}}), EXAMPLE_LAYOUT, catalogue_for(job)
    )
    return [finding for finding in report.findings if finding.rule == rule]


def heavy(svg: str, subjects: Iterable[str]) -> str:
    """Return a drawing of our own in which the named conductors, parts and terminals are marked ``found``."""
    named = frozenset(subjects)

    def mark(group: re.Match[str]) -> str:
        sort, _, name = group.groups()
        return group[0].replace('"', '"found ', 1) if f"{sort}:{name}" in named else group[0]

    return _GROUP.sub(mark, svg)
