"""The taps of a primary, against figures worked out by hand in the handbook of the trade (15)."""

from __future__ import annotations

from typing import Any

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.catalogue import line_share
from app.catalogue.kind import Source
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Layout, Part
from tests.catalogue.kinds import changed, refusal_of

OPEN_VOLTS = {
    "a line as the tap says": (120, 120, 26.4),
    "the other taps alike": (240, 240, 26.4),
    "208 V on the tap for 240 V": (240, 208, 22.88),
    "240 V on the tap for 208 V, above the 30 V of Class 2": (208, 240, 30.46),
}


@pytest.mark.parametrize(("tap", "line", "volts"), OPEN_VOLTS.values(), ids=OPEN_VOLTS.keys())
def test_an_unloaded_secondary_follows_its_line_and_tap(tap: int, line: int, volts: float) -> None:
    part = Part(kind="control-transformer", settings={"primary_tap": tap, "line_volts": line})
    circuit = build_circuit(Layout(parts={"xf": part}), builtin_catalogue())
    assert solve(circuit, Situation()).volts_between("xf.R", "xf.C") == pytest.approx(volts, abs=0.005)


@pytest.mark.parametrize(("tap", "line", "rated"), [(240, 208, 20.8), (208, 240, 27.7), (120, 120, 24.0)])
def test_rated_volts_follow_too(tap: int, line: int, rated: float) -> None:
    source = builtin_catalogue().kind("control-transformer").elements["secondary"]
    assert isinstance(source, Source)
    share = line_share(source, {"primary_tap": tap, "line_volts": line})
    assert share * float(source.volts) == pytest.approx(rated, abs=0.05)


SECONDARY: dict[str, Any] = {"is": "source", "between": ["R", "C"], "va": 40, "line_volts": 120, "tap": "coil_va"}
BAD_TAPS = {
    "a choice without a tap": ({"5": 120.0}, "bad-setting", "/settings/coil_va"),
    "no taps at all": ({}, "bad-setting", "/settings/coil_va"),
    "a tap for nothing": ({"5": 0.0, "8": 240.0}, "bad-figure", "/elements/relay/taps/5"),
}


@pytest.mark.parametrize(("taps", "code", "at"), BAD_TAPS.values(), ids=BAD_TAPS.keys())
def test_taps_that_do_not_fit_their_setting_are_refused(taps: dict[str, float], code: str, at: str) -> None:
    kind = {**changed("elements/relay", {**SECONDARY, "taps": taps}), "states": {}, "effects": {}}
    refused = refusal_of(kind)
    assert (refused.code, refused.pointer) == (code, f"/kinds/small{at}")
    assert refused.would_be_right
