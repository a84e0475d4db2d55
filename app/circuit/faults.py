"""Injected faults: what each changes in the parts, in the conductors' ohms, or in the joins between them.

``at`` is a subject string (``conductor:w3``, ``terminal:fb.R``, ``element:ou.contactor``, ``setting:ou.delay``); a
short and a swap name two. A short or a ground on a conductor touches it at its first landed end. Faults that make
another layout are in ``broken_layout``; all others leave the compiled network as it is.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from math import inf

from app.catalogue.catalogue import Catalogue, settings_of
from app.catalogue.kind import Choice, Coil, Contact, Element, Fuse, Source
from app.circuit.broken_layout import changes_layout, joint_ohms
from app.circuit.fault_places import (
    Held,
    bad_fault,
    conductor_at,
    element_at,
    kind_of,
    one_place,
    point_at,
    two_places,
)
from app.circuit.impedance import wire_ohms
from app.circuit.network import EARTH
from app.circuit.situation import Fault
from app.job.model import Layout
from app.job.names import part_of

JOINING = ("short", "to-ground")


@dataclass(frozen=True, slots=True)
class Injected:
    """What faults change apart from the layout.

    By part: ``overrides`` of settings, ``dead`` coils, slots ``forced_on`` and ``forced_off``. ``joins`` are
    (point, point, ohms) with ``part.NODE`` names or ``earth``.
    """

    overrides: Mapping[str, Mapping[str, Choice]] = field(default_factory=dict)
    dead: Mapping[str, frozenset[str]] = field(default_factory=dict)
    forced_on: Mapping[str, frozenset[str]] = field(default_factory=dict)
    forced_off: Mapping[str, frozenset[str]] = field(default_factory=dict)
    joins: tuple[tuple[str, str, float], ...] = ()
    wires: Mapping[str, float] = field(default_factory=dict)
    """Ohms of conductors with length that are corroded or, infinite, cut; by id."""
    key: Hashable = None
    """Equal for equal faults, apart from joins; None without any."""

    @property
    def parts(self) -> set[str]:
        """Return the parts that are changed or joined."""
        changed = {*self.overrides, *self.dead, *self.forced_on, *self.forced_off}
        return changed | {part_of(name) for one, other, _ in self.joins for name in (one, other) if name != EARTH}


NOTHING = Injected()


def injected(layout: Layout, catalogue: Catalogue, faults: Sequence[Fault]) -> Injected:
    """Return what the other faults change.

    Raises:
        Refused: code ``bad-fault``, when a fault names what is not there.
    """
    if not faults:
        return NOTHING
    overrides: dict[str, dict[str, Choice]] = {}
    dead: dict[str, frozenset[str]] = {}
    forced_on: dict[str, frozenset[str]] = {}
    forced_off: dict[str, frozenset[str]] = {}
    joins: list[tuple[str, str, float]] = []
    wires: dict[str, float] = {}

    def hold(where: dict[str, frozenset[str]], sort: type[Held]) -> Element:
        part, name, element = element_at(layout, catalogue, fault, sort)
        where[part] = where.get(part, frozenset()) | {name}
        return element

    for fault in faults:
        match fault.is_:
            case "short":
                one, other = (point_at(layout, catalogue, fault, at) for at in two_places(fault))
                joins.append((one, other, fault.ohms or 0.0))
            case "to-ground":
                joins.append((point_at(layout, catalogue, fault, one_place(fault)), EARTH, fault.ohms or 0.0))
            case "coil-open":
                hold(dead, Coil)
            case "coil-shorted":
                coil = hold(dead, Coil)
                part = one_place(fault).partition(":")[2].partition(".")[0]
                if isinstance(coil, Coil):
                    joins.append((f"{part}.{coil.between[0]}", f"{part}.{coil.between[1]}", fault.ohms or 0.0))
            case "contact-welded":
                hold(forced_on, Contact)
            case "contact-dead":
                hold(forced_off, Contact)
            case "fuse-open":
                hold(forced_off, Fuse)
            case "source-dead":
                hold(forced_off, Source)
            case "wrong-setting":
                part, name, value = _other_setting(layout, catalogue, fault)
                overrides.setdefault(part, {})[name] = value
            case "conductor-open" | "joint-ohms" if not changes_layout(layout, fault):
                name = conductor_at(layout, fault, one_place(fault))
                more = inf if fault.is_ == "conductor-open" else joint_ohms(fault)
                wires[name] = wires.get(name, _ohms(layout, name)) + more
            case "conductor-open" | "joint-ohms" | "swapped":
                pass  # These make another layout.
    key = tuple((fault.is_, fault.at, fault.ohms) for fault in faults if fault.is_ not in JOINING) or None
    return Injected(overrides, dead, forced_on, forced_off, tuple(joins), wires, key)


def _ohms(layout: Layout, name: str) -> float:
    length_and_size = layout.conductors[name].length_and_size(layout.cables)
    return 0.0 if length_and_size is None else wire_ohms(*length_and_size)


def _other_setting(layout: Layout, catalogue: Catalogue, fault: Fault) -> tuple[str, str, Choice]:
    """Return (part, name, value) of a setting with two values, jumper or switch, as it is not meant to be."""
    at = one_place(fault)
    word, _, full = at.partition(":")
    part, _, name = full.partition(".")
    kind = kind_of(layout, catalogue, part)
    if word != "setting" or kind is None:
        raise bad_fault(
            fault, f"needs a setting, which {at} is not", "a setting, such as setting:ou.valve_energised_in"
        )
    choices: tuple[Choice, ...] = ()
    if name in kind.settings:
        # 1.0 is equal to true for Python; a figure from so much to so much has no one other value.
        is_yes_or_no = isinstance(kind.settings[name].default, bool)
        choices = kind.settings[name].choices or ((False, True) if is_yes_or_no else ())
    elif name in kind.jumpers:
        choices = ("fitted", "removed")
    elif name in kind.switches:
        choices = kind.switches[name].positions
    now = settings_of(kind, layout.parts[part]).get(name)
    others = [choice for choice in choices if choice != now]
    if now not in choices or len(others) != 1:
        raise bad_fault(fault, "leaves open which other value is meant", f"--set {full}=VALUE in its place")
    return part, name, others[0]
