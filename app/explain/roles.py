"""What each conductor is for, from what can drive it and what it works, never from colour or letter.

A conductor has two sides. What can make one side hot (a contact behind which a supply lies) and what the other side
works (coils and inputs, and through their contacts the effects of equipment) together are its role. Operating points
tell in which calls it is hot. Where a conductor carries several things the first of ``RANK`` gives the name and the
others stand under ``also``.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import EffectName, Function
from app.circuit.lazy import Lazy
from app.circuit.network import EARTH, Circuit
from app.circuit.operating_point import OperatingPoint
from app.explain.nets import SUPPLIES, Nets, Region
from app.explain.purpose import Purpose, Purposes, only_while_defrosting
from app.explain.role import RANK, Role, RoleName
from app.explain.ways import Way
from app.job.model import Conductor, Layout, UnknownEnd
from app.job.names import part_of

__all__ = ["Role", "RoleName", "roles_of"]

HOT_FROM_VOLTS = 12.0
"""Half of 24 V: where an electronic input is on (common practice, no source)."""
IDLE = "idle"
BY_EFFECT: Mapping[EffectName, RoleName] = {
    "compressor": "compressor",
    "compressor-2": "compressor-2",
    "furnace-heat": "furnace-heat",
    "furnace-heat-2": "furnace-heat-2",
    "electric-heat": "electric-heat",
    "boiler-heat": "boiler-heat",
    "humidify": "humidifier",
    "zone-open": "zone-open",
    "pump": "pump",
    "indoor-fan": "indoor-fan",
    "outdoor-fan": "outdoor-fan",
}
BY_CALL: Mapping[str, RoleName] = {"ventilate": "ventilation", "dehumidify": "dehumidifier"}
"""What is told by the one call that makes a conductor hot, because no effect of the equipment is named for it."""
COMES_WITH: Mapping[EffectName, frozenset[EffectName]] = {
    "compressor": frozenset({"compressor-2", "outdoor-fan"}),
    "furnace-heat": frozenset({"furnace-heat-2", "indoor-fan"}),
    "furnace-heat-2": frozenset({"indoor-fan"}),
    "electric-heat": frozenset({"indoor-fan"}),
    "boiler-heat": frozenset({"pump"}),
}
"""What the same device does besides as a matter of course: a furnace runs its own fan, so that is not told."""
ONLY_BY_FUNCTION: tuple[tuple[Function, RoleName], ...] = (
    ("sensor", "sensor"),
    ("bus", "bus"),
    ("millivolt", "millivolt"),
    ("line", "line"),
    ("signal", "signal"),
)


def roles_of(
    layout: Layout,
    catalogue: Catalogue,
    circuit: Circuit,
    points: Sequence[OperatingPoint],
    pumped: frozenset[str] | None = None,
) -> Mapping[str, Role]:
    """Return the role of every conductor, by id; each is worked out when it is first asked for.

    Args:
        layout: the layout, as ``circuit`` was built from it.
        catalogue: its kinds.
        circuit: the layout, compiled.
        points: operating points without faults that tell in which calls a conductor is hot: idle and each call.
        pumped: the air streams that a heat pump heats, where the layout is a piece of a larger one.
    """
    judge = _Judge(circuit, air_with_heat_pump(layout, catalogue) if pumped is None else pumped)
    hot = hot_in(circuit, points)
    return Lazy(layout.conductors, lambda name: judge.role(name, hot[name]))


def air_with_heat_pump(layout: Layout, catalogue: Catalogue) -> frozenset[str]:
    """Return the air streams that a heat pump heats."""
    kinds = ((part, catalogue.kind_of(part)) for part in layout.parts.values())
    return frozenset(part.air for part, kind in kinds if kind is not None and "heat-pump-heating" in kind.effects)


def role_without_landing(conductor: Conductor) -> Role:
    """Return the role of a conductor of which no end is known to be landed."""
    return Role("unknown" if any(isinstance(end, UnknownEnd) for end in conductor.ends) else "spare")


def hot_in(circuit: Circuit, points: Iterable[OperatingPoint]) -> Mapping[str, tuple[str, ...]]:
    """Return for each conductor, when it is asked for, the situations in which it is hot: ``idle``, ``tc=cool-1``.

    Calls of controls in other networks are left out: they never reach it.
    """
    everywhere: list[tuple[str, OperatingPoint]] = []
    by_network: dict[int, list[tuple[str, OperatingPoint]]] = {}
    for point in points:
        calls = sorted(point.situation.calls.items())
        said = " ".join(f"{part}={call}" for part, names in calls for call in names)
        if not calls:
            everywhere.append((IDLE, point))
        for network in sorted({circuit.network_of[part] for part, _ in calls if part in circuit.network_of}):
            by_network.setdefault(network, []).append((said, point))

    def hot(name: str) -> tuple[str, ...]:
        landed = circuit.layout.conductors[name].landed()[:1]
        here = [*everywhere, *(by_network.get(circuit.network_of[part_of(landed[0])], ()) if landed else ())]
        return tuple(dict.fromkeys(said for said, point in here for end in landed if _is_hot(point, end)))

    return Lazy(circuit.layout.conductors, hot)


def _is_hot(point: OperatingPoint, terminal: str) -> bool:
    volts = point.terminals[terminal].volts
    return volts is not None and abs(volts) >= HOT_FROM_VOLTS


class _Judge:
    """Judges the conductors of one layout."""

    def __init__(self, circuit: Circuit, pumped: frozenset[str]) -> None:
        self.circuit = circuit
        self.pumped = pumped
        self.nets = Nets(circuit)
        self.purposes = Purposes(self.nets)

    def role(self, name: str, hot: tuple[str, ...]) -> Role:
        conductor = self.circuit.layout.conductors[name]
        if any(isinstance(end, UnknownEnd) for end in conductor.ends):
            return Role("unknown", hot_in=hot)
        ends = conductor.landed()
        if len(ends) < 2 or ends[0] == ends[1]:
            return Role("spare", hot_in=hot)
        sides = self._sides(name, ends[0], ends[1])
        net = sides[0] | sides[1]
        is_hot, is_common = ends[0] in self.nets.hot, ends[0] in self.nets.common
        if is_hot and is_common:
            is_hot = self._is_meant_hot(name, ends)
        if is_hot or (not is_common and ends[0] in self.nets.waiting):
            return self._supply(name, ends, sides, hot)
        if is_common:
            return Role(self._common(sides), hot_in=hot)
        if EARTH in net:
            return Role("ground", hot_in=hot)
        return self._call(name, ends, sides, hot)

    def _sides(self, name: str, a: str, b: str) -> tuple[frozenset[str], frozenset[str]]:
        """Return both sides of a conductor; twice the same where another way joins them."""
        subject = f"conductor:{name}"
        first = self.nets.side(a, subject)
        return (first, first) if b in first else (first, self.nets.side(b, subject))

    @cached_property
    def _windings(self) -> tuple[frozenset[str], frozenset[str]]:
        sources = [way for way in self.nets.ways.ways if way.sort == "source"]
        return frozenset(way.a for way in sources), frozenset(way.b for way in sources)

    def _away_from(self, starts: frozenset[str], sides: tuple[frozenset[str], frozenset[str]]) -> frozenset[str]:
        """Return the side that is fed from the other, or both where that cannot be told."""
        fed = [side for side in sides if not side & starts]
        return fed[0] if len(fed) == 1 else sides[0] | sides[1]

    def _functions(self, points: Iterable[str]) -> set[Function]:
        return {found for point in points if (found := self.nets.function_of(point)) is not None}

    def _is_meant_hot(self, name: str, ends: Sequence[str]) -> bool:
        """Where hot and common are shorted together, the supply and common terminals that it comes to tell."""
        functions = {function for end in ends for function in self.nets.meant_at(end, f"conductor:{name}")}
        return bool(functions & SUPPLIES) or "common" not in functions

    def _supply(
        self, name: str, ends: list[str], sides: tuple[frozenset[str], frozenset[str]], hot: tuple[str, ...]
    ) -> Role:
        fed = self._away_from(self._windings[0], sides)
        functions = self._functions(fed)
        one_side = functions & {"supply-heating", "supply-cooling"}
        mode = one_side.pop().removeprefix("supply-") if len(one_side) == 1 else ""
        also: tuple[RoleName, ...] = ()
        if not functions & SUPPLIES and fed in sides and sides[0] != sides[1]:
            at = sides.index(fed)
            also = self._named(self._region(name, ends, sides, at).devices, hot)
        return Role("supply", mode, hot, also)

    def _common(self, sides: tuple[frozenset[str], frozenset[str]]) -> RoleName:
        away = self._away_from(self._windings[1], sides)
        return "ground" if EARTH in away and not self._functions(away) - {"chassis", "through"} else "common"

    def _region(self, name: str, ends: list[str], sides: tuple[frozenset[str], frozenset[str]], at: int) -> Region:
        kept_out = frozenset[str]() if sides[0] == sides[1] else sides[1 - at]
        return self.nets.region(ends[at], f"conductor:{name}", kept_out)

    def _call(
        self, name: str, ends: list[str], sides: tuple[frozenset[str], frozenset[str]], hot: tuple[str, ...]
    ) -> Role:
        regions = [self._region(name, ends, sides, at) for at in (0, 1)]
        ways = [(0, 0)] if sides[0] == sides[1] else [(0, 1), (1, 0)]
        names: list[RoleName] = []
        devices: list[Way] = []
        for source, goal in ways:
            works = regions[goal].devices
            if regions[source].gates and works:
                devices += works
                names += self._carried(regions[source].gates, works, hot)
        if not names and not any(region.gates for region in regions):
            # Nothing drives it yet, as when the control is off the wall: then it is for what it would work.
            devices = [device for region in regions for device in region.devices]
            names = list(self._named(devices, hot))
        asked: set[str] = {each.partition("=")[2] for each in hot}
        if len(asked) == 1 and asked <= BY_CALL.keys():
            names.append(BY_CALL[asked.pop()])
        if names:
            ordered = tuple(each for each in RANK if each in names)
            return Role(ordered[0], self._mode(devices), hot, ordered[1:])
        return Role(self._without_effect(regions), hot_in=hot)

    def _carried(self, gates: tuple[Way, ...], works: tuple[Way, ...], hot: tuple[str, ...]) -> tuple[RoleName, ...]:
        """Return what goes from the gates to what is worked; what only a defrosting unit sends is its output."""
        names = self._named(works, hot)
        from_defrost = [gate for gate in gates if only_while_defrosting(self.nets, [gate])]
        if not names or not from_defrost:
            return names
        return ("defrost-output",) if len(from_defrost) == len(gates) else (*names, "defrost-output")

    def _named(self, devices: Iterable[Way], hot: tuple[str, ...]) -> tuple[RoleName, ...]:
        found: set[RoleName] = set()
        for device in devices:
            purpose = self.purposes.of(device)
            if purpose.valve:
                found.add("reversing-valve")
            else:
                found.update(self._heat_named(role, part, hot) for part, role in _told(purpose))
        return tuple(each for each in RANK if each in found)

    def _heat_named(self, role: RoleName, part: str, hot: tuple[str, ...]) -> RoleName:
        """Return how heat is called that only an emergency calls for, or that stands beside a heat pump."""
        if role not in ("furnace-heat", "electric-heat"):
            return role
        if hot and all(each.endswith("=emergency-heat") for each in hot):
            return "emergency-heat"
        return "auxiliary-heat" if role == "electric-heat" and self._air_of(part) in self.pumped else role

    def _air_of(self, part: str) -> str:
        return self.circuit.layout.parts[part].air

    def _mode(self, devices: Iterable[Way]) -> str:
        modes = {self.purposes.of(device).valve for device in devices} - {""}
        return modes.pop() if len(modes) == 1 else ""

    def _without_effect(self, regions: list[Region]) -> RoleName:
        points = regions[0].points | regions[1].points
        functions = self._functions(points)
        for function, role in ONLY_BY_FUNCTION:
            if function in functions:
                return role
        return "unknown" if points & self._unseen else "no-effect"

    @cached_property
    def _unseen(self) -> frozenset[str]:
        """The points behind which something lies that nobody knows."""
        return frozenset(
            point
            for network in self.circuit.networks
            for point, node in zip(network.points, network.node_of, strict=True)
            if node in network.touched
        )


def _told(purpose: Purpose) -> list[tuple[str, RoleName]]:
    """Return (part, role) for what a device does, without what comes with it as a matter of course."""
    effects = {effect for _, effect in purpose.does}
    if not effects and any(effect == "zone-open" for _, effect in purpose.ends):
        return [(part, "zone-close") for part, effect in sorted(purpose.ends) if effect == "zone-open"]
    course = frozenset(other for effect in effects for other in COMES_WITH.get(effect, ()))
    return [
        (part, BY_EFFECT[effect])
        for part, effect in sorted(purpose.does)
        if effect in BY_EFFECT and effect not in course
    ]
