"""Fixes are valid for the document as it was said, whatever was left out of it."""

from __future__ import annotations

import re
from typing import Any

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.checks.check import context_of
from app.checks.context import CheckContext
from app.checks.fixes import add_wire, choose, join_to, land, take_off, take_out
from app.checks.samples import dual_fuel, gas_and_cooling
from app.job.model import Job, Layout
from app.job.names import is_id
from app.job.patch import apply_patch
from app.job.reading import document_of, job_from_document
from app.job.sketch import sketch_job
from tests.checks.bench import found


def context(layout: Layout) -> CheckContext:
    return context_of(sketch_job(layout), "as-left", builtin_catalogue())


def after(context: CheckContext, fix: object) -> Job:
    patched = apply_patch(document_of(context.job), fix)  # type: ignore[arg-type]
    assert apply_patch(patched.document, patched.inverse).document == document_of(context.job)
    return job_from_document(patched.document)


def test_a_setting_is_said_where_no_settings_were() -> None:
    job = after(context(dual_fuel()), choose(context(dual_fuel()), "tc", "battery", True))
    assert job.layouts["as-left"].parts["tc"].settings == {"battery": True}


def test_a_setting_is_replaced_where_it_was_said() -> None:
    layout = dual_fuel(parts={"tc": {"kind": "thermostat-dual-fuel", "settings": {"heat_stages": 2}}})
    fix = choose(context(layout), "tc", "heat_stages", 1)
    assert [operation["op"] for operation in fix] == ["replace"]
    assert after(context(layout), fix).layouts["as-left"].parts["tc"].settings == {"heat_stages": 1}


def test_a_setting_joins_others() -> None:
    layout = dual_fuel(parts={"tc": {"kind": "thermostat-dual-fuel", "settings": {"heat_stages": 2}}})
    fix = choose(context(layout), "tc", "battery", True)
    assert len(fix) == 1
    assert after(context(layout), fix).layouts["as-left"].parts["tc"].settings == {"heat_stages": 2, "battery": True}


def test_a_wire_gets_an_id_that_is_free_and_always_the_same() -> None:
    first = add_wire(context(gas_and_cooling()), "fb.C", "ou.C")
    assert first == add_wire(context(gas_and_cooling()), "fb.C", "ou.C")
    taken = after(context(gas_and_cooling()), first)
    second = add_wire(context(taken.layouts["as-left"]), "fb.C", "ou.C")
    names = [fix[-1]["path"].rpartition("/")[2] for fix in (first, second)]
    assert names[0] != names[1]
    assert all(is_id(name) and re.fullmatch(r"w\d+-[a-z0-9]{5}", name) for name in names)


def test_a_wire_can_be_the_first_of_a_layout() -> None:
    bare = Layout(parts=gas_and_cooling().parts)
    assert len(after(context(bare), add_wire(context(bare), "xf.R", "fb.XF")).layouts["as-left"].conductors) == 1


def test_a_core_of_a_cable_becomes_a_spare_and_a_single_wire_goes() -> None:
    document: dict[str, Any] = document_of(sketch_job(gas_and_cooling()))
    layout = document["layouts"]["as-left"]
    layout["cables"] = {"cb": {}}
    layout["conductors"]["w3"]["cable"] = "cb"
    job = job_from_document(document)
    asked = context_of(job, "as-left", builtin_catalogue())
    spare = after(asked, take_out(asked, "w3")).layouts["as-left"].conductors["w3"]
    assert spare.ends == (None, None)
    assert spare.cable == "cb"
    assert "w4" not in after(asked, take_out(asked, "w4")).layouts["as-left"].conductors


def test_an_end_is_landed_and_taken_off() -> None:
    asked = context(gas_and_cooling({"w9": "fb.C -"}))
    assert after(asked, land(asked, "w9", 1, "ou.C")).layouts["as-left"].conductors["w9"].ends == ("fb.C", "ou.C")
    assert after(asked, take_off(asked, "w9", 0)).layouts["as-left"].conductors["w9"].ends == (None, None)


def test_a_loose_conductor_is_used_before_a_new_one_is_run() -> None:
    asked = context(gas_and_cooling({"w8": "fb.C -"}))
    fix = join_to(asked, "ou.C", ["fb.C", "xf.C"])
    assert fix is not None
    assert after(asked, fix).layouts["as-left"].conductors["w8"].ends == ("fb.C", "ou.C")


def test_a_full_terminal_takes_no_more() -> None:
    asked = context(gas_and_cooling({"w8": "fb.C ou.C", "w9": "ou.C xf.C"}))
    assert len(asked.wiring.landed_on("ou.C")) == asked.terminals["ou.C"].holds
    assert join_to(asked, "fb.C", ["ou.C"]) is None
    assert join_to(asked, "ou.C", ["fb.C"]) is None


def test_a_terminal_with_room_for_one_more_takes_it() -> None:
    asked = context(gas_and_cooling())
    assert len(asked.wiring.landed_on("ou.C")) == asked.terminals["ou.C"].holds - 1
    fix = join_to(asked, "xf.C", ["ou.C"])
    assert fix is not None
    assert fix[-1]["value"] == {"ends": ["xf.C", "ou.C"]}


@pytest.mark.parametrize("between", ["tc.R td.R", "td.R tc.R"])
def test_a_supply_that_is_missing_is_taken_from_behind_the_fuse(between: str) -> None:
    # The transformer hangs beside the two thermostats; from its own screw the lead would go around the board's fuse.
    hall = {"xf": "control-transformer", "tc": "thermostat-heat-cool", "td": "thermostat-heat-only"}
    parts = {name: {"kind": kind, "place": "hall"} for name, kind in hall.items()}
    layout = gas_and_cooling({"w3": None, "w9": between, "w10": "td.W fb.W"}, parts)
    (dead,) = found("supply-side-unpowered", layout)
    assert dead.fix is not None
    assert dead.fix[-1]["value"] == {"ends": ["tc.R", "fb.R"]}
