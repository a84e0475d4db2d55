"""A path as steps with the state and the volts of each."""

from __future__ import annotations

from app.explain.answer import Step
from app.explain.paths import Hop, Path
from app.explain.standing import Standing
from app.explain.ways import Way


def steps_of(standing: Standing, device: Way, path: Path) -> tuple[Step, ...]:
    """Return the steps of a path: the source, all ways to the device, the device, and all ways back."""
    common = _common_terminal(standing, path)
    element = standing.point.elements[path.source.name]
    state = "live" if standing.is_on(path.source.name) else "off"
    first = Step(
        path.source.subject, state, path.source.a, element.volts, element.amps, _to(standing, path.source.a, common)
    )
    own = standing.point.elements[device.name]
    back_at = device.b if not path.to_device or path.to_device[-1].reaches == device.a else device.a
    itself = Step(device.subject, own.state, back_at, own.volts, own.amps, _to(standing, back_at, common))
    there = tuple(_step(standing, hop, common) for hop in path.to_device)
    back = tuple(_step(standing, hop, common) for hop in path.to_common)
    return (first, *there, itself, *back)


def _step(standing: Standing, hop: Hop, common: str | None) -> Step:
    way = hop.way
    to_common = _to(standing, hop.reaches, common)
    if way.sort == "short":
        return Step(way.subject, "closed", hop.reaches, None, None, to_common)
    if way.sort == "conductor":
        found = standing.point.conductors.get(way.name)
        state = "live" if standing.conducts(way) else "cut"
        return Step(
            way.subject, state, hop.reaches, _across(standing, way), None if found is None else found.amps, to_common
        )
    element = standing.point.elements[way.name]
    return Step(way.subject, _word(way, element.state), hop.reaches, element.volts, element.amps, to_common)


def _word(way: Way, state: str) -> str:
    if way.sort == "jumper":
        return "fitted" if state == "closed" else "removed"
    return state or "live"


def _across(standing: Standing, way: Way) -> float | None:
    if way.a in standing.point.terminals and way.b in standing.point.terminals:
        return standing.point.volts_between(way.a, way.b)
    return None


def _to(standing: Standing, point: str, common: str | None) -> float | None:
    if common is None or point not in standing.point.terminals:
        return None
    return standing.point.volts_between(point, common)


def _common_terminal(standing: Standing, path: Path) -> str | None:
    """Return the terminal on the common side of the source, or the first that its way back comes to."""
    points = [path.source.b, *(hop.reaches for hop in reversed(path.to_common[:-1]))]
    for way in standing.ways.around(path.source.b):
        if way.sort == "trace":
            points.insert(1, way.other(path.source.b))
    return next((point for point in points if point in standing.point.terminals), None)
