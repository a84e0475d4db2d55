"""Which columns of an array of words are equal."""

from __future__ import annotations

import numpy as np

from app.circuit.batch.array_types import Numbers, Words

_MULTIPLIER = np.uint64(0x9E3779B97F4A7C15)
"""Any large odd number spreads bits; this one is 2^64 over the golden section."""


def mixed(keys: Words) -> Words:
    """Return one number for each column; equal for equal columns, and nearly never for others."""
    found: Words = keys[0].copy()
    for row in keys[1:]:
        found *= _MULTIPLIER
        found ^= found >> np.uint64(29)
        found += row
    return found


def distinct_columns(keys: Words) -> tuple[Numbers, Numbers]:
    """Return (a column for each distinct one, for each column the number of its like)."""
    _, first, inverse = np.unique(mixed(keys), return_index=True, return_inverse=True)
    # Two different columns may mix to one number, however rarely; then all are compared in full.
    if np.array_equal(keys[:, first[inverse]], keys):
        return first, inverse
    _, first, inverse = np.unique(keys, axis=1, return_index=True, return_inverse=True)
    return first, inverse.reshape(-1)
