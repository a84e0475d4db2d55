"""All rules at once: what every rule has to have, and that the folder and the registry are one."""

from __future__ import annotations

import inspect
import pkgutil
import re

import pytest

import app.checks
from app.catalogue.structure import catalogue_for
from app.checks.finding import Finding
from app.checks.help import HEADINGS, rule_help
from app.checks.registry import MACHINERY, all_rules, rule_named
from app.checks.rule import EXAMPLE_LAYOUT, Rule
from tests.checks.asking import asked, every_example, examples_of

# The contract's table, typed from it.
SEVERITIES = {
    "hot-to-common-short": "danger",
    "sources-joined": "danger",
    "foreign-terminal-joined": "danger",
    "transformer-overloaded": "danger",
    "safety-bypassed": "danger",
    "temporary-jumper-fitted": "danger",
    "common-path-missing": "warning",
    "thermostat-without-common": "warning",
    "reversing-valve-lead-missing": "warning",
    "reversing-valve-inverted": "warning",
    "supply-jumper-missing": "warning",
    "supply-side-unpowered": "warning",
    "call-without-effect": "warning",
    "load-without-call": "warning",
    "compressor-without-indoor-fan": "warning",
    "heat-pump-with-furnace": "warning",
    "chatter": "warning",
    "conductor-end-unlanded": "warning",
    "terminal-overfilled": "warning",
    "electric-heat-without-fan": "danger",
    "power-through-loads": "warning",
    "heating-with-cooling": "warning",
    "defrost-without-tempering": "warning",
    "emergency-heat-runs-compressor": "warning",
    "safety-in-common-leg": "warning",
    "commons-joined": "warning",
    "short-cycle-unguarded": "warning",
    "sneak-path": "warning",
    "coil-volts-low": "warning",
    "coil-volts-high": "warning",
    "contact-overloaded": "warning",
    "class-2-exceeded": "warning",
    "overcurrent-protection": "warning",
    "primary-tap-wrong": "warning",
    "situation-limit-reached": "note",
    "part-unidentified": "note",
    "path-not-computed": "note",
    "signal-lead": "note",
    "spare-unlabelled": "note",
    "insulation-misleads": "note",
    "letter-differs": "note",
    "conductor-long-or-thin": "note",
}
INSTRUCTIONS = re.compile(r"^(no|use|avoid|check|prefer|do-not|never|always)-")

each_rule = pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.name)


def test_the_rules_and_severities_are_those_of_the_contract() -> None:
    assert {rule.name: rule.severity for rule in all_rules()} == SEVERITIES


def test_every_module_is_a_rule_or_machinery() -> None:
    modules = {module.name for module in pkgutil.iter_modules(app.checks.__path__)}
    assert modules - MACHINERY == {rule.name.replace("-", "_") for rule in all_rules()}
    assert modules >= MACHINERY


def test_the_order_is_that_of_the_names() -> None:
    names = [rule.name for rule in all_rules()]
    assert names == sorted(set(names))


@each_rule
def test_the_help_page_has_every_heading_and_text_below_each(rule: Rule) -> None:
    page = rule_help(rule)
    assert tuple(page.sections) == HEADINGS
    assert all(page.sections.values())
    assert page.title
    assert not page.title.endswith(".")


@each_rule
def test_there_are_examples_enough(rule: Rule) -> None:
    assert len(rule.good) >= 2
    assert len(rule.bad) >= 2
    assert any(example.near_miss for example in rule.good)
    names = [example.name for example in examples_of(rule)]
    assert len(set(names)) == len(names)
    assert not [name for name in names if re.search(r"\d$", name)]


@each_rule
def test_the_name_names_the_fault(rule: Rule) -> None:
    assert not INSTRUCTIONS.match(rule.name)
    assert re.fullmatch(r"[a-z]+(-([a-z]+|[0-9]+))*", rule.name)
    assert rule_named(rule.name) == rule


@each_rule
def test_the_check_is_short(rule: Rule) -> None:
    assert len(inspect.getsource(rule.check).splitlines()) <= 60


def all_findings() -> list[tuple[str, object, Finding]]:
    """Return every finding of every bad example, with the name and the layout of the example."""
    return [
        (f"{rule.name}/{example.name}", example.layout, finding)
        for rule, example in every_example()
        if example in rule.bad
        for finding in asked(rule, example.job())
    ]


def test_every_finding_is_filled() -> None:
    for name, _, finding in all_findings():
        assert finding.message.endswith("."), name
        assert finding.why.endswith("."), name
        assert finding.subjects, name
        assert "None" not in finding.message, name


def test_what_is_told_together_has_a_short_name_each() -> None:
    together = {rule.name for rule in all_rules() if rule.together}
    noted = [each for each in all_findings() if each[2].severity == "note" and each[2].rule in together]
    assert noted
    assert [name for name, _, finding in noted if not finding.brief] == []


def test_every_subject_exists() -> None:
    for rule, example in every_example():
        job = example.job()
        catalogue = catalogue_for(job)
        layout = job.layouts[EXAMPLE_LAYOUT]
        for finding in asked(rule, job):
            for subject in finding.subjects:
                sort, _, name = subject.partition(":")
                part, _, inner = name.partition(".")
                match sort:
                    case "part":
                        assert name in layout.parts
                    case "conductor":
                        assert name in layout.conductors
                    case "terminal":
                        assert inner in catalogue.terminals_of(layout, part)
                    case "element":
                        kind = catalogue.kind_of(layout.parts[part])
                        assert kind is not None
                        assert inner in kind.elements
                    case _:
                        pytest.fail(subject)


def test_probes_are_two_terminals_of_one_place() -> None:
    for name, layout, finding in all_findings():
        probe = finding.evidence.probe
        if probe is not None:
            places = {layout.parts[terminal.partition(".")[0]].place for terminal in probe}  # type: ignore[attr-defined]
            assert len(places) == 1, name
            assert probe[0] != probe[1], name


def test_volts_come_with_a_tolerance() -> None:
    for name, _, finding in all_findings():
        evidence = finding.evidence
        assert (evidence.volts is None) == (evidence.tolerance_volts is None), name
        assert evidence.tolerance_volts is None or evidence.tolerance_volts > 0, name
