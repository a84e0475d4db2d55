"""Which situations a layout is looked at in."""

from __future__ import annotations

from app.circuit.situations import controls_of, groups, situations_of
from app.job.sketch import Parts
from tests.backwards import backwards
from tests.circuit.bench import CATALOGUE, sketch

LAYOUT = sketch(
    {
        "tz": "control",
        "ta": {"kind": "control", "settings": {"mode": "off"}},
        "xf": "supply",
        "xz": "supply",
        "lone": "hand-switch",
    },
    *("xf.R ta.R", "xz.R tz.R"),
)


def test_controls_have_the_calls_of_their_set_up() -> None:
    assert controls_of(LAYOUT, CATALOGUE) == {"ta": ("heat-1",), "tz": ("cool-1", "heat-1")}


def test_idle_first_then_one_call_at_a_time_group_by_group() -> None:
    calls = [dict(situation.calls) for situation in situations_of(LAYOUT, CATALOGUE)]
    assert calls == [{}, {"ta": ("heat-1",)}, {"tz": ("cool-1",)}, {"tz": ("heat-1",)}]


def test_groups_are_what_conductors_couple_and_what_shares_air() -> None:
    assert groups(LAYOUT, CATALOGUE) == (("lone",), ("ta", "xf"), ("tz", "xz"))
    parts: Parts = {"ka": "relay", "kb": "relay", "kc": {"kind": "relay", "air": "annex"}, "la": "lamp"}
    assert groups(sketch(parts, "la.A kc.A"), CATALOGUE) == (("ka", "kb"), ("kc", "la"))


def test_order_of_the_document_does_not_matter() -> None:
    turned = LAYOUT.model_copy(update={"parts": backwards(LAYOUT.parts)})
    assert situations_of(turned, CATALOGUE) == situations_of(LAYOUT, CATALOGUE)
