"""What a JSON value may be here, and how two of them are compared.

Rules of the file: a value that passed ``refuse_unfit`` can be written as UTF-8 JSON, read back by any program that
keeps to RFC 7493 (I-JSON) and set into XML text (XML 1.0, section 2.2), so that no later room has to ask again.
Values are plain ``dict``, ``list``, ``str``, ``int``, ``float``, ``bool`` and ``None``.
"""

from __future__ import annotations

import json
import math
import re
from typing import Any

from app.job.names import pointer
from app.job.refusal import Refused

MOST_BYTES = 2 * 1024 * 1024
"""A document's largest size, as it came or as compact UTF-8 JSON."""
MOST_DEPTH = 32
"""How many objects and lists may lie inside each other; the document itself is the first."""
LARGEST_INTEGER = 2**53 - 1
"""Beyond it two integers can become one in a reader that has only doubles (RFC 7493, section 2.2)."""

_UNFIT_CHARACTER = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_ENCODER = json.JSONEncoder(ensure_ascii=False, allow_nan=False, check_circular=False, separators=(",", ":"))

Steps = tuple[str | int, ...]
"""The unescaped steps of a JSON Pointer."""


class RepeatedKey(dict[str, Any]):
    """An object that was read from a text in which one key stands twice; ``refuse_unfit`` never lets it pass."""

    def __init__(self, pairs: list[tuple[str, Any]], key: str) -> None:
        super().__init__(pairs)
        self.key = key


class UnfitNumber:
    """A number that was read from a text and that has no finite, exact value."""

    def __init__(self, text: str) -> None:
        self.text = text


def compact(value: object) -> str:
    """Return the compact JSON text of a value; its UTF-8 length is the size that the limits mean."""
    return _ENCODER.encode(value)


def refuse_unfit(value: object, steps: Steps = (), depth: int = 0) -> None:
    """Refuse a value that JSON, XML or the depth limit cannot take.

    Args:
        value: the value.
        steps: where it stands, for the pointer.
        depth: how many objects and lists it lies in.

    Raises:
        Refused: ``too-deep``, ``repeated-key``, ``not-a-number``, ``bad-character``.
        TypeError: it is no JSON value at all, which is a mistake of the caller.
    """
    if isinstance(value, str):
        _refuse_characters(value, steps)
    elif isinstance(value, dict):
        _refuse_depth(steps, depth + 1)
        if isinstance(value, RepeatedKey):
            raise _repeated(value.key, steps)
        for key, inner in value.items():
            _refuse_characters(key, steps)
            refuse_unfit(inner, (*steps, key), depth + 1)
    elif isinstance(value, list):
        _refuse_depth(steps, depth + 1)
        for number, inner in enumerate(value):
            refuse_unfit(inner, (*steps, number), depth + 1)
    elif value is not None and not isinstance(value, bool):
        _refuse_number(value, steps)


def json_equal(a: object, b: object) -> bool:
    """Return whether two values are equal as RFC 6902, section 4.6, means it: 1 equals 1.0, but not true."""
    if isinstance(a, dict) and isinstance(b, dict):
        return a is b or (len(a) == len(b) and all(key in b and json_equal(a[key], b[key]) for key in a))
    if isinstance(a, list) and isinstance(b, list):
        return a is b or (len(a) == len(b) and all(json_equal(x, y) for x, y in zip(a, b, strict=True)))
    if isinstance(a, bool) or isinstance(b, bool):
        return a is b
    return a == b


def written_alike(a: object, b: object) -> bool:
    """Return whether two values give the same JSON text but for the order of keys: 1 and 1.0 differ."""
    if a is b:
        return True
    if type(a) is not type(b):
        return False
    if isinstance(a, dict) and isinstance(b, dict):
        return len(a) == len(b) and all(key in b and written_alike(a[key], b[key]) for key in a)
    if isinstance(a, list) and isinstance(b, list):
        return len(a) == len(b) and all(written_alike(x, y) for x, y in zip(a, b, strict=True))
    return a == b


def shown(value: object, most: int = 60) -> str:
    """Return a value as short text for a message."""
    text = compact(value)
    return text if len(text) <= most else text[: most - 1] + "…"


def _refuse_depth(steps: Steps, depth: int) -> None:
    if depth > MOST_DEPTH:
        raise Refused(
            "too-deep",
            f"Objects and lists lie more than {MOST_DEPTH} deep in each other here.",
            pointer=pointer(*steps),
            would_be_right=f"at most {MOST_DEPTH} levels",
        )


def _refuse_characters(text: object, steps: Steps) -> None:
    if not isinstance(text, str):
        raise TypeError(f"the key {text!r} of an object is not text")
    if text.isprintable():
        return
    found = _UNFIT_CHARACTER.search(text)
    if found is not None:
        raise Refused(
            "bad-character",
            f"The text holds the character U+{ord(found.group()):04X}, which no drawing or file can show.",
            pointer=pointer(*steps).encode("utf-8", "replace").decode(),
            would_be_right="text without control characters (line break and tab are fine) and without half characters",
        )


def _refuse_number(value: object, steps: Steps) -> None:
    if isinstance(value, int):
        unfit = abs(value) > LARGEST_INTEGER
    elif isinstance(value, float):
        unfit = not math.isfinite(value)
    elif isinstance(value, UnfitNumber):
        unfit = True
    else:
        raise TypeError(f"{type(value).__name__} is no JSON value (at {pointer(*steps) or 'the root'})")
    if unfit:
        raise Refused(
            "not-a-number",
            "This number is not finite or has more digits than can be kept exactly.",
            pointer=pointer(*steps),
            would_be_right=f"a finite number; an integer lies between -{LARGEST_INTEGER} and {LARGEST_INTEGER}",
        )


def _repeated(key: str, steps: Steps) -> Refused:
    return Refused(
        "repeated-key",
        f"The key {shown(key)} stands twice in one object.",
        pointer=pointer(*steps, key),
        would_be_right="each key once",
    )
