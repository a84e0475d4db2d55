"""The settings of a part in one cell: ``fuse_amps=3; equipment=dual-fuel; battery=true``.

Rules of the file: a value is a word, or what JSON writes for it (RFC 8259); a text that is no plain word stands in
quotation marks as in JSON. So 2, 2.0 and "2" stay what they are.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any

from app.job.model import SettingValue
from app.tables.cell import Cell, quoted

_WORD = re.compile(r"(?!(?:true|false|null)$)[A-Za-z][\w /+.-]*(?<! )", re.ASCII)
_SETTING = re.compile(r'\s*([a-z][a-z0-9_]*)\s*=(\s*"(?:[^"\\]|\\.)*"\s*|[^;"]*)(?:;|$)', re.ASCII | re.DOTALL)
FORM = "settings such as “fuse_amps=3; equipment=dual-fuel”, with a semicolon between them"


def settings_text(settings: Mapping[str, SettingValue]) -> str:
    """Return settings as one cell, in the order of their names."""
    return "; ".join(f"{name}={_value_text(settings[name])}" for name in sorted(settings))


def settings_of_cell(cell: Cell) -> dict[str, SettingValue]:
    """Return the settings that a cell says.

    Raises:
        Refused: ``bad-settings``; whether a kind has them is judged with the whole job.
    """
    found: dict[str, SettingValue] = {}
    at = 0
    while cell.text[at:].strip():
        each = _SETTING.match(cell.text, at)
        value = None if each is None else _value(each[2].strip())
        if each is None or value is None:
            raise cell.refuse("bad-settings", f"{quoted(cell.text[at:].strip())} cannot be read.", FORM)
        if each[1] in found:
            raise cell.refuse("bad-settings", f"{each[1]} is set twice.", "each setting once")
        found[each[1]] = value
        at = each.end()
    return found


def _value_text(value: SettingValue) -> str:
    if isinstance(value, str) and _WORD.fullmatch(value):
        return value
    return json.dumps(value, ensure_ascii=False)


def _value(text: str) -> SettingValue | None:
    if _WORD.fullmatch(text):
        return text
    try:
        value: Any = json.loads(text)
    except (ValueError, RecursionError):
        return None
    return value if isinstance(value, bool | int | float | str) else None
