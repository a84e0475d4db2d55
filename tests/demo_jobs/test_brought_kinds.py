"""A job whose kinds all stand in the job itself does the same as one that uses the packed ones."""

from __future__ import annotations

import json

import pytest

from app.catalogue.catalogue import UNKNOWN_KIND
from app.catalogue.opening import Opened, open_job
from app.checks.check import LayoutReport, check_layout
from app.circuit.kept_networks import forget_networks
from tests.catalogue.kinds import packed_text
from tests.demo_jobs.demos import NAMES, SCHOOL_ROW, demo, text_of


def told_anew(opened: Opened, layout: str) -> LayoutReport:
    """Return what a check says of a layout seen for the first time, and so the same to the last digit."""
    forget_networks()
    return check_layout(opened.job, layout, opened.catalogue)


@pytest.mark.parametrize("name", [name for name in NAMES if name != SCHOOL_ROW])
def test_kinds_written_in_the_job_do_the_same(name: str) -> None:
    document = json.loads(text_of(name))
    document["kinds"] = {}
    for layout in document["layouts"].values():
        for part in layout["parts"].values():
            if part["kind"] == UNKNOWN_KIND:
                continue
            document["kinds"][f"my-{part['kind']}"] = packed_text(part["kind"])
            part["kind"] = f"my-{part['kind']}"
    opened = open_job(json.dumps(document).encode())
    for layout in demo(name).job.layouts:
        brought, packed = told_anew(opened, layout), told_anew(demo(name), layout)
        assert [point.effects for point in brought.points] == [point.effects for point in packed.points]
        assert [dict(point.terminals) for point in brought.points] == [dict(point.terminals) for point in packed.points]
        assert [(each.rule, each.subjects) for each in brought.findings] == [
            (each.rule, each.subjects) for each in packed.findings
        ]
