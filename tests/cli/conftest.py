"""Commands run inside the test, and job files to run them on."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from app.cli import main
from tests.web.sample import gas_and_cooling, shorted


@dataclass(frozen=True)
class Said:
    """What a command has said, and how it ended."""

    code: int
    out: str
    err: str

    def json(self) -> Any:
        return json.loads(self.out)


Run = Callable[..., Said]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command in this process; what argparse refuses counts as its exit code."""

    def run(*words: object) -> Said:
        capsys.readouterr()
        try:
            code = main([str(word) for word in words])
        except SystemExit as left:
            code = int(str(left.code))
        said = capsys.readouterr()
        return Said(code, said.out, said.err)

    return run


@pytest.fixture
def sound(tmp_path: Path) -> Path:
    """The file of a job in which nothing is dangerous."""
    file = tmp_path / "sound.json"
    file.write_text(json.dumps(gas_and_cooling()))
    return file


@pytest.fixture
def short(tmp_path: Path) -> Path:
    """The file of a job in which hot is landed on common."""
    file = tmp_path / "short.json"
    file.write_text(json.dumps(shorted()))
    return file
