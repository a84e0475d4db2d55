"""The jobs on which figures are measured: the dual-fuel demo, the hundred parts, and rows of any length."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from app.catalogue.opening import Opened, open_job
from tests.demo_jobs.school_row import school_row

DEMOS = Path(__file__).resolve().parents[2] / "demo_jobs"
DUAL_FUEL = "post-office-dual-fuel"
HUNDRED_PARTS = "school-row-hundred-parts"


@cache
def opened(name: str) -> Opened:
    """Return a demo job."""
    return open_job((DEMOS / f"{name}.json").read_bytes())


def row_of(most_parts: int) -> Opened:
    """Return a row of whole, independent systems with at most so many parts."""
    document = school_row(rows=1 + most_parts // 100)
    layout = document["layouts"]["as-left"]
    airs: dict[str, list[str]] = {}
    for part, said in layout["parts"].items():
        airs.setdefault(said["air"], []).append(part)
    kept: set[str] = set()
    for parts in airs.values():
        if len(kept) + len(parts) <= most_parts:
            kept.update(parts)
    layout["parts"] = {part: said for part, said in layout["parts"].items() if part in kept}
    layout["conductors"] = {name: said for name, said in layout["conductors"].items() if _belongs(said, kept)}
    return open_job(json.dumps(document).encode())


def _belongs(conductor: dict[str, Any], kept: set[str]) -> bool:
    return all(end is None or end.split(".")[0] in kept for end in conductor["ends"])
