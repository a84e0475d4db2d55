"""Kinds that contradict themselves are refused, with the place and with what would be right."""

from __future__ import annotations

from typing import Any

import pytest

from app.catalogue.reading import kind_from
from tests.catalogue.kinds import SMALL, changed, refusal_of

BAD: dict[str, tuple[str, Any, str, str]] = {
    "states in a ring": ("states", {"a": "b", "b": "a or relay", "late": "relay"}, "state-loop", "/states/a"),
    "a state on itself": ("states/on", "on and relay", "state-loop", "/states/on"),
    "a state and an element of one name": ("states/relay", "limit", "name-clash", "/states/relay"),
    "a setting and a switch of one name": ("settings/mode", {"default": 1}, "name-clash", "/switches/mode"),
    "a state named as a call": ("states/fan", "relay", "name-clash", "/states/fan"),
    "a switch named as a word of terms": ("switches/after", {}, "name-clash", "/switches/after"),
    "a terminal that is not there": (
        "elements/relay/between",
        ["inner", "X"],
        "unknown-node",
        "/elements/relay",
    ),
    "an inner node misspelt": ("elements/relay/between", ["iner", "C"], "unknown-node", "/elements/limit_c"),
    "an element on one node": ("elements/w/between", ["R", "R"], "element-on-one-node", "/elements/w"),
    "a term that asks for nothing known": ("states/on", "rellay", "unknown-name", "/states/on"),
    "a term that asks a contact": ("states/on", "limit_c", "unknown-name", "/states/on"),
    "a term that asks for a call that it has not": ("states/on", "open", "unknown-name", "/states/on"),
    "an effect that asks for nothing known": ("effects/furnace-heat", "flame", "unknown-name", "/effects/furnace-heat"),
    "a call that depends on a coil": ("calls/heat-1/when", "relay", "unknown-name", "/calls/heat-1/when"),
    "a call that depends on a state": ("calls/heat-1/when", "on", "unknown-name", "/calls/heat-1/when"),
    "a position that is never taken": ("states/on", "mode == 'cool'", "unknown-value", "/states/on"),
    "a term that does not read": ("states/on", "relay and", "bad-term", "/states/on"),
    "a contact moved by nothing": ("elements/limit_c/by", "rollout", "unknown-name", "/elements/limit_c/by"),
    "a contact moved by a jumper": ("elements/limit_c/by", "link", "unknown-name", "/elements/limit_c/by"),
    "a contact by a switch that never closes": (
        "elements/limit_c/by",
        "mode",
        "bad-switch",
        "/switches/mode/positions",
    ),
    "a call that closes what is not there": (
        "calls/heat-1/closes",
        {"w": "true", "y": "true"},
        "unknown-contact",
        "/calls/heat-1/closes/y",
    ),
    "a call that closes a safety": (
        "calls/heat-1/closes",
        {"w": "true", "limit_c": "true"},
        "unknown-contact",
        "/calls/heat-1/closes/limit_c",
    ),
    "a name for what is not there": ("called", {"relais": "relay"}, "unknown-name", "/called/relais"),
    "a contact that no call closes": ("calls", {}, "contact-never-closed", "/elements/w"),
    "a jumper that sits nowhere": ("elements/link_j", None, "jumper-nowhere", "/jumpers/link"),
    "a jumper element by no jumper": ("jumpers", {}, "unknown-name", "/elements/link_j/by"),
    "a rest that is no position": ("switches/limit/rest", "ajar", "bad-switch", "/switches/limit/rest"),
    "a position twice": ("switches/mode/positions", ["heat", "heat"], "bad-switch", "/switches/mode/positions"),
    "a default that is no choice": ("settings/coil_va/default", 6, "bad-setting", "/settings/coil_va/default"),
    "choices and a range": ("settings/coil_va/least", 1, "bad-setting", "/settings/coil_va"),
    "a figure of nothing": ("elements/relay/va_sealed", 0, "bad-figure", "/elements/relay/va_sealed"),
    "a figure beyond all bounds": ("elements/relay/va_inrush", 1e12, "bad-figure", "/elements/relay/va_inrush"),
    "a figure from no setting": (
        "elements/relay/va_inrush",
        "relay_va",
        "unknown-setting",
        "/elements/relay/va_inrush",
    ),
    "a figure from a setting with a bad choice": (
        "settings/coil_va/choices",
        [5, 0],
        "bad-figure",
        "/elements/relay/va_sealed",
    ),
    "a coil that lets go above its pull-in": ("elements/relay/drop_out", 0.9, "bad-figure", "/elements/relay/drop_out"),
    "a figure that is a truth": ("elements/relay/va_inrush", True, "bad-kind", "/elements/relay/va_inrush"),
    "a function that is none": ("terminals/R/function", "suply", "bad-kind", "/terminals/R/function"),
    "an element that is none": ("elements/w/is", "coill", "bad-kind", "/elements/w"),
    "an element without its figures": (
        "elements/relay",
        {"is": "coil", "between": ["inner", "C"]},
        "bad-kind",
        "/elements/relay",
    ),
    "a key that is none": ("elements/w/buy", "limit", "bad-kind", "/elements/w/buy"),
    "a terminal in a small letter": ("terminals/r", {"function": "supply", "use": "x"}, "bad-kind", "/terminals/r"),
    "an effect that is none": ("effects/hot-air", "relay", "bad-kind", "/effects/hot-air"),
    "a timer in an effect": ("effects/furnace-heat", "after(relay, 5 s)", "misplaced-timer", "/effects/furnace-heat"),
    "a timer in what a call closes": (
        "calls/heat-1/closes/w",
        "hold(relay, 5 s)",
        "misplaced-timer",
        "/calls/heat-1/closes/w",
    ),
    "a timer in whether there is a call": (
        "calls/heat-1/when",
        "latch(limit, link)",
        "misplaced-timer",
        "/calls/heat-1/when",
    ),
    "a timer of more than ever passes": ("states/late", "after(on, 2000000 s)", "bad-amount", "/states/late"),
    "an amount from a switch": ("states/late", "after(on, mode s)", "unknown-setting", "/states/late"),
    "an amount from nowhere": ("states/late", "after(on, nowhere s)", "unknown-setting", "/states/late"),
    "a kind without a title": ("title", None, "bad-kind", ""),
}


