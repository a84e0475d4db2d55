"""The shapes of ids, terminals and subjects, said once."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from typing import Annotated

from pydantic import StringConstraints

ID_PATTERN = r"^[a-z][a-z0-9_-]{0,31}$"
LETTER_PATTERN = r"^[A-Z0-9][A-Za-z0-9/+_-]{0,11}$"
TERMINAL_PATTERN = r"^[a-z][a-z0-9_-]{0,31}\.[A-Z0-9][A-Za-z0-9/+_-]{0,11}$"
INSULATION_PATTERN = r"^[A-Z]{2,8}(/[A-Z]{2,8})?$"

Id = Annotated[str, StringConstraints(pattern=ID_PATTERN)]
TerminalName = Annotated[str, StringConstraints(pattern=TERMINAL_PATTERN)]
Insulation = Annotated[str, StringConstraints(pattern=INSULATION_PATTERN)]

_ID = re.compile(ID_PATTERN.strip("^$"))


def is_id(text: str) -> bool:
    """Return whether ``text`` may name a part, cable, conductor, kind or layout."""
    return _ID.fullmatch(text) is not None


def part_of(terminal: str) -> str:
    """Return the part of a terminal: ``fb`` of ``fb.R``."""
    return terminal.split(".", 1)[0]


def letter_of(terminal: str) -> str:
    """Return the letter of a terminal: ``R`` of ``fb.R``."""
    return terminal.split(".", 1)[1]


_NUMBERED = re.compile(r"(.*\d)-[a-z0-9]{5}")


def short_names(ids: Iterable[str]) -> Mapping[str, str]:
    """Return what people call each id: ``w8`` for ``w8-7kq2x``, where no other of them would be called so too.

    The five last characters keep two editors apart; nobody should have to read them from a drawing.
    """
    short = {each: found[1] if (found := _NUMBERED.fullmatch(each)) else each for each in ids}
    shared = Counter(short.values())
    return {each: said if shared[said] == 1 else each for each, said in short.items()}


def pointer(*steps: str | int) -> str:
    """Return a JSON Pointer (RFC 6901) from its unescaped steps."""
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in steps)
