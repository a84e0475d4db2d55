"""Every example of every rule is a test: silent on the good, exactly the expected findings on the bad, and fixes that
mend, mend once, and can be taken back."""

from __future__ import annotations

import re

import pytest

from app.checks.registry import all_rules
from app.checks.rule import EXAMPLE_LAYOUT, Bad, Good, Rule
from app.job.patch import apply_patch
from app.job.reading import document_of, job_from_document
from tests.checks.asking import asked, shape, with_fix

GOOD = [pytest.param(rule, each, id=f"{rule.name}/{each.name}") for rule in all_rules() for each in rule.good]
BAD = [pytest.param(rule, each, id=f"{rule.name}/{each.name}") for rule in all_rules() for each in rule.bad]
MENDED = [
    pytest.param(rule, each, id=f"{rule.name}/{each.name}")
    for rule in all_rules()
    for each in rule.bad
    if each.mended is not None
]

COMMAND_TALK = re.compile(r"=|_|\b[a-z][a-z0-9-]*\.[A-Z0-9]|\b(indoor-fan|outdoor-fan|(cool|heat)-[123]|[a-z]+-heat)\b")
"""``tc=cool-1``, ``valve_energised_in``, ``fb.R``, ``indoor-fan``: for commands, not for people."""


@pytest.mark.parametrize(("rule", "example"), GOOD)
def test_is_silent_on_good_wiring(rule: Rule, example: Good) -> None:
    assert [finding.message for finding in asked(rule, example.job())] == []


@pytest.mark.parametrize(("rule", "example"), BAD)
def test_finds_exactly_what_is_bad(rule: Rule, example: Bad) -> None:
    findings = asked(rule, example.job())
    assert sorted(finding.subjects for finding in findings) == sorted(example.finds)
    assert {finding.rule for finding in findings} == {rule.name}


@pytest.mark.parametrize(("rule", "example"), BAD)
def test_says_what_is_bad_in_words(rule: Rule, example: Bad) -> None:
    for finding in asked(rule, example.job()):
        for said in (finding.message, finding.why, *finding.assumes):
            assert not COMMAND_TALK.search(said), said


@pytest.mark.parametrize(("rule", "example"), MENDED)
def test_fixes_mend_what_was_found(rule: Rule, example: Bad) -> None:
    job = example.job()
    for _ in example.finds:
        findings = asked(rule, job)
        if not findings:
            break
        job, _ = with_fix(job, findings[0])
        assert findings[0].subjects not in [each.subjects for each in asked(rule, job)]
    assert asked(rule, job) == ()
    assert example.mended is not None
    assert shape(job.layouts[EXAMPLE_LAYOUT]) == shape(example.mended)


@pytest.mark.parametrize(("rule", "example"), BAD)
def test_a_fix_is_there_exactly_where_the_example_says_so(rule: Rule, example: Bad) -> None:
    fixes = [finding.fix is not None for finding in asked(rule, example.job())]
    assert fixes == [example.mended is not None] * len(fixes)


@pytest.mark.parametrize(("rule", "example"), MENDED)
def test_the_inverse_of_a_fix_restores_the_document(rule: Rule, example: Bad) -> None:
    job = example.job()
    before = document_of(job)
    _, patched = with_fix(job, asked(rule, job)[0])
    assert apply_patch(patched.document, patched.inverse).document == before
    assert document_of(job_from_document(before)) == before
