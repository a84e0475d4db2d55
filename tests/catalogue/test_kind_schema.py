"""The schema of a kind says what the model says, held by a validator that is not ours."""

from __future__ import annotations

import pytest
from jsonschema import Draft202012Validator

from app.catalogue.schema import kind_schema
from tests.catalogue.kinds import KIND_IDS, SMALL, changed, packed_text


def test_it_is_a_good_schema() -> None:
    Draft202012Validator.check_schema(kind_schema())


@pytest.mark.parametrize("name", KIND_IDS)
def test_every_packed_kind_fits(name: str) -> None:
    assert list(Draft202012Validator(kind_schema()).iter_errors(packed_text(name))) == []


MISFITS = {
    "a key that is none": ("elements/w/buy", "limit"),
    "a function that is none": ("terminals/R/function", "suply"),
    "an element that is none": ("elements/w/is", "coill"),
    "a figure that is a truth": ("elements/relay/va_inrush", True),
    "a terminal in a small letter": ("terminals/r", {"function": "supply", "use": "x"}),
    "an effect that is none": ("effects/hot-air", "relay"),
    "a call that is none": ("calls/heat-3", {"closes": {}}),
    "no title": ("title", None),
}


@pytest.mark.parametrize(("at", "value"), MISFITS.values(), ids=MISFITS.keys())
def test_what_the_model_refuses_does_not_fit(at: str, value: object) -> None:
    validator = Draft202012Validator(kind_schema())
    assert list(validator.iter_errors(SMALL)) == []
    assert list(validator.iter_errors(changed(at, value)))
