"""The same job gives the same drawing, whatever the order of its keys and the seed of the hashes; in no colour."""

from __future__ import annotations

import json
import os
import random
import re
import subprocess
import sys
from collections.abc import Callable
from typing import Any

import pytest

from app.catalogue.catalogue import Catalogue
from app.catalogue.opening import Opened, open_job
from app.drawing.connection.diagram import draw_connection
from app.drawing.ladder.diagram import draw_ladder
from app.job.model import Job
from tests.demo_jobs.demos import NAMES, demo, text_of
from tests.drawing.generated import CATALOGUE, generated_layout, job_of

SCRIPT = """
import sys
from tests.drawing.generated import CATALOGUE, generated_layout, job_of
from tests.drawing.test_same_bytes import VIEWS
sys.stdout.write(VIEWS[sys.argv[1]](job_of(generated_layout(5, 30)), "as-left", CATALOGUE))
"""
Draw = Callable[[Job, str, Catalogue], str]
VIEWS: dict[str, Draw] = {"connection": draw_connection, "ladder": draw_ladder}
ALLOWED = {"currentColor", "none", "black", "white"}
COLOURS = re.compile(r'(?:fill|stroke|color|stop-color|flood-color)="([^"]*)"')
PLACES = re.compile(r' (?:x|y|cx|cy|r|d|width|height|data-x|data-y|data-box|data-path|textLength)="([^"]*)"')

each_view = pytest.mark.parametrize("view", VIEWS)


def drawn(view: str, opened: Opened) -> str:
    return VIEWS[view](opened.job, opened.job.default_layout(), opened.catalogue)


def shuffled(value: Any, chance: random.Random) -> Any:
    """Return a JSON value with the keys of its objects in another order."""
    if isinstance(value, dict):
        keys = list(value)
        chance.shuffle(keys)
        return {key: shuffled(value[key], chance) for key in keys}
    return [shuffled(each, chance) for each in value] if isinstance(value, list) else value


@each_view
@pytest.mark.parametrize("name", NAMES)
def test_the_order_of_keys_does_not_show(name: str, view: str) -> None:
    other = open_job(json.dumps(shuffled(json.loads(text_of(name)), random.Random(name))).encode())
    assert drawn(view, other) == drawn(view, demo(name))


@each_view
def test_two_processes_with_different_hash_seeds_draw_the_same(view: str) -> None:
    drawings = {
        subprocess.run(
            [sys.executable, "-c", SCRIPT, view],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert drawings == {VIEWS[view](job_of(generated_layout(5, 30)), "as-left", CATALOGUE).encode()}


@each_view
@pytest.mark.parametrize("name", NAMES)
def test_nothing_has_a_colour_a_style_or_a_fraction(name: str, view: str) -> None:
    drawing = drawn(view, demo(name))
    colours = set(COLOURS.findall(drawing))
    assert colours
    assert colours <= ALLOWED
    assert " style=" not in drawing
    assert "<style" not in drawing
    places = PLACES.findall(drawing)
    assert places
    assert not [values for values in places if "." in values]