def test_the_small_kind_itself_is_good() -> None:
    assert kind_from("small", SMALL).title == "Small control"


@pytest.mark.parametrize(("at", "value", "code", "pointer"), BAD.values(), ids=BAD.keys())
def test_a_bad_kind_is_refused(at: str, value: Any, code: str, pointer: str) -> None:
    refused = refusal_of(changed(at, value))
    assert (refused.code, refused.pointer) == (code, "/kinds/small" + pointer)
    assert refused.would_be_right
    assert "small" in refused.message


def test_a_ring_with_a_timer_is_no_loop() -> None:
    kind_from("small", changed("states", {"on": "relay or hold(late, 60 s)", "late": "after(on, 5 s)"}))


def test_a_ring_with_a_latch_is_no_loop() -> None:
    kind_from("small", changed("states", {"on": "relay and not late", "late": "latch(on, limit)"}))


def test_the_amount_of_a_timer_is_always_a_number() -> None:
    kind = changed("settings/delay", {"default": "short", "choices": ["short", "long"]})
    kind["states"]["late"] = "after(on, delay s)"
    assert refusal_of(kind).code == "bad-amount"
    kind["settings"]["delay"] = {"default": 30, "least": -5, "most": 90}
    assert refusal_of(kind).code == "bad-amount"
    kind["settings"]["delay"] = {"default": 30, "least": 0, "most": 90}
    kind_from("small", kind)


def test_no_kind_may_be_named_unknown() -> None:
    with pytest.raises(Exception, match="nobody could identify") as caught:
        kind_from("unknown", SMALL)
    assert getattr(caught.value, "code", "") == "name-clash"


def test_the_refusal_says_what_would_be_right() -> None:
    refused = refusal_of(changed("calls/heat-1/closes", {"w": "true", "y": "true"}))
    assert refused.would_be_right == "one of w"
    refused = refusal_of(changed("states/on", "mode == 'cool'"))
    assert refused.would_be_right == "one of 'off', 'heat'"
