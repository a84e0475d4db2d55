"""A layout compiled once: what is always joined becomes one node, everything else a branch between two nodes.

Parts that no conductor could couple lie in different networks, which never influence each other; earth, which joins
networks in a single node, carries nothing between them. Only where something unseen could reach earth are the grounded
networks one, because the unseen could be a second way between them. *Points* are terminals and inner nodes
(``part.NODE``) and earth; *nodes* are sets of points that are always joined.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import accumulate

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Coil, Element, Source, Terminal
from app.circuit.impedance import wire_ohms
from app.circuit.kept_networks import kept_network
from app.circuit.linear import Solution
from app.circuit.plan import Plan, plan_elimination
from app.circuit.template import Template, template_of
from app.circuit.union import Union
from app.job.model import Layout, UnknownEnd
from app.job.names import part_of

EARTH = "earth"


@dataclass(frozen=True, slots=True)
class Place:
    """Where a part stands in a network: its first point, branch, judged element and fuse.

    The masks have a bit for each of its judged elements and fuses, counted from its first.
    """

    part: str
    template: Template
    point: int
    branch: int
    judged: int
    fuse: int
    judged_count: int
    judged_mask: int
    fuse_mask: int


@dataclass(frozen=True, slots=True)
class Branch:
    """A branch between two points: the slot of a part (``part.element``) or a conductor with length (its id)."""

    name: str
    points: tuple[int, int]
    nodes: tuple[int, int]
    ohms: float | None = None


@dataclass(frozen=True, slots=True)
class Join:
    """Two points that are always joined: a trace or ground (``part.element``), or an ideal conductor (its id)."""

    name: str
    points: tuple[int, int]


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """What conductors could couple, compiled. ``touched`` gives why nothing may be computed at a node.

    ``points`` ends with earth; ``number_of`` is its inverse. ``ground`` is the smallest name of
    a grounded point.  Branches are those of the parts, then the conductors.
    """

    number: int
    parts: tuple[str, ...]
    places: tuple[Place, ...]
    points: tuple[str, ...]
    number_of: Mapping[str, int]
    node_of: tuple[int, ...]
    size: int
    branches: tuple[Branch, ...]
    joins: tuple[Join, ...]
    touched: Mapping[int, str]
    conductors: tuple[str, ...]
    plan: Plan
    judged_names: tuple[str, ...]
    judged_nodes: tuple[tuple[int, int], ...]
    coil_bits: int
    fuse_branches: tuple[int, ...]
    fuse_nodes: tuple[tuple[int, int], ...]
    branch_of: Mapping[str, int]
    join_of: Mapping[str, int]
    ground: str | None
    source_count: int
    may_have_unknown_phase: bool
    own: frozenset[str]
    known: dict[Hashable, Solution] = field(default_factory=dict)
    """Solutions already found, by question."""
    made: dict[Hashable, object] = field(default_factory=dict)
    """Part scenes and figures already worked out, by what was asked."""

    @property
    def earth(self) -> int:
        """Return the node of earth."""
        return self.node_of[-1]

    def plan_with(self, extra: frozenset[tuple[int, int]]) -> Plan:
        """Return a plan that has room for branches between the pairs of nodes ``extra`` as well."""
        if not extra - self.plan.entry_of.keys():
            return self.plan
        key = ("plan", extra)
        found = self.made.get(key)
        if not isinstance(found, Plan):
            pairs = *(branch.nodes for branch in self.branches), *sorted(extra)
            busiest = _in_most(extra)
            found = plan_elimination(self.size, pairs, tuple(_last(self.places, self.node_of)), tuple(busiest))
            self.made[key] = found
        return found


@dataclass(frozen=True, slots=True, eq=False)
class Circuit:
    """A layout ready to be solved. ``networks`` stand in the order of their smallest part id."""

    layout: Layout
    catalogue: Catalogue
    frequency_hz: int
    networks: tuple[Network, ...]
    network_of: Mapping[str, int]
    """The number of the network of each part."""
    terminals: Mapping[str, Terminal]
    elements: Mapping[str, Element]
    sources: Mapping[str, Source]
    offsets: tuple[int, ...]
    """For each network what comes before its components, and behind the last what comes after all of them."""
    ground: str | None
    """The reference of all that is grounded: the smallest name of a point with a ground element."""
    joined: dict[frozenset[int], Network] = field(default_factory=dict)

    def offset_of(self, network: Network) -> int:
        """Return what is added to the component numbers of a network, so that no two networks share one."""
        if network is self.networks[network.number]:
            return self.offsets[network.number]
        return self.offsets[-1] * (1 + network.number)

    def network_joining(self, numbers: frozenset[int]) -> Network:
        """Return one network over the parts of several; made once."""
        found = self.joined.get(numbers)
        if found is None:
            parts = [part for n in sorted(numbers) for part in self.networks[n].parts]
            conductors = sorted(name for n in numbers for name in self.networks[n].conductors)
            found = _compile(min(numbers), sorted(parts), conductors, self.layout, self.catalogue)
            self.joined[numbers] = found
        return found


def build_circuit(layout: Layout, catalogue: Catalogue, frequency_hz: int = 60) -> Circuit:
    """Return the compiled layout.

    Args:
        layout: a layout that fits the catalogue (see ``app.catalogue.structure``).
        frequency_hz: of the line; admittances do not depend on it, a netlist does.
    """
    networks = _compiled(coupled_parts(layout), layout, catalogue)
    earthed = _joined_by_earth(networks)
    if earthed:
        apart = [list(network.parts) for network in networks if network.number not in earthed]
        together = sorted(part for number in earthed for part in networks[number].parts)
        networks = _compiled(sorted([*apart, together]), layout, catalogue)
    network_of = {part: network.number for network in networks for part in network.parts}
    elements = {
        f"{part}.{name}": element
        for part in sorted(layout.parts)
        if (kind := catalogue.kind_of(layout.parts[part])) is not None
        for name, element in kind.elements.items()
    }
    return Circuit(
        layout=layout,
        catalogue=catalogue,
        frequency_hz=frequency_hz,
        networks=networks,
        network_of=network_of,
        terminals={
            f"{part}.{letter}": terminal
            for part in sorted(layout.parts)
            for letter, terminal in catalogue.terminals_of(layout, part).items()
        },
        elements=elements,
        sources={name: element for name, element in elements.items() if isinstance(element, Source)},
        offsets=tuple(accumulate((network.size for network in networks), initial=1)),
        ground=min((network.ground for network in networks if network.ground is not None), default=None),
    )


def _compiled(groups: Sequence[Sequence[str]], layout: Layout, catalogue: Catalogue) -> tuple[Network, ...]:
    """Return the network of each group of parts, each as it was compiled before where nothing of it has changed."""
    network_of = {part: number for number, parts in enumerate(groups) for part in parts}
    conductors: list[list[str]] = [[] for _ in groups]
    for name in sorted(layout.conductors):
        landed = layout.conductors[name].landed()
        if landed:
            conductors[network_of[part_of(landed[0])]].append(name)
    return tuple(
        kept_network(number, parts, own, layout, catalogue, partial(_compile, number, parts, own, layout, catalogue))
        for number, (parts, own) in enumerate(zip(groups, conductors, strict=True))
    )


def _joined_by_earth(networks: Sequence[Network]) -> list[int]:
    """Return the numbers of the grounded networks where something unseen could reach earth, none where it cannot.

    Earth alone carries nothing from one network to another. With an unseen way beside it there would be a way out and
    a way back, and the unseen would load a source that is grounded elsewhere.
    """
    grounded = [network.number for network in networks if network.ground is not None]
    if len(grounded) < 2 or not any(unseen_may_reach_earth(networks[number]) for number in grounded):
        return []
    return grounded


def unseen_may_reach_earth(network: Network) -> bool:
    """Return whether branches lead from something unseen to the grounded points of a network."""
    if not network.touched:
        return False
    union = Union(network.size)
    for branch in network.branches:
        union.join(*branch.nodes)
    earth = union.find(network.earth)
    return any(union.find(node) == earth for node in network.touched)


def coupled_parts(layout: Layout) -> list[list[str]]:
    """Return the parts that conductors couple, as sorted lists in the order of their first part."""
    parts = sorted(layout.parts)
    number = {part: at for at, part in enumerate(parts)}
    union = Union(len(parts))
    for conductor in layout.conductors.values():
        ends = conductor.landed()
        if len(ends) == 2:
            union.join(number[part_of(ends[0])], number[part_of(ends[1])])
    groups: dict[int, list[str]] = {}
    for at, part in enumerate(parts):
        groups.setdefault(union.find(at), []).append(part)
    return list(groups.values())


def _compile(
    number: int, parts: Sequence[str], conductors: Sequence[str], layout: Layout, catalogue: Catalogue
) -> Network:
    building = _Building(layout, catalogue)
    for part in parts:
        building.add_part(part)
    for name in conductors:
        building.add_conductor(name)
    return building.finish(number)


class _Building:
    """Collects points, joins and branches of one network."""

    def __init__(self, layout: Layout, catalogue: Catalogue) -> None:
        self.layout = layout
        self.catalogue = catalogue
        self.parts: list[str] = []
        self.places: list[Place] = []
        self.points: dict[str, int] = {}
        self.branches: list[tuple[str, int, int, float | None]] = []
        self.joins: list[Join] = []
        self.grounded: list[tuple[str, int]] = []
        self.why: list[tuple[int, str]] = []
        self.conductors: list[str] = []
        self.judged = 0
        self.fuses = 0

    def add_part(self, part: str) -> None:
        kind = self.catalogue.kind_of(self.layout.parts[part])
        template = None if kind is None else template_of(kind)
        first = len(self.points)
        self.parts.append(part)
        if template is None:
            for letter in self.layout.landed_letters(part):
                self.why.append((len(self.points), f"nobody knows what kind of part {part} is"))
                self.points[f"{part}.{letter}"] = len(self.points)
            return
        judged, fuses = len(template.judged), len(template.fuses)
        masks = (1 << judged) - 1, (1 << fuses) - 1
        self.places.append(Place(part, template, first, len(self.branches), self.judged, self.fuses, judged, *masks))
        for at, node in enumerate(template.nodes):
            self.points[f"{part}.{node}"] = first + at
        self.branches += ((f"{part}.{s.name}", first + s.a, first + s.b, None) for s in template.slots)
        self.joins += (Join(f"{part}.{name}", (first + a, first + b)) for name, a, b in template.joins)
        self.grounded += ((f"{part}.{name}", first + node) for name, node in template.grounds)
        self.why += (
            (first + node, f"nothing is computed through {part}.{name}: {why}")
            for name, nodes, why in template.opaques
            for node in nodes
        )
        self.judged += len(template.judged)
        self.fuses += len(template.fuses)

    def add_conductor(self, name: str) -> None:
        conductor = self.layout.conductors[name]
        self.conductors.append(name)
        landed = [self.points[end] for end in conductor.landed()]
        for end in conductor.ends:
            if isinstance(end, UnknownEnd) and landed:
                self.why.append((landed[0], f"the other end of conductor {name} was not seen ({end.unknown})"))
        if len(landed) < 2:
            return
        length_and_size = conductor.length_and_size(self.layout.cables)
        if length_and_size is None:
            self.joins.append(Join(name, (landed[0], landed[1])))
        else:
            self.branches.append((name, landed[0], landed[1], wire_ohms(*length_and_size)))

    def finish(self, number: int) -> Network:
        earth = self.points[EARTH] = len(self.points)
        self.joins += (Join(name, (point, earth)) for name, point in self.grounded)
        union = Union(len(self.points))
        for join in self.joins:
            union.join(*join.points)
        node_of, size = union.numbered()
        branches = tuple(Branch(name, (a, b), (node_of[a], node_of[b]), ohms) for name, a, b, ohms in self.branches)
        touched: dict[int, str] = {}
        for point, why in self.why:
            touched.setdefault(node_of[point], why)
        places = tuple(self.places)
        names = tuple(self.points)
        slots = [slot.element for place in places for slot in place.template.slots]
        sources = [element for element in slots if isinstance(element, Source)]
        fuses = [place.branch + at for place in places for at in place.template.fuses]
        judged = [place.branch + at for place in places for at in place.template.judged]
        return Network(
            number=number,
            parts=tuple(self.parts),
            own=frozenset(self.parts),
            places=places,
            points=names,
            number_of=self.points,
            node_of=tuple(node_of),
            size=size,
            branches=branches,
            joins=tuple(self.joins),
            touched=touched,
            conductors=tuple(self.conductors),
            plan=plan_elimination(size, tuple(branch.nodes for branch in branches), tuple(_last(places, node_of))),
            judged_names=tuple(branches[at].name for at in judged),
            judged_nodes=tuple(branches[at].nodes for at in judged),
            coil_bits=sum(1 << at for at, branch in enumerate(judged) if isinstance(slots[branch], Coil)),
            fuse_branches=tuple(fuses),
            fuse_nodes=tuple(branches[at].nodes for at in fuses),
            branch_of={branch.name: at for at, branch in enumerate(branches)},
            join_of={join.name: at for at, join in enumerate(self.joins)},
            source_count=len(sources),
            may_have_unknown_phase=any(isinstance(source.phase_deg, str) for source in sources),
            ground=min((names[point] for _, point in self.grounded), default=None),
        )


def _last(places: Iterable[Place], node_of: Sequence[int]) -> list[int]:
    """Return the nodes that may become a reference: commons of sources, and earth."""
    commons = [
        node_of[place.point + slot.b]
        for place in places
        for slot in place.template.slots
        if isinstance(slot.element, Source)
    ]
    return [*commons, node_of[-1]]


def _in_most(pairs: Iterable[tuple[int, int]]) -> list[int]:
    """Return the nodes that lie in several of the pairs; kept late, they make the rest of the plan no fuller."""
    seen: set[int] = set()
    often: set[int] = set()
    for pair in pairs:
        for node in pair:
            (often if node in seen else seen).add(node)
    return sorted(often)
