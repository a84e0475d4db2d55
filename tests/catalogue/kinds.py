"""What the tests of the kinds share: the packed kinds, and kinds said in a few words."""

from __future__ import annotations

import tomllib
from copy import deepcopy
from importlib.resources import files
from typing import Any

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.reading import kind_from
from app.job.refusal import Refused

KIND_IDS = sorted(builtin_catalogue())


def packed_text(name: str) -> dict[str, Any]:
    """Return a packed kind as plain data, the way a job would bring it along as JSON."""
    return tomllib.loads(files("app.catalogue").joinpath("kinds", f"{name}.toml").read_text("utf-8"))


SMALL: dict[str, Any] = {
    "title": "Small control",
    "summary": "A contact, a coil and a state, enough to go wrong in every way.",
    "terminals": {
        "R": {"function": "supply", "use": "24 V"},
        "W": {"function": "call", "use": "call for heat"},
        "C": {"function": "common", "use": "common"},
    },
    "settings": {"coil_va": {"default": 5, "choices": [5, 8], "basis": "invented for the demo"}},
    "switches": {"mode": {"positions": ["off", "heat"], "rest": "heat"}, "limit": {"rest": "closed", "safety": True}},
    "jumpers": {"link": {"rest": "fitted"}},
    "elements": {
        "w": {"is": "contact", "between": ["R", "W"], "by": "calls"},
        "limit_c": {"is": "contact", "between": ["W", "inner"], "by": "limit"},
        "relay": {"is": "coil", "between": ["inner", "C"], "va_sealed": "coil_va", "va_inrush": 8},
        "link_j": {"is": "jumper", "between": ["R", "W"], "by": "link"},
    },
    "states": {"on": "relay and limit", "late": "after(on, 5 s)"},
    "calls": {"heat-1": {"when": "mode == 'heat'", "closes": {"w": "true"}}},
    "effects": {"furnace-heat": "late"},
}


def changed(at: str, value: Any) -> dict[str, Any]:
    """Return the small kind with ``value`` at a place such as ``states/on``; None takes the place out."""
    kind = deepcopy(SMALL)
    *above, last = at.split("/")
    holder: Any = kind
    for step in above:
        holder = holder[step]
    if value is None:
        del holder[last]
    else:
        holder[last] = value
    return kind


def refusal_of(said: dict[str, Any]) -> Refused:
    """Return the refusal with which a kind named ``small`` is met."""
    with pytest.raises(Refused) as caught:
        kind_from("small", said)
    return caught.value
