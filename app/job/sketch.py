"""Layouts said in a few words, for the examples of rules and kinds and for tests.

``sketch({"fb": "furnace-board", "tc": "thermostat-heat-cool"}, "fb.R tc.R", "fb.W tc.W", "fb.C -")`` makes a layout
with the parts ``fb`` and ``tc`` and the conductors ``w1``, ``w2`` and ``w3``. An end is a terminal, ``-`` for landed
nowhere or ``?`` for unknown. A part is a kind, or a mapping with the fields of ``Part``.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.job.model import Conductor, End, Job, Layout, Part, UnknownEnd

Parts = Mapping[str, str | Mapping[str, Any]]
"""Parts by id, each of them a kind or a mapping with the fields of ``Part``."""


def sketch(parts: Parts, *wires: str) -> Layout:
    """Return a layout of ``parts`` joined by ``wires``, each of which is two ends with a space between.

    Conductors are ideal joins named ``w1``, ``w2`` … in the order given; a wire that starts with ``name:`` has that id.

    Raises:
        ValueError: a wire does not have exactly two ends.
    """
    return Layout(
        parts={name: _part(part) for name, part in parts.items()},
        conductors=dict(_conductor(number, wire) for number, wire in enumerate(wires, start=1)),
    )


def sketch_job(layout: Layout, name: str = "as-left") -> Job:
    """Return a job that holds one layout."""
    return Job(title="Sketch", layouts={name: layout})


def _part(part: str | Mapping[str, Any]) -> Part:
    return Part(kind=part) if isinstance(part, str) else Part.model_validate(part)


def _conductor(number: int, wire: str) -> tuple[str, Conductor]:
    words = wire.split()
    name = words.pop(0)[:-1] if words and words[0].endswith(":") else f"w{number}"
    if len(words) != 2:
        raise ValueError(f"the wire {wire!r} needs exactly two ends")
    return name, Conductor(ends=(_end(words[0]), _end(words[1])))


def _end(word: str) -> End:
    if word == "-":
        return None
    if word == "?":
        return UnknownEnd(unknown="not seen")
    return word
