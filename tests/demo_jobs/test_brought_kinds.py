"""A job whose kinds all stand in the job itself does the same as one that uses the packed ones."""

from __future__ import annotations

import json

import pytest

from app.catalogue.catalogue import UNKNOWN_KIND
from app.catalogue.opening import open_job
from app.checks.check import check_layout
from app.circuit.answers import solution_document
from tests.catalogue.kinds import packed_text
from tests.circuit.to_the_last_digits import same
from tests.demo_jobs.demos import NAMES, SCHOOL_ROW, demo, report, text_of


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
        brought, packed = check_layout(opened.job, layout, opened.catalogue), report(name, layout)
        assert [point.effects for point in brought.points] == [point.effects for point in packed.points]
        told = [[solution_document(point) for point in each.points] for each in (brought, packed)]
        assert same(*told)
        assert [(each.rule, each.subjects) for each in brought.findings] == [
            (each.rule, each.subjects) for each in packed.findings
        ]
