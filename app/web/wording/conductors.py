"""Conductors and their ends in words."""

from __future__ import annotations

from typing import Any

from app.circuit.operating_point import OperatingPoint
from app.job.model import Conductor, UnknownEnd
from app.job.names import part_of
from app.web.wording.live import is_hot, spoken_volts, terminal_state
from app.web.wording.naming import Naming
from app.web.wording.run_words import length_words


def conductor_words(naming: Naming, point: OperatingPoint | None, units: str = "us") -> dict[str, dict[str, Any]]:
    """Return every conductor by id, in the order of the document; lengths in ``units``."""
    layout = naming.layout
    return {name: _conductor(name, each, naming, point, units) for name, each in layout.conductors.items()}


def _conductor(
    name: str, conductor: Conductor, naming: Naming, point: OperatingPoint | None, units: str
) -> dict[str, Any]:
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
        "run": _run(conductor, naming, units),
        "length_m": conductor.length_m,
        "size_awg": conductor.size_awg,
        "note": conductor.note,
        "ends": [_end(name, index, conductor, naming) for index in (0, 1)],
        "live": " ".join(live),
        "aria": " ".join([f"{title}. {between}.", *live]),
    }


def _run(conductor: Conductor, naming: Naming, units: str) -> str:
    """Return length and gauge, of its own or of its cable; nothing for an ideal join."""
    found = conductor.length_and_size(naming.layout.cables)
    return length_words(*found, units) if found is not None else ""


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
        "unseen": isinstance(end, UnknownEnd),
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
