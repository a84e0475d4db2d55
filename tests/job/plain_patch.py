"""RFC 6902 said as plainly as can be, to hold the real one against: it copies everything and changes it in place."""

import copy
from typing import Any


class Impossible(Exception):  # noqa: N818 - an answer, as in the real one
    """The operation has no target, or a test failed."""


def plainly_patched(document: Any, operations: list[dict[str, Any]]) -> Any:
    """Return the document after the operations; raises ``Impossible``."""
    box = [copy.deepcopy(document)]
    for operation in operations:
        _apply(box, operation)
    return box[0]


def _apply(box: list[Any], operation: dict[str, Any]) -> None:
    path = _steps(operation["path"])
    match operation["op"]:
        case "add":
            _put(box, path, copy.deepcopy(operation["value"]))
        case "remove":
            _take(box, path)
        case "replace":
            if len(path) > 1:
                _take(box, path)
            _put(box, path, copy.deepcopy(operation["value"]))
        case "copy":
            _put(box, path, copy.deepcopy(_get(box, _steps(operation["from"]))))
        case "move":
            source = _steps(operation["from"])
            if source != path and path[: len(source)] == source:
                raise Impossible
            _put(box, path, _take(box, source))
        case "test":
            if not _same(_get(box, path), operation["value"]):
                raise Impossible


def _steps(text: str) -> list[str]:
    return ["0", *(step.replace("~1", "/").replace("~0", "~") for step in text.split("/")[1:])]


def _get(box: Any, path: list[str]) -> Any:
    for step in path:
        if isinstance(box, list):
            box = box[_place(step, len(box) - 1)]
        elif isinstance(box, dict) and step in box:
            box = box[step]
        else:
            raise Impossible
    return box


def _put(box: Any, path: list[str], value: Any) -> None:
    parent = _get(box, path[:-1])
    if len(path) == 1:
        box[:] = [value]
    elif isinstance(parent, list):
        parent.insert(len(parent) if path[-1] == "-" else _place(path[-1], len(parent)), value)
    elif isinstance(parent, dict):
        parent[path[-1]] = value
    else:
        raise Impossible


def _take(box: Any, path: list[str]) -> Any:
    value, parent = _get(box, path), _get(box, path[:-1])
    if len(path) == 1:
        raise Impossible
    if isinstance(parent, list):
        del parent[int(path[-1])]
    else:
        del parent[path[-1]]
    return value


def _place(step: str, last: int) -> int:
    if not step.isascii() or not step.isdigit() or str(int(step)) != step or int(step) > last:
        raise Impossible
    return int(step)


def _same(a: Any, b: Any) -> bool:
    if isinstance(a, bool) != isinstance(b, bool):
        return False
    if isinstance(a, list) and isinstance(b, list):
        return len(a) == len(b) and all(map(_same, a, b))
    if isinstance(a, dict) and isinstance(b, dict):
        return a.keys() == b.keys() and all(_same(a[key], b[key]) for key in a)
    numbers = isinstance(a, int | float) and isinstance(b, int | float)
    return a == b and (numbers or type(a) is type(b))
