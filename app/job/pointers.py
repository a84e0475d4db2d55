"""JSON Pointers (RFC 6901) read and followed; ``names.pointer`` writes them."""

from __future__ import annotations

import re
from difflib import get_close_matches
from typing import Any

from app.job.names import pointer
from app.job.refusal import Refused

_BAD_ESCAPE = re.compile(r"~(?![01])")
_INDEX = re.compile(r"(?:0|[1-9][0-9]{0,8})", re.ASCII)


def steps_of(text: str) -> tuple[str, ...]:
    """Return the unescaped steps of a JSON Pointer.

    Raises:
        Refused: ``bad-pointer``.
    """
    if text and (not text.startswith("/") or _BAD_ESCAPE.search(text)):
        raise Refused(
            "bad-pointer",
            f"{text[:80]!r} is not a JSON Pointer.",
            would_be_right='steps that each start with "/", with ~1 for a slash and ~0 for a tilde inside a step',
        )
    return tuple(step.replace("~1", "/").replace("~0", "~") for step in text.split("/")[1:])


def index_of(step: str, length: int, steps: tuple[str, ...]) -> int:
    """Return the place in a list of ``length`` values that a step means.

    Raises:
        Refused: ``no-such-target``; the pointer is that of ``steps``.
    """
    if _INDEX.fullmatch(step) is not None and int(step) < length:
        return int(step)
    raise Refused(
        "no-such-target",
        f"The list has {length} values, and {step[:20]!r} is none of their places.",
        pointer=pointer(*steps),
        would_be_right=f"a place from 0 to {length - 1}" if length else "an entry added first: the list is empty",
    )


def value_at(document: Any, steps: tuple[str, ...]) -> Any:
    """Return what stands at a place.

    Raises:
        Refused: ``no-such-target``.
    """
    for number, step in enumerate(steps):
        document = child_of(document, step, steps[: number + 1])
    return document


def child_of(parent: Any, step: str, steps: tuple[str, ...]) -> Any:
    """Return what stands in ``parent`` at ``step``, of which ``steps`` is the whole way.

    Raises:
        Refused: ``no-such-target``.
    """
    if isinstance(parent, list):
        return parent[index_of(step, len(parent), steps)]
    if isinstance(parent, dict) and step in parent:
        return parent[step]
    raise missing(parent, step, steps)


def missing(parent: Any, step: str, steps: tuple[str, ...]) -> Refused:
    """Return the refusal for a step that leads nowhere."""
    if not isinstance(parent, dict):
        message = f"{pointer(*steps[:-1]) or 'The document'} is a single value; nothing stands inside it."
        return Refused("no-such-target", message, pointer=pointer(*steps), would_be_right="a place that exists")
    near = get_close_matches(step, parent, n=5, cutoff=0.4) or sorted(parent)[:5]
    return Refused(
        "no-such-target",
        f"There is no {step[:40]!r} in {pointer(*steps[:-1]) or 'the document'}.",
        pointer=pointer(*steps),
        would_be_right=("one of those that exist, such as " + ", ".join(near)) if near else "it added first",
    )
