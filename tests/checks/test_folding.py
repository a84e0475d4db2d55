"""Several notes of one rule are one finding, and nothing of what they said is lost."""

from __future__ import annotations

import json

from app.catalogue.builtin import builtin_catalogue
from app.checks.answers import finding_document
from app.checks.check import check_layout, context_of, findings_of
from app.checks.finding import Evidence, Finding
from app.checks.folding import fold_notes
from app.checks.registry import all_rules
from app.checks.samples import boiler_zone, gas_and_cooling, with_wires
from app.job.model import Layout
from app.job.patch import apply_patch
from app.job.reading import document_of, job_from_document
from app.job.sketch import sketch, sketch_job

SPARES = gas_and_cooling({f"w2{number}": "- -" for number in range(5)})


def folded(layout: Layout) -> list[Finding]:
    return list(check_layout(sketch_job(layout), "as-left", builtin_catalogue()).findings)


def apart(layout: Layout) -> list[Finding]:
    return list(findings_of(context_of(sketch_job(layout), "as-left", builtin_catalogue()), all_rules()))


def test_five_spares_are_one_note_that_counts_and_names_the_first() -> None:
    (note,) = folded(SPARES)
    assert note.message == "5 conductors are landed nowhere and have no note: w20, w21, w22 and 2 more."
    assert note.subjects == tuple(f"conductor:w2{number}" for number in range(5))


def test_a_note_that_stands_alone_is_told_as_it_is() -> None:
    (note,) = folded(gas_and_cooling({"w20": "- -"}))
    assert note == apart(gas_and_cooling({"w20": "- -"}))[0]


def test_the_evidence_of_each_can_still_be_reached() -> None:
    layout = with_wires(gas_and_cooling(), "w8", insulation="RD")
    layout = with_wires(layout, "w2", insulation="YE")
    (note,) = folded(layout)
    each = note.evidence.more["each"]
    assert [one["message"] for one in each] == [finding.message for finding in apart(layout)]
    assert [one["evidence"]["probe"] for one in each] == [list(one.evidence.probe or ()) for one in apart(layout)]
    assert all(len(one["evidence"]["probe"]) == 2 for one in each)


def test_the_shape_of_a_finding_stays_that_of_the_contract() -> None:
    (note,) = folded(SPARES)
    document = finding_document(note)
    members = ["rule", "severity", "subjects", "situation", "message", "why", "assumes", "evidence", "fix"]
    assert list(document) == members
    assert json.loads(json.dumps(document)) == document


def test_all_are_mended_in_one_step() -> None:
    job = sketch_job(SPARES)
    (note,) = folded(SPARES)
    mended = job_from_document(apply_patch(document_of(job), note.fix or ()).document)
    assert folded(mended.layouts["as-left"]) == []


def test_what_only_some_could_mend_is_offered_for_none() -> None:
    first = Finding("spare-unlabelled", "note", ("conductor:a",), "A.", "B.", fix=({"op": "test"},))
    (note,) = fold_notes([first, Finding("spare-unlabelled", "note", ("conductor:b",), "C.", "D.")])
    assert note.fix is None


def test_dangers_and_warnings_are_never_folded() -> None:
    several = [
        Finding("conductor-end-unlanded", severity, (f"conductor:{name}",), "A.", "B.", evidence=Evidence())
        for severity in ("danger", "warning")
        for name in ("a", "b")
    ]
    assert fold_notes(several) == tuple(several)


def test_loose_ends_are_told_one_by_one_and_unseen_ones_together() -> None:
    layout = gas_and_cooling({"w20": "fb.C -", "w21": "fb.G -", "w22": "ou.C ?", "w23": "xf.C ?"})
    found = [(each.severity, len(each.subjects)) for each in folded(layout) if each.rule == "conductor-end-unlanded"]
    assert found == [("warning", 2), ("warning", 2), ("note", 4)]


def test_runs_are_named_by_the_wire_that_leaves_the_source() -> None:
    zones = boiler_zone({"w6": "tc.W z2.M1", "w7": "z2.M2 xf.C"}, {"z2": "zone-valve"})
    notes = folded(with_wires(zones, "w2 w3 w6 w7", length_m=60.0, size_awg=22))
    (note,) = [each for each in notes if each.rule == "conductor-long-or-thin"]
    assert note.message == "2 runs are long or thin for what they carry: w2 and w6."


def test_two_paths_that_are_not_computed_are_told_in_one_sentence() -> None:
    parts = {
        "ma": "millivolt-thermostat",
        "va": "millivolt-valve",
        "mb": "millivolt-thermostat",
        "vb": "millivolt-valve",
    }
    named = {name: {"kind": kind, "label": name.upper()} for name, kind in parts.items()}
    (note,) = folded(sketch(named, "w1: ma.T1 va.TH", "w2: ma.T2 va.TP", "w3: mb.T1 vb.TH", "w4: mb.T2 vb.TP"))
    assert (
        note.message == "What is asked over 2 paths is not computed here and was not checked: MA and VA and MB and VB."
    )
    assert note.subjects == ("part:ma", "part:va", "part:mb", "part:vb")
