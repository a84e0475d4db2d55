"""The kinds that a wire list cannot tell: which parts they are asked for, and which kinds have such terminals.

Rules of the file: a kind is suggested only where it has every terminal on which something is landed. Words that a
part's id or label shares with the kind's title come first, then kinds with few terminals to spare.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Kind

_WORD = re.compile(r"[a-z]{3,}")
MOST_SUGGESTIONS = 8


@dataclass(frozen=True)
class Suggestion:
    """A kind that a part may be."""

    kind: str
    title: str


@dataclass(frozen=True)
class KindAsked:
    """A part whose kind nobody has said, the letters that are landed on, and the kinds that fit, best first."""

    part: str
    letters: tuple[str, ...]
    suggestions: tuple[Suggestion, ...]


def kind_asked(part: str, label: str, letters: Iterable[str], catalogue: Catalogue) -> KindAsked:
    """Return what is asked of a part."""
    landed = tuple(letters)
    called = _words(f"{part} {label}")
    fitting = [(name, kind) for name, kind in catalogue.kinds.items() if kind.terminals.keys() >= set(landed)]
    fitting.sort(key=lambda each: (-len(called & _kind_words(*each)), len(each[1].terminals), each[0]))
    best = fitting[:MOST_SUGGESTIONS]
    return KindAsked(part, landed, tuple(Suggestion(name, kind.title) for name, kind in best))


def _words(text: str) -> frozenset[str]:
    return frozenset(_WORD.findall(text.casefold()))


def _kind_words(name: str, kind: Kind) -> frozenset[str]:
    return _words(f"{name} {kind.title}")
