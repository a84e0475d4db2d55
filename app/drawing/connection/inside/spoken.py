"""The words beside elements and nodes inside a part.

A contact is named after what moves it, as on a ladder diagram: a coil and its contacts have one name.
"""

from __future__ import annotations

from app.catalogue.called import called, switch_called
from app.catalogue.kind import Contact, Kind, Trace
from app.catalogue.spoken import plain
from app.drawing.surface.geometry import Point
from app.drawing.surface.text_width import fitted, width_of
from app.drawing.surface.verbs import LETTER, SMALL, Anchor, Text

NODE_MOST = 60
WORDS_MOST = 86
"""Above an element, and at the end of a row."""
LETTER_DOWN, WORDS_DOWN = 5, 4
"""From the line down to the baseline."""


def element_words(name: str, kind: Kind) -> str:
    """Return what stands above an element; nothing for a join."""
    element = kind.elements[name]
    if isinstance(element, Trace):
        return ""
    if not isinstance(element, Contact):
        return _with_room(called(kind, name), name)
    if element.by != "calls":
        by_switch = element.by in kind.switches
        return _with_room(switch_called(kind, element.by) if by_switch else called(kind, element.by), element.by)
    return _calls_words([plain(call) for call, said in kind.calls.items() if name in said.closes]) or plain(name)


def _with_room(words: str, name: str) -> str:
    """Return words where there is room for them; else the name in the kind, which is short."""
    return words if width_of(words, SMALL) <= WORDS_MOST else plain(name)


def _calls_words(calls: list[str]) -> str:
    words = ", ".join(calls)
    return words if width_of(words, SMALL) <= WORDS_MOST else f"{calls[0]} + {len(calls) - 1} more"


def node_text(nodes: tuple[str, ...], kind: Kind, at: Point, anchor: Anchor) -> Text:
    """Return the name of a node, or of several that are joined, beside a line at ``at``."""
    if all(node in kind.terminals for node in nodes):
        words = " ".join(nodes)
        return Text(Point(at.x, at.y + LETTER_DOWN), words, LETTER, width_of(words, LETTER), anchor)
    words = fitted(", ".join(node if node in kind.terminals else plain(node) for node in nodes), SMALL, NODE_MOST)
    return Text(Point(at.x, at.y + WORDS_DOWN), words, SMALL, width_of(words, SMALL), anchor)
