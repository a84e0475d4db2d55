"""Injected faults: what each changes in the layout, in its parts, or in the joins between them.

A fault that cuts or moves a conductor makes another layout; all others leave the compiled network as it is. ``at``
is a subject string (``conductor:w3``, ``terminal:fb.R``, ``element:ou.contactor``, ``setting:ou.delay``), a short and
a swap name two. A short or a ground on a conductor touches it at its first landed end.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field

from app.catalogue.catalogue import Catalogue, settings_of
from app.catalogue.kind import Choice, Coil, Contact, Element, Fuse, Kind, Source
from app.circuit.impedance import wire_ohms
from app.circuit.network import EARTH
from app.circuit.situation import Fault
from app.job.model import Conductor, Layout, Part
from app.job.names import part_of
from app.job.refusal import Refused

Held = Coil | Contact | Fuse | Source


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
    key: Hashable = None
    """Equal for equal faults, apart from joins; None without any."""

    @property
    def parts(self) -> set[str]:
        """Return the parts that are changed or joined."""
        changed = {*self.overrides, *self.dead, *self.forced_on, *self.forced_off}
        return changed | {part_of(name) for one, other, _ in self.joins for name in (one, other) if name != EARTH}


NOTHING = Injected()
JOINING = ("short", "to-ground")
IN_THE_LAYOUT = ("conductor-open", "joint-ohms", "swapped")


def broken_layout(layout: Layout, faults: Sequence[Fault]) -> Layout:
    """Return the layout with the faults that cut, corrode or swap conductors.

    Raises:
        Refused: code ``bad-fault``, when a fault names what is not there.
    """
    conductors = dict(layout.conductors)
    for fault in faults:
        match fault.is_:
            case "conductor-open":
                name = _conductor(layout, fault, _one(fault))
                conductors[name] = conductors[name].model_copy(update={"ends": (None, None)})
            case "joint-ohms":
                name = _conductor(layout, fault, _one(fault))
                conductors[name] = _corroded(layout, conductors[name], fault)
            case "swapped":
                _swap(layout, conductors, fault)
            case _:
                continue
    return layout if conductors == layout.conductors else layout.model_copy(update={"conductors": conductors})


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

    def hold(where: dict[str, frozenset[str]], sort: type[Held]) -> Element:
        part, name, element = _element(layout, catalogue, fault, sort)
        where[part] = where.get(part, frozenset()) | {name}
        return element

    for fault in faults:
        match fault.is_:
            case "short":
                one, other = (_point(layout, catalogue, fault, at) for at in _pair(fault))
                joins.append((one, other, fault.ohms or 0.0))
            case "to-ground":
                joins.append((_point(layout, catalogue, fault, _one(fault)), EARTH, fault.ohms or 0.0))
            case "coil-open":
                hold(dead, Coil)
            case "coil-shorted":
                coil = hold(dead, Coil)
                part = _one(fault).partition(":")[2].partition(".")[0]
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
            case "conductor-open" | "joint-ohms" | "swapped":
                continue
    key = tuple((fault.is_, fault.at, fault.ohms) for fault in faults if fault.is_ not in JOINING) or None
    return Injected(overrides, dead, forced_on, forced_off, tuple(joins), key)


def _refused(fault: Fault, what: str, right: str) -> Refused:
    return Refused("bad-fault", f"The fault {fault.is_} at {fault.at!r} {what}.", would_be_right=right)


def _one(fault: Fault) -> str:
    if not isinstance(fault.at, str):
        raise _refused(fault, "names two places", "one place, such as conductor:w3")
    return fault.at


def _pair(fault: Fault) -> tuple[str, str]:
    if isinstance(fault.at, str):
        raise _refused(fault, "names one place only", "two places, such as terminal:fb.R and terminal:fb.C")
    return fault.at


def _conductor(layout: Layout, fault: Fault, at: str) -> str:
    sort, _, name = at.partition(":")
    if sort != "conductor" or name not in layout.conductors:
        raise _refused(
            fault, f"needs a conductor of this layout, which {at} is not", "a conductor, such as conductor:w3"
        )
    return name


def _corroded(layout: Layout, conductor: Conductor, fault: Fault) -> Conductor:
    """A bad joint is as good as that much more wire."""
    if not fault.ohms:
        raise _refused(fault, "does not say how many ohms", "more than 0 ohms, such as joint-ohms:conductor:w3:5")
    length_m, size_awg = conductor.length_and_size(layout.cables) or (0.0, 18)
    metres = length_m + fault.ohms / wire_ohms(1.0, size_awg)
    return conductor.model_copy(update={"length_m": metres, "size_awg": size_awg})


def _swap(layout: Layout, conductors: dict[str, Conductor], fault: Fault) -> None:
    """Two conductors change places on the part where both end; two terminals change all that is landed on them."""
    one, other = _pair(fault)
    if one.startswith("conductor:"):
        _swap_conductors(conductors, fault, _conductor(layout, fault, one), _conductor(layout, fault, other))
        return
    a, b = (at.partition(":")[2] for at in (one, other))
    landed = {end for conductor in conductors.values() for end in conductor.landed()}
    if not one.startswith("terminal:") or not other.startswith("terminal:") or not {a, b} & landed:
        right = "conductor:w3 and conductor:w4"
        raise _refused(fault, "needs two conductors, or two terminals with something landed", right)
    swap = {a: b, b: a}
    for name, conductor in conductors.items():
        ends = tuple(swap.get(end, end) if isinstance(end, str) else end for end in conductor.ends)
        if ends != conductor.ends:
            conductors[name] = conductor.model_copy(update={"ends": ends})


def _swap_conductors(conductors: dict[str, Conductor], fault: Fault, first: str, second: str) -> None:
    mine, theirs = list(conductors[first].ends), list(conductors[second].ends)
    for i in (1, 0):
        for j in (1, 0):
            one, other = mine[i], theirs[j]
            if isinstance(one, str) and isinstance(other, str) and part_of(one) == part_of(other):
                mine[i], theirs[j] = other, one
                conductors[first] = conductors[first].model_copy(update={"ends": tuple(mine)})
                conductors[second] = conductors[second].model_copy(update={"ends": tuple(theirs)})
                return
    raise _refused(fault, "names two conductors that share no part", "two conductors that end on one part")


def _point(layout: Layout, catalogue: Catalogue, fault: Fault, at: str) -> str:
    """Return the point that a short or a ground touches."""
    sort, _, name = at.partition(":")
    if sort == "conductor":
        landed = layout.conductors[_conductor(layout, fault, at)].landed()
        if not landed:
            raise _refused(fault, f"touches {at}, which is landed nowhere", "a conductor with a landed end")
        return landed[0]
    part = part_of(name)
    if sort == "terminal" and part in layout.parts and name.partition(".")[2] in catalogue.terminals_of(layout, part):
        return name
    raise _refused(fault, f"needs a terminal or conductor of this layout, which {at} is not", "such as terminal:fb.R")


def _element(layout: Layout, catalogue: Catalogue, fault: Fault, sort: type[Held]) -> tuple[str, str, Element]:
    at = _one(fault)
    word, _, name = at.partition(":")
    part, _, element_name = name.partition(".")
    kind = _kind(layout, catalogue, part)
    element = kind.elements.get(element_name) if kind is not None else None
    if word != "element" or not isinstance(element, sort):
        what = sort.__name__.lower()
        raise _refused(fault, f"needs a {what}, which {at} is not", f"the {what} of a part, such as element:ou.{what}")
    return part, element_name, element


def _kind(layout: Layout, catalogue: Catalogue, part: str) -> Kind | None:
    found: Part | None = layout.parts.get(part)
    return None if found is None else catalogue.kind_of(found)


def _other_setting(layout: Layout, catalogue: Catalogue, fault: Fault) -> tuple[str, str, Choice]:
    """Return (part, name, value) of a setting with two values, jumper or switch, as it is not meant to be."""
    at = _one(fault)
    word, _, full = at.partition(":")
    part, _, name = full.partition(".")
    kind = _kind(layout, catalogue, part)
    if word != "setting" or kind is None:
        raise _refused(fault, f"needs a setting, which {at} is not", "a setting, such as setting:ou.valve_energised_in")
    choices: tuple[Choice, ...] = ()
    if name in kind.settings:
        choices = kind.settings[name].choices or (False, True)
    elif name in kind.jumpers:
        choices = ("fitted", "removed")
    elif name in kind.switches:
        choices = kind.switches[name].positions
    now = settings_of(kind, layout.parts[part]).get(name)
    others = [choice for choice in choices if choice != now]
    if now not in choices or len(others) != 1:
        raise _refused(fault, "leaves open which other value is meant", f"--set {full}=VALUE in its place")
    return part, name, others[0]
