"""What a rule is.

Rules of the file: a rule is one module of this package whose name is the rule's name with underscores. The module
holds, reader first: the docstring that is its help page, ``NAME``, ``SEVERITY``, ``GOOD``, ``BAD`` and ``check``; one
that makes notes has ``TOGETHER`` as well, the sentence for several of them.
``registry`` gathers these into a ``Rule``; nothing else declares one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from app.checks.context import CheckContext
from app.checks.finding import Finding, Severity
from app.job.model import Job, Layout

EXAMPLE_LAYOUT = "as-left"
"""The layout that holds an example's wiring."""


@dataclass(frozen=True, slots=True)
class Good:
    """Wiring on which the rule is silent. ``near_miss`` marks one that looks like the fault and is none."""

    name: str
    layout: Layout
    near_miss: bool = False
    kinds: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)

    def job(self) -> Job:
        """Return a job that holds the example."""
        return _job_of(self.name, self.layout, self.kinds)


@dataclass(frozen=True, slots=True)
class Bad:
    """Wiring on which the rule speaks.

    ``finds`` gives the subjects of each finding, exactly these and no others. ``mended`` is the layout after all
    fixes of the rule are applied, None where there is nothing that a patch can mend.
    """

    name: str
    layout: Layout
    finds: tuple[tuple[str, ...], ...]
    mended: Layout | None = None
    kinds: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)

    def job(self) -> Job:
        """Return a job that holds the example."""
        return _job_of(self.name, self.layout, self.kinds)


@dataclass(frozen=True, slots=True)
class Rule:
    """One fault that can be looked for.

    ``check`` is pure: it reads the context and yields findings, which need not be merged or sorted. ``together`` is the
    sentence for several notes of the rule at once, with ``{count}`` and ``{names}`` in it; empty where the rule has
    none.
    """

    name: str
    severity: Severity
    text: str
    good: tuple[Good, ...]
    bad: tuple[Bad, ...]
    check: Callable[[CheckContext], Iterable[Finding]]
    together: str = ""

    @property
    def title(self) -> str:
        """The fault in words: the first line of its page."""
        return self.text.lstrip().partition("\n")[0].strip()


def _job_of(name: str, layout: Layout, kinds: Mapping[str, Mapping[str, Any]]) -> Job:
    return Job(title=name, layouts={EXAMPLE_LAYOUT: layout}, kinds=kinds)
