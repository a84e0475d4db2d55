"""Whether two answers are the same up to rounding: arrays and the pure way differ in the last digits."""

from __future__ import annotations

import math
from typing import Any


def same(one: Any, other: Any) -> bool:
    """Return whether two values are the same, floats within them to nine digits or 20 nV."""
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=1e-9, abs_tol=2e-8)
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(same(each, other[key]) for key, each in one.items())
    if isinstance(one, list | tuple) and isinstance(other, list | tuple):
        return len(one) == len(other) and all(map(same, one, other))
    return bool(one == other)
