"""What the subjects and causes of a run are called on a chart, so that each can be found at the equipment.

Rules of the file: a contact that has a letter for a name, mostly that of a screw, is called by its screws; one that is
called by what closes it (``run_c``) has that name. All other names are those of ``app.sequence.telling``.
"""

from __future__ import annotations

from app.catalogue.kind import Contact
from app.circuit.network import Circuit
from app.sequence.event import CHANGE, TIMER
from app.sequence.telling import because_words, subject_words

CLOSED_BY = " c"


def called(what: str, circuit: Circuit) -> tuple[str, str]:
    """Return (part, name in words) of a subject string: ``("tc", "contact R to W")``."""
    part, words = subject_words(what)
    contact = circuit.elements.get(what.removeprefix("element:"))
    if not isinstance(contact, Contact):
        return part, words
    letters = circuit.catalogue.terminals_of(circuit.layout, part)
    # A screw with two letters (O/B) has either for a name.
    named = {name for letter in contact.between for name in (letter, *letter.split("/"))}
    says_nothing = len(words) == 1 or words.upper() in named
    if says_nothing and letters.keys() >= set(contact.between):
        return part, f"contact {' to '.join(contact.between)}"
    return part, words.removesuffix(CLOSED_BY)


def because(cause: str, part: str, circuit: Circuit) -> str:
    """Return a cause in words, as they stand behind something of ``part``: ``contact R to W (tc)``."""
    if cause.startswith((CHANGE, TIMER)):
        return because_words(cause, part)
    other, words = called(cause, circuit)
    return words if other == part else f"{words} ({other})"
