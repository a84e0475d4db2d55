"""What does not run: first what a person waits for with the calls that are asked, then all else that could run.

Rules of the file: what a call has to bring is known to the checks; that cooling and heat want air moved, and a
compressor its outdoor fan, is common practice (no source).
"""

from __future__ import annotations

from collections.abc import Iterable

from app.catalogue.spoken import effect_words
from app.checks.facts.calls import BRINGS
from app.circuit.operating_point import OperatingPoint
from app.web.wording.naming import Naming

COMES_WITH = {
    "cooling": frozenset({"compressor", "outdoor-fan", "indoor-fan"}),
    "heat-pump-heating": frozenset({"compressor", "outdoor-fan", "indoor-fan"}),
    "furnace-heat": frozenset({"indoor-fan"}),
    "electric-heat": frozenset({"indoor-fan"}),
}
"""What runs beside an effect where the equipment has it."""


def idle_rows(naming: Naming, point: OperatingPoint | None) -> list[dict[str, object]]:
    """Return each effect that could run and does not: ``key``, ``part``, ``words``, ``of``, and whether it is waited
    for. Those that are waited for come first."""
    if point is None:
        return []
    could = [(part, effect) for part in naming.layout.parts for effect in _effects_of(naming, part)]
    running = set(point.effects)
    waited = _waited_for([effect for _, effect in could], [effect for _, effect in running], _asked(point))
    rows: list[dict[str, object]] = [
        {
            "key": f"{part}:{effect}",
            "part": part,
            "words": effect_words(effect),
            "of": naming.part(part),
            "waited": effect in waited,
        }
        for part, effect in could
        if (part, effect) not in running
    ]
    return sorted(rows, key=lambda row: not row["waited"])


def waiting_sentence(rows: Iterable[dict[str, object]]) -> str:
    """Return ``Not running: outdoor fan.``, nothing where all that is waited for runs."""
    names = [str(row["words"]) for row in rows if row["waited"]]
    return f"Not running: {', '.join(dict.fromkeys(names))}." if names else ""


def _effects_of(naming: Naming, part: str) -> Iterable[str]:
    kind = naming.kind(part)
    return kind.effects if kind is not None else ()


def _asked(point: OperatingPoint) -> list[str]:
    return [call for calls in point.situation.calls.values() for call in calls]


def _waited_for(could: list[str], running: list[str], calls: Iterable[str]) -> set[str]:
    """Return the effects of which somebody who asks for these calls wonders why they are missing."""
    waited: set[str] = set()
    for call in calls:
        wanted = BRINGS.get(call, frozenset()) & frozenset(could)  # type: ignore[call-overload]
        there = wanted & frozenset(running)
        for effect in there or wanted:
            waited |= {effect, *COMES_WITH.get(effect, ())}
    return waited - set(running)
