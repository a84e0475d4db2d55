"""Survivors that somebody looked at and that no test can notice, each with the reason: ``equivalent.toml``."""

from __future__ import annotations

import tomllib
from pathlib import Path

from tests.mutation.mutants import Said

FILE = Path(__file__).with_name("equivalent.toml")


def all_judged() -> dict[Said, str]:
    """Return why each mutant that was judged does what the function does, as far as anybody can see."""
    read = tomllib.loads(FILE.read_text(encoding="utf-8"))
    return {
        (path, function, each["before"], each["after"]): each["why"]
        for path, functions in read.items()
        for function, breaks in functions.items()
        for each in breaks
    }
