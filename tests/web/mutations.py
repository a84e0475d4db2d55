"""Mutated documents and random patches: most are refused, some are legal and strange. Same seed, same ones."""

from __future__ import annotations

import copy
import random
from typing import Any

from tests.job.chance import JUNK, KEYS, places
from tests.web.sample import gas_and_cooling

# What a mutation puts in: junk of every type, and things that may well be legal at a strange place.
LIKELY: list[Any] = [
    "fb.R", "fb.C", "xf.R", "tc.Y", "ou.Y", "fb.XF", "fb.L1", None, {"unknown": "behind the wall"}, 14.0, 18, "RD", 5,
    {"kind": "splice"}, {"kind": "unknown"}, {"kind": "control-transformer"}, {"kind": "thermostat-dual-fuel"},
    {"ends": ["fb.R", "fb.C"]}, {"ends": ["xf.R", None]}, {"ends": ["fb.W", "tc.Y"], "length_m": 900.0, "size_awg": 30},
    {"parts": {}, "conductors": {}}, [480, 120], [0, 0], "control-transformer", "splice", "open", "fitted",
]  # fmt: skip
KIND: dict[str, Any] = {
    "title": "Box",
    "summary": "A box of one's own.",
    "terminals": {
        "A": {"function": "call", "use": "in"},
        "B": {"function": "common", "use": "common"},
    },
    "elements": {"relay": {"is": "coil", "between": ["A", "B"], "va_sealed": 5, "va_inrush": 10}},
    "states": {"on": "relay"},
    "effects": {"pump": "on"},
}


def whole_document() -> dict[str, Any]:
    """Return a job that uses every part of the format: cable, unknown end, kind of its own, second layout."""
    document = gas_and_cooling("fb.HUM box.A", "box.B fb.C")
    layout = document["layouts"]["as-left"]
    layout["parts"]["box"] = {"kind": "box", "label": "Box", "at": [480, 120], "settings": {}}
    layout["parts"]["fb"]["settings"] = {"fuse_amps": 5, "limit": "closed"}
    layout["cables"] = {"cb1": {"label": "to the hall", "size_awg": 18, "length_m": 14.0}}
    layout["conductors"]["w3"].update({"cable": "cb1", "insulation": "RD"})
    layout["conductors"]["w-x"] = {"ends": [None, {"unknown": "behind the drywall"}], "size_awg": 18, "length_m": 3}
    document["kinds"] = {"box": copy.deepcopy(KIND)}
    document["layouts"]["as-found"] = {"parts": {"tc": {"kind": "thermostat-heat-only"}}}
    document["records"] = {"accepted": [{"rule": "chatter", "subjects": ["part:fb"], "reason": "known"}]}
    return document


def mutated_document(chance: random.Random) -> Any:
    """Return the whole document with one to three values replaced, taken away, added or renamed."""
    box: dict[str, Any] = {"document": whole_document()}
    for _ in range(chance.randint(1, 3)):
        _mutate(chance, box)
    return box["document"]


def random_patch(chance: random.Random, document: Any) -> list[dict[str, Any]]:
    """Return one to five operations at places of ``document`` or beside them."""
    known = list(places(document))
    return [_operation(chance, known) for _ in range(chance.randint(1, 5))]


def _operation(chance: random.Random, known: list[str]) -> dict[str, Any]:
    op = chance.choice(["add", "add", "add", "remove", "replace", "replace", "replace", "move", "copy", "test", "turn"])
    path = chance.choice(known)
    if chance.random() < 0.4:
        path += "/" + chance.choice([*KEYS, "w-new", "p-new", "-", "0", "1"]).replace("~", "~0").replace("/", "~1")
    operation: dict[str, Any] = {"op": op, "path": path}
    if op in ("add", "replace", "test") or chance.random() < 0.05:
        operation["value"] = _value(chance)
    if op in ("move", "copy"):
        operation["from"] = chance.choice(known)
    if chance.random() < 0.02:
        del operation[chance.choice(list(operation))]
    return operation


def _value(chance: random.Random) -> Any:
    return copy.deepcopy(chance.choice(LIKELY if chance.random() < 0.6 else JUNK))


def _mutate(chance: random.Random, box: dict[str, Any]) -> None:
    slots = list(_slots(box))
    parent, key = chance.choice(slots)
    match chance.choice(["replace", "replace", "take", "add", "rename"]):
        case "take" if parent is not box:
            del parent[key]
        case "add" if isinstance(parent[key], dict):
            parent[key][chance.choice([*KEYS, "w-new", "p-new"])] = _value(chance)
        case "add" if isinstance(parent[key], list):
            parent[key].append(_value(chance))
        case "rename" if isinstance(parent, dict) and parent is not box:
            parent[chance.choice(KEYS)] = parent.pop(key)
        case _:
            parent[key] = _value(chance)


def _slots(parent: Any) -> list[tuple[Any, Any]]:
    found = []
    for key in list(parent) if isinstance(parent, dict) else range(len(parent)):
        found.append((parent, key))
        if isinstance(parent[key], dict | list):
            found.extend(_slots(parent[key]))
    return found
