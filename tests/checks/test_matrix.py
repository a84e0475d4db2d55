"""All rules over all demo jobs: besides the faults that were built in, only the notes that are named here.

Each was looked at, line by line, on the page that ``python -m tests.checks.matrix`` prints.
"""

from __future__ import annotations

import pytest

from app.checks.registry import all_rules
from tests.checks.matrix import page
from tests.demo_jobs.demos import layouts, report

NOTES = {
    # The L of a heat pump is a message to the thermostat; whoever sees it hot should not take it for a call.
    "bakery-flat-heat-pump:as-left": ["signal-lead"],
    "lifeboat-house-fresh-and-dry:as-left": ["signal-lead"],
    "tannery-cold-in-winter:as-left": ["signal-lead"],
    # Red carries common or a call, white the supply: who goes by colour goes wrong.
    "bell-loft-heat-only:as-left": ["insulation-misleads"],
    "post-office-dual-fuel:as-found": ["insulation-misleads"],
    # A box that nobody has opened, and conductors that go behind the plaster and the stone.
    "ice-store-data-bus:as-found": ["conductor-end-unlanded", "part-unidentified"],
    "toll-cottage-shared-conductor:as-found": ["conductor-end-unlanded", "path-not-computed"],
    # Calls as data, and a heater on its pilot's millivolts: silence there would be taken for a proof.
    "ice-store-data-bus:as-left": ["path-not-computed"],
    "ropewalk-millivolt-heater:as-left": ["path-not-computed"],
}


@pytest.mark.parametrize(("name", "layout"), layouts())
def test_no_note_speaks_that_was_not_looked_at(name: str, layout: str) -> None:
    notes = [finding.rule for finding in report(name, layout).findings if finding.severity == "note"]
    assert notes == NOTES.get(f"{name}:{layout}", [])


@pytest.mark.parametrize(("name", "layout"), layouts())
def test_no_rule_fails_on_a_demo(name: str, layout: str) -> None:
    assert {finding.rule for finding in report(name, layout).findings} <= {rule.name for rule in all_rules()}


def test_the_page_shows_every_rule_and_every_layout() -> None:
    said = page()
    for rule in all_rules():
        assert rule.name in said
    for name, layout in layouts():
        assert f"{name}: {layout}" in said
        for finding in report(name, layout).findings:
            assert finding.message in said
