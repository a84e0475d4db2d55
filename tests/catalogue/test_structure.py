"""A job that names what is not there is refused whole, with the place and what would be right."""

from __future__ import annotations

import json
from copy import deepcopy
from typing import Any

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.opening import Opened, open_job
from app.catalogue.structure import catalogue_for
from app.job.model import Job
from app.job.refusal import Refused
from app.job.sketch import sketch
from tests.catalogue.kinds import KIND_IDS, SMALL, packed_text

GOOD: dict[str, Any] = {
    "format": "rungwright-job",
    "version": 1,
    "title": "Schoolhouse",
    "layouts": {
        "as-found": {
            "parts": {
                "fb": {"kind": "furnace-board", "settings": {"fuse_amps": 5, "limit": "open"}},
                "tc": {"kind": "thermostat-dual-fuel", "settings": {"rh_rc": "removed", "switch_over_c": 2}},
                "box": {"kind": "unknown"},
            },
            "cables": {"cb1": {"length_m": 12}},
            "conductors": {
                "w1": {"ends": ["fb.R", "tc.RC"], "cable": "cb1"},
                "w2": {"ends": ["fb.Y", "tc.O/B"]},
                "w3": {"ends": ["box.Q7", None]},
                "w4": {"ends": [None, {"unknown": "behind the wall"}]},
            },
        }
    },
}
PART = "/layouts/as-found/parts"
WIRE = "/layouts/as-found/conductors"


def opened(document: dict[str, Any]) -> Opened:
    return open_job(json.dumps(document).encode())


def with_change(at: str, value: Any) -> dict[str, Any]:
    document = deepcopy(GOOD)
    *above, last = at.split("|")
    holder: Any = document["layouts"]["as-found"]
    for step in above:
        holder = holder[step]
    holder[last] = value
    return document


def test_a_good_job_opens_with_its_kinds() -> None:
    assert sorted(opened(GOOD).catalogue) == KIND_IDS


REFUSED: dict[str, tuple[str, Any, str, str, str]] = {
    "a terminal that is not there": (
        "conductors|w1|ends",
        ["fb.Q", None],
        "unknown-terminal",
        f"{WIRE}/w1/ends/0",
        "fb.XF, fb.XC, fb.R, fb.C, fb.Y, fb.G, fb.W, fb.HUM",
    ),
    "a terminal of a part that is not there": (
        "conductors|w2|ends",
        [None, "fc.R"],
        "unknown-part",
        f"{WIRE}/w2/ends/1",
        "box, fb, tc",
    ),
    "a cable that is not there": ("conductors|w2|cable", "cb2", "unknown-cable", f"{WIRE}/w2/cable", "cb1"),
    "a kind that is not there": ("parts|fb|kind", "furnace-bord", "unknown-kind", f"{PART}/fb/kind", "furnace-board"),
    "a setting that is not there": (
        "parts|fb|settings",
        {"fuse": 3},
        "unknown-setting",
        f"{PART}/fb/settings/fuse",
        "fuse_amps",
    ),
    "a choice that is not offered": (
        "parts|fb|settings",
        {"fuse_amps": 4},
        "bad-setting",
        f"{PART}/fb/settings/fuse_amps",
        "one of 3, 5",
    ),
    "a number as text": (
        "parts|fb|settings",
        {"fuse_amps": "3"},
        "bad-setting",
        f"{PART}/fb/settings/fuse_amps",
        "one of 3, 5",
    ),
    "a number beyond its range": (
        "parts|tc|settings",
        {"switch_over_c": 40},
        "bad-setting",
        f"{PART}/tc/settings/switch_over_c",
        "a number from -30 to 15 °C",
    ),
    "one for true": (
        "parts|tc|settings",
        {"battery": 1},
        "bad-setting",
        f"{PART}/tc/settings/battery",
        "one of true, false",
    ),
    "a position that a switch lacks": (
        "parts|fb|settings",
        {"limit": "half"},
        "bad-setting",
        f"{PART}/fb/settings/limit",
        "one of open, closed",
    ),
    "a jumper neither fitted nor removed": (
        "parts|tc|settings",
        {"rh_rc": True},
        "bad-setting",
        f"{PART}/tc/settings/rh_rc",
        "one of fitted, removed",
    ),
    "a setting of a part that nobody knows": (
        "parts|box|settings",
        {"fuse_amps": 3},
        "unknown-setting",
        f"{PART}/box/settings/fuse_amps",
        "no settings",
    ),
}


@pytest.mark.parametrize(("at", "value", "code", "pointer", "right"), REFUSED.values(), ids=REFUSED.keys())
def test_what_is_not_there_is_refused(at: str, value: Any, code: str, pointer: str, right: str) -> None:
    with pytest.raises(Refused) as caught:
        opened(with_change(at, value))
    assert (caught.value.code, caught.value.pointer) == (code, pointer)
    assert right in (caught.value.would_be_right or "")


def test_a_wrong_terminal_is_answered_with_those_that_are_there() -> None:
    layout = {
        "parts": {"fb": {"kind": "small"}},
        "conductors": {"w": {"ends": [None, "fb.Q"]}},
    }
    with pytest.raises(Refused) as caught:
        opened({**GOOD, "kinds": {"small": SMALL}, "layouts": {"as-left": layout}})
    assert str(caught.value) == "There is no terminal fb.Q. It has R, W, C."


def test_a_letter_with_a_slash_keeps_its_pointer_whole() -> None:
    with pytest.raises(Refused) as caught:
        opened({**GOOD, "kinds": {"small": {**SMALL, "terminals": {"O/b!": {"function": "call", "use": "x"}}}}})
    assert caught.value.pointer == "/kinds/small/terminals/O~1b!"


@pytest.mark.parametrize("name", KIND_IDS)
def test_a_kind_that_a_job_brings_along_is_the_same_as_a_packed_one(name: str) -> None:
    document = {
        **GOOD,
        "kinds": {"brought": packed_text(name)},
        "layouts": {"a": {"parts": {"p": {"kind": "brought"}}}},
    }
    catalogue = opened(document).catalogue
    assert catalogue.kind("brought") == builtin_catalogue().kind(name)


def test_a_bad_kind_of_a_job_is_refused_with_its_place() -> None:
    with pytest.raises(Refused) as caught:
        opened({**GOOD, "kinds": {"small": {**SMALL, "states": {"on": "on"}, "effects": {}}}})
    assert (caught.value.code, caught.value.pointer) == ("state-loop", "/kinds/small/states/on")


def test_a_kind_of_the_job_goes_before_a_packed_one() -> None:
    catalogue = opened({**GOOD, "layouts": {}, "kinds": {"splice": SMALL}}).catalogue
    assert catalogue.kind("splice").title == "Small control"


def test_a_half_wired_layout_is_legal() -> None:
    job = Job(title="x", layouts={"a": sketch({"fb": "furnace-board"}, "fb.R -", "? fb.C", "- -")})
    assert "furnace-board" in catalogue_for(job)


def test_without_packed_kinds_only_those_of_the_job_count() -> None:
    job = Job(title="x", layouts={"a": sketch({"fb": "furnace-board"})})
    with pytest.raises(Refused, match="no kind furnace-board"):
        catalogue_for(job, builtin_catalogue().__class__({}))
