"""JSON read strictly: what two readers could understand in two ways is refused."""

from __future__ import annotations

import json
from typing import Any

from app.job.json_values import LARGEST_INTEGER, MOST_DEPTH, RepeatedKey, UnfitNumber, refuse_unfit
from app.job.refusal import Refused

_LONGEST_INTEGER = len(str(-LARGEST_INTEGER))


def parse_json(data: bytes, most_bytes: int, what: str) -> Any:
    """Return the value of a JSON text (RFC 8259, and I-JSON of RFC 7493).

    Args:
        data: the text as UTF-8 bytes.
        most_bytes: how long it may be.
        what: the name of the thing for messages, such as ``"job"``.

    Raises:
        Refused: ``too-large``, ``not-utf8``, ``not-json``, ``too-deep``, ``repeated-key``, ``not-a-number`` or
            ``bad-character``, with a pointer to the place.
    """
    if len(data) > most_bytes:
        raise Refused(
            "too-large",
            f"The {what} is {len(data):,} bytes long.",
            pointer="",
            would_be_right=f"at most {most_bytes:,} bytes",
            status_hint=413,
        )
    value = _read(_decoded(data, what), what)
    refuse_unfit(value)
    return value


def _decoded(data: bytes, what: str) -> str:
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise Refused(
            "not-utf8",
            f"The {what} is not UTF-8 text: byte {error.start + 1} does not belong to a character.",
            pointer="",
            would_be_right="JSON text in UTF-8",
        ) from None
    if text.startswith("\ufeff"):
        raise Refused(
            "not-json",
            f"The {what} starts with a byte order mark, which JSON does not have.",
            pointer="",
            would_be_right="JSON text in UTF-8 without byte order mark",
        )
    return text


def _read(text: str, what: str) -> Any:
    try:
        return json.loads(text, object_pairs_hook=_object, parse_int=_integer, parse_constant=UnfitNumber)
    except json.JSONDecodeError as error:
        raise Refused(
            "not-json",
            f"The {what} is not JSON: line {error.lineno}, column {error.colno}: {error.msg}.",
            pointer="",
            would_be_right="one JSON value (RFC 8259)",
        ) from None
    except RecursionError:
        raise Refused(
            "too-deep",
            f"Objects and lists of the {what} lie far more than {MOST_DEPTH} deep in each other.",
            pointer="",
            would_be_right=f"at most {MOST_DEPTH} levels",
        ) from None


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    read = dict(pairs)
    if len(read) == len(pairs):
        return read
    seen: set[str] = set()
    for key, _ in pairs:
        if key in seen:
            return RepeatedKey(pairs, key)
        seen.add(key)
    raise AssertionError("fewer keys than pairs, yet none stands twice")


def _integer(text: str) -> int | UnfitNumber:
    # Python refuses to convert thousands of digits with an error that has no place; the walk has one.
    return int(text) if len(text) <= _LONGEST_INTEGER else UnfitNumber(text)
