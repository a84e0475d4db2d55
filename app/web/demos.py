"""The demo jobs: files that come along, offered by title, opened as a copy of one's own."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from app.catalogue.opening import Opened, open_job
from app.job.model import Job

_FIRST_SENTENCE = re.compile(r".*?[.!?](?=\s|$)", re.DOTALL)


@dataclass(frozen=True)
class Demo:
    """One demo job: the name of its file, its title, and the first sentence of its notes."""

    name: str
    title: str
    summary: str


class Demos:
    """The demo jobs of a folder, each read once when the server starts.

    Raises:
        Refused: one of them is no job; a server with a broken demo does not start.
    """

    def __init__(self, folder: Path) -> None:
        self._files = {file.stem: file for file in sorted(folder.glob("*.json"))}
        self._listed = tuple(_demo(name, open_job(file.read_bytes()).job) for name, file in self._files.items())

    def listed(self) -> tuple[Demo, ...]:
        """Return the demos in the order of their names."""
        return self._listed

    def open(self, name: str) -> Opened:
        """Return a demo job.

        Raises:
            KeyError: there is no demo of this name.
        """
        return open_job(self._files[name].read_bytes())


def _demo(name: str, job: Job) -> Demo:
    sentence = _FIRST_SENTENCE.match(job.notes.strip())
    return Demo(name, job.title, " ".join(sentence.group().split()) if sentence else " ".join(job.notes.split()))
