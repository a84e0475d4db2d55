"""A path as a finger follows it over the drawing: along wires and through parts, and where it stops.

Rules of the file: a leg leads along one conductor, or through one part from screw to screw; inner nodes have no place
on a drawing. A path that stops ends at the last screw, or the last loose end, that was reached.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.catalogue.kind import Contact, JumperElement
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.explain.answer import Explanation, Step
from app.explain.dead_end import dead_end, far_side
from app.explain.leg import Leg, Stopped
from app.explain.names import Names
from app.explain.standing import Standing
from app.explain.why import why
from app.job.names import part_of
from app.job.temperatures import Units


@dataclass(frozen=True, slots=True)
class Followed:
    """What was asked about, and the path that is followed for it.

    ``chain`` begins with the explanation of what was asked about and goes on, one behind the other, to the one whose
    path is followed: a contact that does not close leads on to the coil that should close it. ``stop`` is None where
    all of the path conducts.
    """

    chain: tuple[Explanation, ...]
    legs: tuple[Leg, ...]
    stop: Stopped | None

    @property
    def asked(self) -> Explanation:
        """Return the explanation of what was asked about."""
        return self.chain[0]

    @property
    def path(self) -> Explanation:
        """Return the explanation whose path is followed."""
        return self.chain[-1]


def follow(circuit: Circuit, point: OperatingPoint, subject: str, units: Units = "si") -> Followed:
    """Return the path of an effect or an element at an operating point, as far as it goes.

    Raises:
        Refused: code ``unknown-subject``.
    """
    chain = _chain(why(circuit, point, subject, units)[0])
    found = chain[-1]
    if found.steps:
        reached = found.steps if found.stops_at is None else found.steps[: found.stops_at]
        return Followed(chain, legs_of(reached, circuit), _stop_of(found, circuit))
    if found.stop not in ("no-supply", "no-common", "unknown") or not found.subject.startswith("element:"):
        return Followed(chain, (), None)
    standing, names = Standing(circuit, point), Names(circuit.layout, circuit.catalogue)
    hot, far = dead_end(standing, names, found), far_side(standing, names, found)
    return Followed(chain, (*(hot.legs if hot else ()), *far.legs), hot.stop if hot else far.stop)


def _chain(asked: Explanation) -> tuple[Explanation, ...]:
    """Return what was asked about, and what lies behind it for as long as something behind it does not run either."""
    chain = [asked]
    while chain[-1].stop and chain[-1].reasons:
        behind = chain[-1].reasons[0].behind
        if behind is None or behind.verdict == "runs":
            break
        chain.append(behind)
    return tuple(chain)


def legs_of(steps: Sequence[Step], circuit: Circuit) -> tuple[Leg, ...]:
    """Return the legs of a path: one for each conductor, one for each stretch from screw to screw of a part."""
    legs: list[Leg] = []
    here = ""
    for step in steps:
        on_a_screw = step.reaches in _screws(circuit, part_of(step.reaches))
        if step.subject.startswith("conductor:"):
            legs.append(Leg(step.subject, here, step.reaches))
            here = step.reaches
        elif on_a_screw and here and here != step.reaches:
            legs.append(Leg(f"part:{part_of(step.reaches)}", here, step.reaches))
            here = step.reaches
        elif on_a_screw:
            here = step.reaches
    return tuple(legs)


def _screws(circuit: Circuit, part: str) -> Iterable[str]:
    if part not in circuit.layout.parts:
        return ()
    kind = circuit.catalogue.kind_of(circuit.layout.parts[part])
    if kind is None:
        return (f"{part}.{letter}" for letter in circuit.layout.landed_letters(part))
    return (f"{part}.{letter}" for letter in kind.terminals)


def _stop_of(found: Explanation, circuit: Circuit) -> Stopped | None:
    """Return where the path stops: at the last screw before the first step that does not conduct."""
    if found.stops_at is None:
        return None
    reached = [step.reaches for step in found.steps[: found.stops_at]]
    screws = [each for each in reached if each in _screws(circuit, part_of(each))]
    at = found.steps[found.stops_at]
    place = screws[-1] if screws else _first_screw(found.steps, circuit)
    return Stopped(f"terminal:{place}", _stop_words(found, at, circuit)) if place else None


def _first_screw(steps: Sequence[Step], circuit: Circuit) -> str | None:
    return next((step.reaches for step in steps if step.reaches in _screws(circuit, part_of(step.reaches))), None)


def _stop_words(found: Explanation, step: Step, circuit: Circuit) -> str:
    names = Names(circuit.layout, circuit.catalogue)
    sort, _, name = step.subject.partition(":")
    if found.stop == "mains":
        return f"{names.part(part_of(name))} gives nothing"
    if found.stop == "low-volts":
        return "too few volts"
    if found.stop == "coil-fault":
        return f"{names.inner(*name.split('.', 1))} does nothing"
    if sort == "conductor":
        return f"{names.conductor(name)} broken or lifted"
    element = circuit.elements.get(name)
    inner = names.inner(*name.split(".", 1))
    if isinstance(element, JumperElement):
        return f"{inner} removed"
    if found.stop == "unknown":
        return f"{inner} not known"
    return f"{inner} open" if isinstance(element, Contact) else f"{inner} has opened"
