"""How high a line of the chart runs: on, off, or neither."""

from __future__ import annotations

from typing import Literal

Level = Literal["on", "off", "unknown", "chatters", "value"]
"""``value`` is for what is no matter of on and off, such as a temperature; it is written beside its line."""

_BY_WORD: dict[str, Level] = {
    **dict.fromkeys(("on", "pulled-in", "closed", "whole", "fitted"), "on"),
    **dict.fromkeys(("off", "released", "open", "removed"), "off"),
    "unknown": "unknown",
    "chatters": "chatters",
}


def level_of(now: str, before: Level) -> Level:
    """Return the level for a word of a run; a word that says nothing of on and off (``moves first``) leaves it."""
    return _BY_WORD.get(now, before)


def level_of_position(value: object) -> Level:
    """Return the level of a switch, jumper or setting in a position."""
    if isinstance(value, bool):
        return "on" if value else "off"
    return _BY_WORD.get(value, "value") if isinstance(value, str) else "value"
