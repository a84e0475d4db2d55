"""How the demo jobs stand in their files: one part, cable or conductor a line, so that a person can read them."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

_ONE_A_LINE = frozenset({"parts", "cables", "conductors", "kinds"})


def job_text(document: Mapping[str, Any]) -> str:
    """Return a job document as text of a file, the same bytes for the same document."""
    return _text(document, "", "") + "\n"


def _text(value: Any, key: str, indent: str) -> str:
    if not isinstance(value, Mapping) or not value:
        return json.dumps(value, ensure_ascii=False)
    inner = indent + "  "
    if key in _ONE_A_LINE:
        lines = [f"{inner}{json.dumps(name)}: {json.dumps(each, ensure_ascii=False)}" for name, each in value.items()]
    else:
        lines = [f"{inner}{json.dumps(name)}: {_text(each, name, inner)}" for name, each in value.items()]
    return "{\n" + ",\n".join(lines) + f"\n{indent}}}"
