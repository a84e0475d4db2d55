"""Findings and reports as JSON: the keys of the contract, and nothing that JSON does not have."""

from __future__ import annotations

import json

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.checks.answers import finding_document, report_document, rule_document
from app.checks.check import check_layout
from app.checks.registry import all_rules
from app.checks.rule import Rule
from app.checks.samples import gas_and_cooling
from app.job.sketch import sketch_job
from tests.checks.asking import asked

KEYS = ["rule", "severity", "subjects", "situation", "message", "why", "assumes", "evidence", "fix"]


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.name)
def test_every_finding_is_plain_json(rule: Rule) -> None:
    for example in rule.bad:
        for finding in asked(rule, example.job()):
            document = finding_document(finding)
            assert list(document) == KEYS
            assert json.loads(json.dumps(document, allow_nan=False)) == document


def test_a_short_tells_where_to_probe_and_what_to_read() -> None:
    report = report_document(
        check_layout(sketch_job(gas_and_cooling({"w9": "ou.Y ou.C"})), "as-left", builtin_catalogue())
    )
    assert list(report) == ["findings", "coverage"]
    assert list(report["coverage"]) == ["groups", "situations_made", "situations_possible"]
    (finding,) = report["findings"]
    assert finding["rule"] == "hot-to-common-short"
    assert finding["subjects"] == ["conductor:w9"]
    assert finding["evidence"]["probe"] == ["ou.Y", "ou.C"]
    assert finding["evidence"]["volts"] == pytest.approx(0.0, abs=1e-6)
    assert finding["evidence"]["call"] == "tc=cool-1"
    assert finding["situation"]["calls"] == {"tc": ["cool-1"]}
    assert finding["fix"] == [{"op": "remove", "path": "/layouts/as-left/conductors/w9"}]
    # 26.4 V open behind 1.44 Ω with 0.03 Ω of fuse and 0.02 Ω of contact: far more than 3 A.
    assert finding["evidence"]["amps_before_opening"]["fb.fuse"] == pytest.approx(26.4 / 1.49, rel=0.02)


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.name)
def test_a_rule_tells_its_page(rule: Rule) -> None:
    document = rule_document(rule)
    assert document["name"] == rule.name
    assert list(document["sections"]) == ["What it checks", "Why it matters", "What to do", "Limits"]
    assert document["good"]
    assert document["bad"]
