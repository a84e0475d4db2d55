"""What contacts and fuses bear, at the edges of their ratings and beside sources of their own."""

from __future__ import annotations

from typing import Any

import pytest

from app.checks.samples import Parts
from app.job.model import Layout
from app.job.sketch import sketch
from tests.checks.bench import COIL, LAMP, changed, found


def control_for(amps: float) -> dict[str, Any]:
    """Return the kind of a control whose one contact is made for so many amps."""
    return {
        "title": "Control",
        "summary": "Invented for the test.",
        "terminals": {"R": {"function": "supply", "use": "supply"}, "W": {"function": "call", "use": "call"}},
        "elements": {"w": {"is": "contact", "between": ["R", "W"], "by": "calls", "max_amps": amps}},
        "calls": {"heat-1": {"use": "heat", "closes": {"w": "true"}}},
    }


def test_a_contact_bears_three_times_its_amps_while_a_coil_pulls_in() -> None:
    # 57.6 VA at 24 V are 10 ohm: 26.4 V behind these and 1.44 ohm of the winding drive 2.3 A through the contact, 4.6
    # times half an ampere and 2.3 times one. Sealed it carries 0.3 A, which either is made for.
    coil = changed(COIL, va_sealed=7.0, va_inrush=57.6)
    parts: Parts = {"xf": "control-transformer", "tc": "control", "k": "coil"}
    layout = sketch(parts, "xf.R tc.R", "tc.W k.A", "k.B xf.C")
    (overloaded,) = found("contact-overloaded", layout, control=control_for(0.5), coil=coil)
    assert overloaded.subjects == ("element:tc.w", "terminal:tc.W")
    assert found("contact-overloaded", layout, control=control_for(1.0), coil=coil) == ()


def lamp_on_a_fuse(va: float, fuse_amps: float, lamp_va: float) -> Layout:
    parts: Parts = {
        "xf": {"kind": "control-transformer", "settings": {"va": va}},
        "fu": {"kind": "inline-fuse", "settings": {"fuse_amps": fuse_amps}},
        "la": {"kind": "lamp", "settings": {"va": lamp_va}},
    }
    return sketch(parts, "xf.R fu.A", "fu.B la.A", "la.B xf.C")


@pytest.mark.parametrize(("va", "fuse_amps"), [(50, 1), (50, 2), (75, 1), (75, 2), (75, 3)])
def test_a_fuse_that_carries_exactly_its_rating_is_as_it_should_be(va: float, fuse_amps: float) -> None:
    # 26.4 V drive the rated amps through the winding (24² × 10 % / VA), the fuse (0.03 ohm) and the lamp together.
    lamp_ohms = 26.4 / fuse_amps - 24.0**2 * 0.1 / va - 0.03
    exactly, more = 24.0**2 / lamp_ohms, 24.0**2 / (lamp_ohms * 0.999)
    assert found("overcurrent-protection", lamp_on_a_fuse(va, fuse_amps, exactly), lamp=LAMP) == ()
    assert len(found("overcurrent-protection", lamp_on_a_fuse(va, fuse_amps, more), lamp=LAMP)) == 1


BESIDE: Parts = {
    "xf": {"kind": "control-transformer", "settings": {"va": 75}},
    "fu": "inline-fuse",
    "la": "lamp",
    "xf2": {"kind": "control-transformer", "settings": {"va": 50}},
    "lb": "lamp",
}
"""Two sources, one of them behind a fuse of 3 A, and a lamp for each."""


def lamps(first_va: float, second_va: float, *more: str) -> Layout:
    """Return both sources with their commons joined, and a lamp on each."""
    each = {"la": {"kind": "lamp", "settings": {"va": first_va}}, "lb": {"kind": "lamp", "settings": {"va": second_va}}}
    wires = ("xf.R fu.A", "fu.B la.A", "la.B xf.C", "xf2.R lb.A", "lb.B xf2.C", "xf.C xf2.C")
    return sketch({**BESIDE, **each}, *wires, *more)


def test_an_overloaded_source_explains_its_own_fuse_beside_a_source_that_is_not() -> None:
    # 85 VA are more than 75, and drive 3.4 A through the fuse; the other source has next to nothing to do.
    assert [each.subjects for each in found("transformer-overloaded", lamps(85, 1), lamp=LAMP)] == [
        ("element:xf.secondary",)
    ]
    assert found("overcurrent-protection", lamps(85, 1), lamp=LAMP) == ()


def test_an_overloaded_source_explains_a_fuse_in_its_common_too() -> None:
    layout = sketch({**BESIDE, "la": {"kind": "lamp", "settings": {"va": 85}}}, "xf.R la.A", "la.B fu.A", "fu.B xf.C")
    assert len(found("transformer-overloaded", layout, lamp=LAMP)) == 1
    assert found("overcurrent-protection", layout, lamp=LAMP) == ()


def test_an_overloaded_source_does_not_explain_the_fuse_of_another() -> None:
    # 74 VA are within 75, and 3.1 A more than the fuse is made for; the 60 VA on the 50 of the other never reach it.
    assert [each.subjects for each in found("transformer-overloaded", lamps(74, 60), lamp=LAMP)] == [
        ("element:xf2.secondary",)
    ]
    assert [each.subjects for each in found("overcurrent-protection", lamps(74, 60), lamp=LAMP)] == [
        ("element:fu.fuse",)
    ]


def test_a_short_of_one_source_does_not_hide_that_another_is_overloaded() -> None:
    shorted = lamps(85, 1, "xf2.R xf2.C")
    assert [each.subjects[0] for each in found("hot-to-common-short", shorted, lamp=LAMP)] == ["conductor:w7"]
    assert [each.subjects for each in found("transformer-overloaded", shorted, lamp=LAMP)] == [
        ("element:xf.secondary",)
    ]
