"""Anything of a layout explained: what runs and why, or what a conductor is for."""

from __future__ import annotations

from dataclasses import dataclass

from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve, solve_all
from app.explain.answer import Explanation
from app.explain.losing import Lost, happenings, lost_without
from app.explain.names import Names
from app.explain.purpose_words import conductor_sentences
from app.explain.role import Role
from app.explain.roles import roles_of
from app.explain.why import why
from app.job.temperatures import Units


@dataclass(frozen=True, slots=True)
class ConductorPurpose:
    """What a conductor is for, and what is lost without it."""

    role: Role
    lost: tuple[Lost, ...]


@dataclass(frozen=True, slots=True)
class Explained:
    """The answer about one subject: explanations, or the purpose of a conductor; and all of it in words."""

    subject: str
    explanations: tuple[Explanation, ...]
    purpose: ConductorPurpose | None
    words: tuple[str, ...]


def explain(circuit: Circuit, situation: Situation, subject: str, units: Units = "si") -> Explained:
    """Return a subject explained in a situation; what a conductor is for does not hang on it.

    Raises:
        Refused: code ``unknown-subject``.
    """
    sort, _, name = subject.partition(":")
    if sort == "conductor" and name in circuit.layout.conductors:
        return explain_conductor(circuit, name)
    return explain_point(circuit, solve(circuit, situation), subject, units)


def explain_point(circuit: Circuit, point: OperatingPoint, subject: str, units: Units = "si") -> Explained:
    """Return a part, an element or an effect explained at an operating point, such as a moment of a sequence.

    Raises:
        Refused: code ``unknown-subject``.
    """
    found = why(circuit, point, subject, units)
    lines: list[str] = []
    for each in found:
        lines += [line for line in each.words if line not in lines]
    return Explained(subject, found, None, tuple(lines))


def explain_conductor(circuit: Circuit, name: str) -> Explained:
    """Return what a conductor is for: its role, when it is hot, what each call loses without it."""
    layout, catalogue = circuit.layout, circuit.catalogue
    points = solve_all(circuit, situations_of(layout, catalogue))
    role = roles_of(layout, catalogue, circuit, points)[name]
    lost = lost_without(circuit, [name], points)[name]
    if not lost and role.name not in ("spare", "unknown"):
        # What no call needs may be needed once something else happens, such as a defrost.
        more = solve_all(circuit, happenings(circuit, name))
        lost = lost_without(circuit, [name], more)[name]
    words = conductor_sentences(Names(layout, catalogue), name, role, lost)
    return Explained(f"conductor:{name}", (), ConductorPurpose(role, lost), words)
