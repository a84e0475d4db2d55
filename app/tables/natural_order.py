"""Names in the order in which people count: ``w2`` before ``w10``."""

from __future__ import annotations

import re

_NUMBER = re.compile(r"(\d+)", re.ASCII)


def natural_key(name: str) -> tuple[tuple[str, int, str], ...]:
    """Return a key that sorts numbers within names by what they count; equal only for equal names."""
    pieces = _NUMBER.split(name)
    pairs = zip(pieces[::2], [*pieces[1::2], "-1"], strict=True)
    return *((words, int(number), "") for words, number in pairs), ("", 0, name)
