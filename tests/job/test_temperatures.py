"""Temperatures in words, in either unit."""

from __future__ import annotations

import pytest

from app.job.temperatures import Units, temperature_words


@pytest.mark.parametrize(
    ("celsius", "units", "words"),
    [
        pytest.param(-40, "us", "-40 °F", id="where both are the same"),
        pytest.param(100, "us", "212 °F", id="boiling"),
        pytest.param(-3.8889, "us", "25 °F", id="typed in whole degrees"),
        pytest.param(-1, "us", "30.2 °F", id="to a tenth"),
        pytest.param(-17.78, "us", "0 °F", id="zero without a sign"),
        pytest.param(-5, "si", "-5 °C", id="metres"),
    ],
)
def test_temperatures_are_told_in_the_unit_of_the_job(celsius: float, units: Units, words: str) -> None:
    assert temperature_words(celsius, units) == words
