"""The few words in which the tests of the rules are said."""

from __future__ import annotations

from app.catalogue.catalogue import Catalogue
from app.catalogue.structure import catalogue_for
from app.checks.check import context_of, findings_of
from app.checks.finding import Finding
from app.checks.registry import all_rules
from app.checks.rule import EXAMPLE_LAYOUT, Bad, Good, Rule
from app.job.model import Job, Layout
from app.job.patch import Patched, apply_patch
from app.job.reading import document_of, job_from_document


def asked(rule: Rule, job: Job) -> tuple[Finding, ...]:
    """Return what one rule finds in an example's job."""
    return findings_of(context_of(job, EXAMPLE_LAYOUT, catalogue(job)), [rule])


def asked_all(job: Job) -> tuple[Finding, ...]:
    """Return what all rules find in an example's job."""
    return findings_of(context_of(job, EXAMPLE_LAYOUT, catalogue(job)), all_rules())


def catalogue(job: Job) -> Catalogue:
    """Return the kinds of a job; refuses an example that is no valid document."""
    return catalogue_for(job)


def with_fix(job: Job, finding: Finding) -> tuple[Job, Patched]:
    """Return the job after the finding's fix, and the patch as it was applied."""
    assert finding.fix is not None
    patched = apply_patch(document_of(job), finding.fix)
    changed = job_from_document(patched.document)
    catalogue(changed)
    return changed, patched


def shape(layout: Layout) -> tuple[object, ...]:
    """Return a layout without the ids of its conductors and without settings that say what is so anyway."""
    parts = {name: (part.kind, dict(part.settings)) for name, part in layout.parts.items()}
    wires = sorted(str(sorted(str(end) for end in conductor.ends)) for conductor in layout.conductors.values())
    return parts, wires


def examples_of(rule: Rule) -> tuple[Good | Bad, ...]:
    """Return the examples of one rule, the sound ones first."""
    return (*rule.good, *rule.bad)


def every_example() -> list[tuple[Rule, Good | Bad]]:
    """Return every example of every rule."""
    return [(rule, example) for rule in all_rules() for example in examples_of(rule)]
