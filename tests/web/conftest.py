"""A whole application with a real database, for each test its own."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import Flask

from app.web.application import create_app
from tests.web.api import Api
from tests.web.sample import gas_and_cooling


@pytest.fixture
def demo_dir(tmp_path: Path) -> Path:
    """A folder with one demo job."""
    folder = tmp_path / "demos"
    folder.mkdir()
    demo = {
        **gas_and_cooling(),
        "title": "Gas and cooling",
        "notes": "Four conductors, no common. The rest is told here.",
    }
    (folder / "gas-and-cooling.json").write_text(json.dumps(demo))
    return folder


@pytest.fixture
def app(tmp_path: Path, demo_dir: Path) -> Iterator[Flask]:
    """An application that listens on this machine only."""
    app = create_app(tmp_path / "data", demo_dir=demo_dir)
    yield app
    app.extensions["rungwright"].close()


@pytest.fixture
def api(app: Flask) -> Api:
    """A client that checks every reply against the API's own description."""
    return Api(app)


@pytest.fixture
def job(api: Api) -> str:
    """A sound job, kept."""
    return api.create(gas_and_cooling())
