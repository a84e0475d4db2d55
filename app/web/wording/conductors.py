"""Conductors and their ends in words."""

from __future__ import annotations

from typing import Any

from app.circuit.operating_point import OperatingPoint
from app.job.model import Conductor
from app.job.names import part_of
from app.web.wording.live import is_hot, spoken_volts, terminal_state
from app.web.wording.naming import Naming


def conductor_words(naming: Naming, point: OperatingPoint | None) -> dict[str, dict[str, Any]]:
    """Return every conductor by id, in the order of the document."""
    return {name: _conductor(name, conductor, naming, point) for name, conductor in naming.layout.conductors.items()}


def _conductor(name: str, conductor: Conductor, naming: Naming, point: OperatingPoint | None) -> dict[str, Any]:
    live = _live_sentences(name, conductor, naming, point)
    between = f"{naming.end(conductor.ends[0])}, to {naming.end(conductor.ends[1])}"
    called = naming.conductor(name)
    title = f"{called}, {conductor.insulation}" if conductor.insulation else called
    return {
        "id": name,
        "name": called,
        "title": title,
        "between": between,
        "insulation": conductor.insulation or "",
        "cable": conductor.cable,
        "cable_label": _cable_label(conductor, naming),
        "note": conductor.note,
        "ends": [_end(name, index, conductor, naming) for index in (0, 1)],
        "live": " ".join(live),
        "aria": " ".join([f"{title}. {between}.", *live]),
    }


def _cable_label(conductor: Conductor, naming: Naming) -> str:
    if conductor.cable is None:
        return ""
    cable = naming.layout.cables.get(conductor.cable)
    return (cable.label if cable else "") or conductor.cable


def _end(name: str, index: int, conductor: Conductor, naming: Naming) -> dict[str, Any]:
    end, far = conductor.ends[index], conductor.ends[1 - index]
    where = naming.end(end)
    landed = end if isinstance(end, str) else None
    far_words = f"Other end on {naming.terminal(far)}" if isinstance(far, str) else f"Other end {naming.end(far)}"
    return {
        "end": f"{name}.{index}",
        "terminal": landed,
        "words": where,
        "aria": f"{naming.conductor(name)}, end {index + 1}, {'on ' if landed else ''}{where}. {far_words}.",
    }


def _live_sentences(name: str, conductor: Conductor, naming: Naming, point: OperatingPoint | None) -> list[str]:
    landed = conductor.landed()
    if point is None or not landed:
        return []
    state = terminal_state(point, landed[0])
    volts = spoken_volts(state).replace(" to common.", ".")
    sentences = [f"Hot, {volts}" if is_hot(state) else volts] if volts else []
    carried = point.conductors.get(name)
    if carried is not None and carried.toward is not None:
        toward = conductor.ends[carried.toward]
        where = f" toward {naming.inner_part(part_of(toward))}" if isinstance(toward, str) else ""
        sentences.append(f"Carries {carried.amps:.2f} amps{where}.")
    return sentences
