"""Documents and patches by chance, always the same for the same seed."""

import copy
import random
from collections.abc import Iterator
from typing import Any

from tests.job.samples import sample

JUNK: list[Any] = [
    None, True, False, 0, 1, -1, 1.0, 0.5, 2**53, "", "x", "fb.R", "no.R", "fb", "Fb", "~", "a/b", "\n", "é", "x" * 300,
    [], {}, [None], [[]], {"": 0}, {"kind": "x"}, {"unknown": "?"}, {"ends": [None, None]}, ["fb.R", "tc.R"], "as-left",
]  # fmt: skip
"""Values that fit nowhere, or in one place."""
KEYS = ["fb", "tc", "x", "X", "w1", "", "kind", "ends", "a/b", "m~n", "0", "label", "title", "format", "version"]


def junk(chance: random.Random) -> Any:
    """Return a value of its own."""
    return copy.deepcopy(chance.choice(JUNK))


def places(value: Any, path: str = "") -> Iterator[str]:
    """Yield the JSON Pointer of every value inside a value, and of itself."""
    yield path
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from places(inner, f"{path}/{key.replace('~', '~0').replace('/', '~1')}")
    elif isinstance(value, list):
        for number, inner in enumerate(value):
            yield from places(inner, f"{path}/{number}")


def some_patch(chance: random.Random, document: Any) -> list[dict[str, Any]]:
    """Return one to four operations, most of them at places that exist in ``document`` before the first."""
    known = list(places(document))
    return [_operation(chance, known) for _ in range(chance.randint(1, 4))]


def _operation(chance: random.Random, known: list[str]) -> dict[str, Any]:
    op = chance.choice(["add", "add", "remove", "replace", "replace", "move", "copy", "test"])
    operation: dict[str, Any] = {"op": op, "path": _somewhere(chance, known)}
    if op in ("add", "replace", "test"):
        operation["value"] = junk(chance)
    if op in ("move", "copy"):
        operation["from"] = chance.choice(known)
    return operation


def _somewhere(chance: random.Random, known: list[str]) -> str:
    path = chance.choice(known)
    if chance.random() < 0.3:
        key = chance.choice(KEYS).replace("~", "~0").replace("/", "~1")
        path += "/" + chance.choice([key, "-", "0", "1"])
    return path


def mutated_document(chance: random.Random) -> Any:
    """Return the sample document with one to four values replaced, taken away, added or renamed by chance."""
    box: dict[str, Any] = {"document": sample()}
    for _ in range(chance.randint(1, 4)):
        _mutate(chance, box)
    return box["document"]


def mutated_bytes(chance: random.Random, text: bytes) -> bytes:
    """Return a text with one to five bytes changed, doubled or lost, or a stretch of it said twice."""
    data = bytearray(text)
    for _ in range(chance.randint(1, 5)):
        at = chance.randrange(len(data))
        match chance.choice(["change", "lose", "double", "cut"]):
            case "change":
                data[at] = chance.choice([chance.randrange(256), *b'{}[],:"\\019-.eE'])
            case "lose":
                del data[at]
            case "double":
                end = min(len(data), at + chance.randint(1, 40))
                data[at:at] = data[at:end]
            case "cut" if chance.random() < 0.1:
                del data[at:]
        if not data:
            return b""
    return bytes(data)


def _mutate(chance: random.Random, box: dict[str, Any]) -> None:
    parent, key = chance.choice(list(_slots(box)))
    match chance.choice(["replace", "replace", "take", "add", "rename"]):
        case "take" if parent is not box:
            del parent[key]
        case "add" if isinstance(parent[key], dict):
            parent[key][chance.choice(KEYS)] = junk(chance)
        case "add" if isinstance(parent[key], list):
            parent[key].append(junk(chance))
        case "rename" if isinstance(parent, dict) and parent is not box:
            parent[chance.choice(KEYS)] = parent.pop(key)
        case _:
            parent[key] = junk(chance)


def _slots(parent: Any) -> Iterator[tuple[Any, Any]]:
    keys = list(parent) if isinstance(parent, dict) else range(len(parent))
    for key in keys:
        yield parent, key
        if isinstance(parent[key], dict | list):
            yield from _slots(parent[key])
