"""The same job gives the same drawing, whatever the order of its keys and the seed of the hashes."""

from __future__ import annotations

import json
import os
import random
import re
import subprocess
import sys
from typing import Any

import pytest

from app.catalogue.opening import open_job
from app.drawing.connection.diagram import draw_connection
from tests.demo_jobs.demos import NAMES, demo, text_of
from tests.drawing.generated import CATALOGUE, generated_layout, job_of

SCRIPT = """
import sys
from app.drawing.connection.diagram import draw_connection
from tests.drawing.generated import CATALOGUE, generated_layout, job_of
sys.stdout.write(draw_connection(job_of(generated_layout(5, 30)), "as-left", CATALOGUE))
"""
ALLOWED = {"currentColor", "none", "black", "white"}


def shuffled(value: Any, chance: random.Random) -> Any:
    """Return a JSON value with the keys of its objects in another order."""
    if isinstance(value, dict):
        keys = list(value)
        chance.shuffle(keys)
        return {key: shuffled(value[key], chance) for key in keys}
    return [shuffled(each, chance) for each in value] if isinstance(value, list) else value


@pytest.mark.parametrize("name", NAMES)
def test_the_order_of_keys_does_not_show(name: str) -> None:
    opened = demo(name)
    layout = opened.job.default_layout()
    other = open_job(json.dumps(shuffled(json.loads(text_of(name)), random.Random(name))).encode())
    assert draw_connection(other.job, layout, other.catalogue) == draw_connection(opened.job, layout, opened.catalogue)


def test_two_processes_with_different_hash_seeds_draw_the_same() -> None:
    drawings = {
        subprocess.run(
            [sys.executable, "-c", SCRIPT],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert drawings == {draw_connection(job_of(generated_layout(5, 30)), "as-left", CATALOGUE).encode()}


@pytest.mark.parametrize("name", NAMES)
def test_nothing_has_a_colour_or_a_style(name: str) -> None:
    opened = demo(name)
    drawing = draw_connection(opened.job, opened.job.default_layout(), opened.catalogue)
    colours = set(re.findall(r'(?:fill|stroke|color|stop-color|flood-color)="([^"]*)"', drawing))
    assert colours
    assert colours <= ALLOWED
    assert " style=" not in drawing
    assert "<style" not in drawing


@pytest.mark.parametrize("name", NAMES)
def test_coordinates_are_whole_numbers(name: str) -> None:
    opened = demo(name)
    drawing = draw_connection(opened.job, opened.job.default_layout(), opened.catalogue)
    for values in re.findall(
        r' (?:x|y|cx|cy|r|d|width|height|data-x|data-y|data-box|data-path|textLength)="([^"]*)"', drawing
    ):
        assert "." not in values
