"""How far a call gets: where it is passed on, and what is then named as leading nowhere."""

from __future__ import annotations

from typing import Any

from app.checks.samples import gas_and_cooling
from tests.checks.bench import found

COIL = {"is": "coil", "va_sealed": 2.5, "va_inrush": 5, "basis": "invented for the demo"}
TWO_RELAYS: dict[str, Any] = {
    "title": "Two relays",
    "summary": "Invented for the test.",
    "terminals": {
        **{f"A{number}": {"function": "call", "use": "coil"} for number in (1, 2)},
        **{f"C{number}": {"function": "common", "use": "coil, the other side"} for number in (1, 2)},
        **{letter: {"function": "through", "use": "contact"} for letter in ("COM1", "NO1", "COM2", "NC2")},
    },
    "elements": {
        "one": {**COIL, "between": ["A1", "C1"]},
        "two": {**COIL, "between": ["A2", "C2"]},
        "make": {"is": "contact", "between": ["COM1", "NO1"], "by": "one"},
        "break": {"is": "contact", "between": ["COM2", "NC2"], "by": "two", "rest": "closed"},
    },
}


def test_a_call_is_passed_on_by_the_contact_that_it_closes_and_by_none_that_was_closed_before() -> None:
    layout = gas_and_cooling({"w7": "fb.Y k.A1", "w9": "k.C1 fb.C", "w10": "fb.R k.COM1"}, {"k": "two-relays"})
    (silent,) = found("call-without-effect", layout, **{"two-relays": TWO_RELAYS})
    assert silent.subjects == ("part:k", "terminal:k.NO1")
