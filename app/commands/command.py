"""What a command is, and how it says that what it was given is not right."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from dataclasses import dataclass

from app.job.refusal import Refused


@dataclass(frozen=True)
class Command:
    """One verb: its name, one sentence of help, its options, and what it does (the exit code comes back)."""

    name: str
    words: str
    add_options: Callable[[argparse.ArgumentParser], None]
    run: Callable[[argparse.Namespace], int]


class BadInput(Exception):  # noqa: N818 - it is an answer to the person at the terminal
    """Something given to a command was refused; nothing was written.

    Args:
        where: the file, or the option, in which it stands.
        refused: what is wrong and what would be right.
    """

    def __init__(self, where: str, refused: Refused) -> None:
        super().__init__(where)
        self.where = where
        self.refused = refused

    def __str__(self) -> str:
        place = f": {self.refused.pointer}" if self.refused.pointer else ""
        right = self.refused.would_be_right
        return f"{self.where}{place}: {self.refused.message}" + (f"\n  would be right: {right}" if right else "")


def bad_input(where: str, message: str, right: str | None = None) -> BadInput:
    """Return the refusal of something that no room of the core has judged, such as a file that is not there."""
    return BadInput(where, Refused("bad-input", message, would_be_right=right))
