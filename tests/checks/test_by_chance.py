"""On any wiring at all: no rule fails, every finding can be pointed at, and every fix is valid and mends."""

from __future__ import annotations

from random import Random

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.structure import catalogue_for
from app.checks.check import RULE_ERROR, check_layout
from app.checks.finding import Finding
from app.checks.samples import boiler_zone, dual_fuel, gas_and_cooling, heat_pump, two_transformers
from app.job.model import Job, Layout
from app.job.patch import apply_patch
from app.job.reading import document_of, job_from_document
from app.job.sketch import sketch_job
from tests.checks.chance import layout_by_chance


def found(job: Job) -> tuple[Finding, ...]:
    return check_layout(job, "as-left", builtin_catalogue()).findings


def assert_findings_stand(layout: Layout) -> None:
    job = sketch_job(layout)
    for finding in found(job):
        assert finding.rule != RULE_ERROR, finding.message
        for subject in finding.subjects:
            sort, _, name = subject.partition(":")
            assert name.partition(".")[0] in (layout.conductors if sort == "conductor" else layout.parts), subject
        if finding.evidence.probe is not None:
            assert len({layout.parts[each.partition(".")[0]].place for each in finding.evidence.probe}) == 1
        if finding.fix is not None:
            assert_mends(job, finding)


def assert_mends(job: Job, finding: Finding) -> None:
    patched = apply_patch(document_of(job), finding.fix or ())
    mended = job_from_document(patched.document)
    catalogue_for(mended)
    assert (finding.rule, finding.subjects) not in {(each.rule, each.subjects) for each in found(mended)}
    assert apply_patch(patched.document, patched.inverse).document == document_of(job)


@pytest.mark.parametrize("seed", ["ash", "birch", "cedar"])
def test_any_wiring_is_borne(seed: str) -> None:
    chance = Random(seed)
    for _ in range(15):
        assert_findings_stand(layout_by_chance(chance, builtin_catalogue()))


@pytest.mark.slow
@pytest.mark.parametrize("seed", ["alder", "beech", "elm", "fir", "larch", "maple", "oak", "pine"])
def test_a_great_deal_of_any_wiring_is_borne(seed: str) -> None:
    chance = Random(seed)
    for _ in range(150):
        assert_findings_stand(layout_by_chance(chance, builtin_catalogue()))


@pytest.mark.parametrize("seed", ["north", "south"])
def test_no_order_of_wiring_a_sound_system_passes_through_danger(seed: str) -> None:
    chance = Random(seed)
    for sound in (gas_and_cooling(), heat_pump(), dual_fuel(), two_transformers(), boiler_zone()):
        names = list(sound.conductors)
        chance.shuffle(names)
        landed = {name: sound.conductors[name] for name in names}
        for count in range(len(names) + 1):
            half = sound.model_copy(update={"conductors": dict(list(landed.items())[:count])})
            findings = found(sketch_job(half))
            assert [each.message for each in findings if each.severity == "danger" or each.rule == RULE_ERROR] == []
        assert findings == ()
