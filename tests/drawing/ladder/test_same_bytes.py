"""The same job gives the same ladder, whatever the order of its keys and the seed of the hashes; in no colour."""

from __future__ import annotations

import json
import os
import random
import re
import subprocess
import sys

import pytest

from app.catalogue.opening import open_job
from app.drawing.ladder.diagram import draw_ladder
from tests.demo_jobs.demos import NAMES, demo, text_of
from tests.drawing.generated import CATALOGUE, generated_layout, job_of
from tests.drawing.test_same_bytes import ALLOWED, shuffled

SCRIPT = """
import sys
from app.drawing.ladder.diagram import draw_ladder
from tests.drawing.generated import CATALOGUE, generated_layout, job_of
sys.stdout.write(draw_ladder(job_of(generated_layout(5, 30)), "as-left", CATALOGUE))
"""


@pytest.mark.parametrize("name", NAMES)
def test_the_order_of_keys_does_not_show(name: str) -> None:
    opened = demo(name)
    layout = opened.job.default_layout()
    other = open_job(json.dumps(shuffled(json.loads(text_of(name)), random.Random(name))).encode())
    assert draw_ladder(other.job, layout, other.catalogue) == draw_ladder(opened.job, layout, opened.catalogue)


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
    assert drawings == {draw_ladder(job_of(generated_layout(5, 30)), "as-left", CATALOGUE).encode()}


@pytest.mark.parametrize("name", NAMES)
def test_nothing_has_a_colour_or_a_fraction(name: str) -> None:
    opened = demo(name)
    drawing = draw_ladder(opened.job, opened.job.default_layout(), opened.catalogue)
    assert set(re.findall(r'(?:fill|stroke|color)="([^"]*)"', drawing)) <= ALLOWED
    assert "style" not in drawing
    for values in re.findall(r' (?:x|y|cx|cy|r|d|width|height|textLength)="([^"]*)"', drawing):
        assert "." not in values
