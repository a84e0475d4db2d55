"""What a kind names, and what each name may be asked for.

Rules of the file: one namespace a kind. A name that a term may ask for is never the name of a call
without a hyphen, of ``outdoor_c`` or of a word of the language of terms, because a term could not tell them apart.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

from app.catalogue.kind import CallName, Coil, Fuse, Input, Kind, Load
from app.catalogue.reading_terms import KEYWORDS
from app.job.refusal import Refused

CALL_NAMES: tuple[str, ...] = get_args(CallName)
RESERVED = frozenset({"calls", "outdoor_c", *KEYWORDS, *CALL_NAMES})


def names_of(kind: Kind) -> Iterator[tuple[str, str]]:
    """Yield (where it stands, name) of everything that the kind names, in a fixed order."""
    for name in kind.settings:
        yield "settings", name
    for name in kind.switches:
        yield "switches", name
    for name in kind.jumpers:
        yield "jumpers", name
    for name in kind.elements:
        yield "elements", name
    for name in kind.states:
        yield "states", name


def check_names(kind: Kind) -> None:
    """Refuse a name that is said twice or that a term could not tell from something else.

    Raises:
        Refused: ``name-clash``; the pointer is within the kind.
    """
    seen: dict[str, str] = {}
    for where, name in names_of(kind):
        if name in RESERVED:
            raise Refused(
                "name-clash",
                f"{name!r} means something else in terms, so nothing may be named so.",
                pointer=f"/{where}/{name}",
                would_be_right=f"another name, such as {name}_1",
            )
        if name in seen:
            raise Refused(
                "name-clash",
                f"{name!r} stands under {seen[name]} and under {where}; they share one set of names.",
                pointer=f"/{where}/{name}",
                would_be_right=f"another name, such as {name}_c",
            )
        seen[name] = where


def askable_elements(kind: Kind) -> Iterator[str]:
    """Yield the elements that a term may ask for: those with a state that only the circuit decides."""
    for name, element in kind.elements.items():
        if isinstance(element, Coil | Fuse | Input) or (isinstance(element, Load) and element.powers_above is not None):
            yield name
