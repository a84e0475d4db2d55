"""Parts and their screws, as the *Picked* region, *Wiring in words* and the speech of the sheet say them."""

from __future__ import annotations

from typing import Any

from app.catalogue.catalogue import settings_of
from app.catalogue.kind import Kind, Terminal
from app.catalogue.spoken import counted, effect_words, plain, upper_first
from app.circuit.operating_point import OperatingPoint
from app.job.model import Part
from app.web.wording.landed import Landed
from app.web.wording.live import short_volts, spoken_volts, terminal_state
from app.web.wording.naming import Naming, choice_words


def part_words(
    naming: Naming, landed: Landed, point: OperatingPoint | None, troubles: dict[str, str]
) -> dict[str, dict[str, Any]]:
    """Return every part by id, in the order of the document. ``troubles`` gives words such as ``1 danger``."""
    return {part: _part(part, naming, landed, point, troubles) for part in naming.layout.parts}


def _part(
    part: str, naming: Naming, landed: Landed, point: OperatingPoint | None, troubles: dict[str, str]
) -> dict[str, Any]:
    said = naming.layout.parts[part]
    kind = naming.kind(part)
    terminals = naming.catalogue.terminals_of(naming.layout, part)
    rows = [_terminal(f"{part}.{letter}", terminals[letter], naming, landed, point) for letter in terminals]
    running = [effect_words(effect) for owner, effect in (point.effects if point else ()) if owner == part]
    return {
        "id": part,
        "label": naming.part(part),
        "inner": naming.inner_part(part),
        "given_label": said.label,
        "kind": said.kind,
        "kind_title": naming.kind_title(part),
        "summary": kind.summary if kind is not None else "Nobody could identify this part.",
        "cautions": list(kind.cautions) if kind is not None else [],
        "place": said.place,
        "air": said.air,
        "note": said.note,
        "terminals": rows,
        "settings": _settings(kind, said) if kind is not None else [],
        "has_settings": "settings" in said.model_fields_set,
        "running": running,
        "aria": _aria(part, naming, rows, running, troubles.get(part, "")),
    }


def _aria(part: str, naming: Naming, rows: list[dict[str, Any]], running: list[str], trouble: str) -> str:
    name, title = naming.part(part), naming.kind_title(part)
    used = sum(1 for row in rows if row["landed"])
    sentences = [name] if title == name else [name, title]
    sentences.append(f"{counted(len(rows), 'terminal')}, {used} landed")
    if running:
        sentences.append(f"Running: {', '.join(running)}")
    if trouble:
        sentences.append(trouble)
    return ". ".join(sentences) + "."


def _terminal(
    terminal: str, declared: Terminal, naming: Naming, landed: Landed, point: OperatingPoint | None
) -> dict[str, Any]:
    part, letter = terminal.split(".", 1)
    name = naming.terminal(terminal)
    state = terminal_state(point, terminal)
    if state is not None and state.floating and not landed.on(terminal):
        # A bare screw that floats is nothing to tell.
        state = None
    wires = [
        {
            "end": end,
            "conductor": end.split(".")[0],
            "far": far,
            "words": f"{naming.conductor(end.split('.')[0])} to {words}",
        }
        for end, far, words in landed.on(terminal)
    ]
    return {
        "terminal": terminal,
        "part": part,
        "letter": letter,
        "name": name,
        "use": declared.use,
        "function": declared.function,
        "side": declared.side,
        "holds": declared.holds,
        "volts": short_volts(state),
        "landed": wires,
        "aria": _terminal_aria(name, declared, wires, spoken_volts(state)),
    }


def _terminal_aria(name: str, declared: Terminal, wires: list[dict[str, Any]], volts: str) -> str:
    joined = "; ".join(wire["words"] for wire in wires)
    landed = f"{counted(len(wires), 'conductor')}: {joined}" if wires else "No conductor"
    sentences = [name, upper_first(declared.use), landed]
    return ". ".join(sentences) + f". {volts + ' ' if volts else ''}Holds {declared.holds}."


def _settings(kind: Kind, part: Part) -> list[dict[str, Any]]:
    values = settings_of(kind, part)
    rows: list[dict[str, Any]] = []
    for name, setting in kind.settings.items():
        row = _setting("setting", name, setting.use, values[name], list(setting.choices))
        rows.append(row | {"unit": setting.unit, "least": setting.least, "most": setting.most})
    for name, jumper in kind.jumpers.items():
        rows.append(
            _setting("jumper", name, f"jumper: {jumper.use or plain(name)}", values[name], ["fitted", "removed"])
        )
    for name, switch in kind.switches.items():
        rows.append(_setting("switch", name, switch.use or plain(name), values[name], list(switch.positions)))
    return rows


def _setting(sort: str, name: str, use: str, value: Any, choices: list[Any]) -> dict[str, Any]:
    if isinstance(value, bool) and not choices:
        choices = [False, True]
    return {
        "sort": sort,
        "name": name,
        "words": upper_first(use or plain(name)),
        "value": value,
        "choices": [{"value": choice, "words": choice_words(choice)} for choice in choices],
    }
