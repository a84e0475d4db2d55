"""The inverse of a matrix of a few rows, in pure Python."""

from __future__ import annotations

from collections.abc import Sequence

LEAST_PIVOT = 1e-9
"""Two ends nearer to each other than this many ohms count as one."""


def inverse(matrix: Sequence[Sequence[complex]]) -> list[list[complex]]:
    """Return the inverse; a row that depends on others has zeros in its place."""
    size = len(matrix)
    rows = [[*row, *(1 + 0j if at == column else 0j for column in range(size))] for at, row in enumerate(matrix)]
    for column in range(size):
        best = max(range(column, size), key=lambda row: abs(rows[row][column]))
        if abs(rows[best][column]) < LEAST_PIVOT:
            continue
        rows[column], rows[best] = rows[best], rows[column]
        pivot = rows[column][column]
        rows[column] = [each / pivot for each in rows[column]]
        for row in range(size):
            if row != column and rows[row][column]:
                factor = rows[row][column]
                rows[row] = [each - factor * part for each, part in zip(rows[row], rows[column], strict=True)]
    return [row[size:] if abs(row[at]) > LEAST_PIVOT else [0j] * size for at, row in enumerate(rows)]
