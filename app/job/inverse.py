"""The patch that leads back.

Rules of the file: the inverse is found by comparing what was with what is, so it says each thing once, however long
the way there was. Before it overwrites or removes a value it tests it: after somebody else's change it is refused,
never forced. It keeps to the limits of a patch itself, so that whatever was done can be undone in one step; where
single steps would be too many, it speaks of the object or list around them.

JSON Patch has no test of absence. Where the inverse puts back a member that was removed while somebody has set the
same member anew, only what has an id is safe, because ``add`` never overwrites that.
"""

from __future__ import annotations

from typing import Any

from app.job.json_values import written_alike
from app.job.names import pointer

Operation = dict[str, Any]
Steps = tuple[str | int, ...]


def inverse_of(before: Any, after: Any, most_operations: int) -> list[Operation]:
    """Return the operations that lead from ``after`` back to ``before``, at most ``most_operations`` of them."""
    return _back((), before, after, most_operations)


def _back(steps: Steps, before: Any, after: Any, most: int) -> list[Operation]:
    if before is after or (not isinstance(before, dict | list) and written_alike(before, after)):
        return []
    if isinstance(before, dict) and isinstance(after, dict):
        operations = _object_back(steps, before, after, most)
    elif isinstance(before, list) and isinstance(after, list):
        operations = _list_back(steps, before, after, most)
    else:
        return _put_back(steps, before, after)
    return operations if len(operations) <= most else _put_back(steps, before, after)


def _object_back(steps: Steps, before: dict[str, Any], after: dict[str, Any], most: int) -> list[Operation]:
    operations: list[Operation] = []
    for key, value in after.items():
        if key not in before:
            operations += _take_out((*steps, key), value)
    for key, value in before.items():
        if key not in after:
            operations.append({"op": "add", "path": pointer(*steps, key), "value": value})
        else:
            operations += _back((*steps, key), value, after[key], most)
    return operations


def _list_back(steps: Steps, before: list[Any], after: list[Any], most: int) -> list[Operation]:
    start = _alike(before, after)
    end = _alike(before[start:][::-1], after[start:][::-1])
    old, new = before[start : len(before) - end], after[start : len(after) - end]
    if len(old) == len(new):
        operations: list[Operation] = []
        for place, (was, now) in enumerate(zip(old, new, strict=True), start=start):
            operations += _back((*steps, place), was, now, most)
        return operations
    operations = []
    for place in range(start + len(new) - 1, start - 1, -1):
        operations += _take_out((*steps, place), after[place])
    for place, value in enumerate(old, start=start):
        operations.append({"op": "add", "path": pointer(*steps, place), "value": value})
    return operations


def _alike(before: list[Any], after: list[Any]) -> int:
    """Return how many values the two lists have in common from their start."""
    count = 0
    for was, now in zip(before, after, strict=False):
        if not written_alike(was, now):
            break
        count += 1
    return count


def _put_back(steps: Steps, before: Any, after: Any) -> list[Operation]:
    path = pointer(*steps)
    return [{"op": "test", "path": path, "value": after}, {"op": "replace", "path": path, "value": before}]


def _take_out(steps: Steps, value: Any) -> list[Operation]:
    path = pointer(*steps)
    return [{"op": "test", "path": path, "value": value}, {"op": "remove", "path": path}]
