"""What a JSON Patch would do, in the words of somebody with a screwdriver."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from app.catalogue.spoken import plain
from app.job.names import part_of
from app.web.wording.naming import Naming, choice_words, lower_first

MOST_SAID = 4
"""More acts than these are counted and not told one by one."""


def fix_words(operations: Iterable[Mapping[str, Any]], naming: Naming) -> str:
    """Return one sentence on what the operations do; ``test`` operations do nothing and are left out."""
    acting = [operation for operation in operations if operation.get("op") != "test"]
    acts = [*(_act(operation, naming) for operation in acting), *_notes(acting, naming)]
    said = list(dict.fromkeys(act for act in acts if act))
    if len(said) > MOST_SAID:
        said = [*said[: MOST_SAID - 1], f"and {len(said) - MOST_SAID + 1} more like these"]
    sentence = ", ".join([said[0], *(lower_first(act) for act in said[1:])]) if said else "Change the job"
    return f"{sentence}."


def _notes(operations: Iterable[Mapping[str, Any]], naming: Naming) -> Iterator[str]:
    """Yield one act for each note, with all the conductors that get it."""
    on: dict[str, list[str]] = {}
    for operation in operations:
        steps = str(operation.get("path", "")).split("/")[3:]
        if len(steps) == 3 and (steps[0], steps[2]) == ("conductors", "note"):
            on.setdefault(str(operation.get("value")), []).append(naming.conductor(steps[1]))
    for note, names in on.items():
        rest = len(names) - MOST_SAID + 1
        said = [*names[: MOST_SAID - 1], f"{rest} more"] if rest > 1 else names
        together = " and ".join([", ".join(said[:-1]), said[-1]] if len(said) > 1 else said)
        yield f"Note \u201c{note}\u201d on {together}"


def _act(operation: Mapping[str, Any], naming: Naming) -> str:
    steps = [step.replace("~1", "/").replace("~0", "~") for step in str(operation.get("path", "")).split("/")[3:]]
    match steps:
        case ["conductors", name]:
            return _conductor_act(name, operation, naming)
        case ["conductors", name, "ends", _]:
            end = operation.get("value")
            return (
                f"Land {naming.conductor(name)} on {naming.terminal(end)}"
                if isinstance(end, str)
                else f"Take {naming.conductor(name)} off"
            )
        case ["parts", part, "settings", setting]:
            return _setting_act(part, setting, operation.get("value"), naming)
        case ["parts", part]:
            return f"Remove {naming.inner_part(part)}" if operation.get("op") == "remove" else f"Add {part}"
    return ""


def _conductor_act(name: str, operation: Mapping[str, Any], naming: Naming) -> str:
    if operation.get("op") == "remove":
        return f"Remove {naming.conductor(name)}"
    ends = operation.get("value", {}).get("ends", [])
    landed = [naming.terminal(end) for end in ends if isinstance(end, str) and part_of(end) in naming.layout.parts]
    return f"Run a new conductor from {' to '.join(landed)}"


def _setting_act(part: str, setting: str, value: Any, naming: Naming) -> str:
    kind = naming.kind(part)
    where = naming.inner_part(part)
    if kind is not None and setting in kind.jumpers:
        act = "Fit" if value == "fitted" else "Remove"
        return f"{act} the jumper on {where} ({lower_first(kind.jumpers[setting].use or plain(setting))})"
    use = kind.settings[setting].use if kind is not None and setting in kind.settings else ""
    return f"Set {lower_first(use or plain(setting))} to {choice_words(value)}, on {where}"
