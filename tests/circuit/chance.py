"""Layouts, situations and faults by chance, of whatever kinds a catalogue has.

Nothing here knows a kind by its name: which parts can feed, be called or break is read from the kinds. Wires join
terminals that belong together more often than not, so that most of what comes out does something.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random
from typing import Any, get_args

from app.catalogue.catalogue import UNKNOWN_KIND, Catalogue, settings_of
from app.catalogue.kind import Choice, Coil, Contact, Fuse, Kind, Setting, Source
from app.circuit.situation import Fault, FaultName, Situation
from app.job.model import Cable, Conductor, End, Layout, Part, UnknownEnd
from app.job.names import part_of

FAULT_NAMES: tuple[FaultName, ...] = get_args(FaultName)
TOGETHER = (
    frozenset({"supply", "supply-heating", "supply-cooling"}),
    frozenset({"common"}),
    frozenset({"call", "dry", "through", "signal"}),
)
"""Functions of terminals that people join; everything else is joined by mishap only."""
FEEDING = TOGETHER[0] | TOGETHER[1]


def sources_of(catalogue: Catalogue) -> list[str]:
    """Return the kinds that feed others: those with a source between two terminals."""
    return [name for name in catalogue if any(_feeds(catalogue.kind(name), e) for e in catalogue.kind(name).elements)]


def _feeds(kind: Kind, name: str) -> bool:
    element = kind.elements[name]
    return isinstance(element, Source) and element.between[1] in kind.terminals


def without_opaque(catalogue: Catalogue) -> Catalogue:
    """Return the kinds through which everything can be computed."""
    return Catalogue(
        {
            name: kind
            for name, kind in catalogue.kinds.items()
            if all(element.is_ != "opaque" for element in kind.elements.values())
        }
    )


def layout_by_chance(
    chance: Random, catalogue: Catalogue, *, fewest: int = 3, most: int = 8, unknown: float = 0.0
) -> Layout:
    """Return a layout of ``fewest`` to ``most`` parts, the first of them a source.

    Args:
        unknown: the share of parts and of conductors' ends that are not known.
    """
    names = list(catalogue)
    controls = [name for name in names if catalogue.kind(name).calls]
    kinds = [chance.choice(sources_of(catalogue)), chance.choice(controls)]
    kinds += [
        UNKNOWN_KIND if chance.random() < unknown else chance.choice(names)
        for _ in range(chance.randint(fewest, most) - 2)
    ]
    parts = {f"p{at}": _part(chance, catalogue, kind) for at, kind in enumerate(kinds)}
    cables = {"cb": Cable(size_awg=chance.choice([18, 20, 22]), length_m=chance.choice([None, 8.0, 40.0]))}
    ends = list(_pairs(chance, catalogue, parts, unknown))
    conductors = {f"w{at}": _conductor(chance, pair) for at, pair in enumerate(ends)}
    return Layout(parts=parts, cables=cables, conductors=conductors)


def _part(chance: Random, catalogue: Catalogue, kind: str) -> Part:
    settings: dict[str, Choice] = {}
    if kind != UNKNOWN_KIND:
        declared = catalogue.kind(kind)
        settings |= {
            name: _value(chance, setting) for name, setting in declared.settings.items() if chance.random() < 0.3
        }
        settings |= {name: chance.choice(["fitted", "removed"]) for name in declared.jumpers}
    place, air = chance.choice(["here", "there"]), chance.choice(["main", "main", "loft"])
    return Part(kind=kind, place=place, air=air, settings=settings)


def _value(chance: Random, setting: Setting) -> Choice:
    if setting.choices:
        return chance.choice(setting.choices)
    if setting.least is None or setting.most is None or isinstance(setting.default, bool | str):
        return setting.default
    # Near its usual value, so that most circuits still work.
    value = chance.uniform(0.5, 2.0) * float(setting.default)
    return min(max(value, setting.least), setting.most)


def _pairs(chance: Random, catalogue: Catalogue, parts: dict[str, Part], unknown: float) -> Iterator[tuple[End, End]]:
    function = {
        f"{name}.{letter}": terminal.function
        for name, part in parts.items()
        for letter, terminal in _terminals(catalogue, part)
    }
    groups = [[terminal for terminal, said in function.items() if said in together] for together in TOGETHER]
    groups = [group for group in groups if len(group) > 1]
    every = list(function)
    sound = [terminal for group in groups for terminal in group]
    for name in parts:
        # What feeds and what takes back is wired nearly always; calls often; the rest by chance below.
        for group in groups:
            own = [terminal for terminal in group if part_of(terminal) == name]
            others = [terminal for terminal in group if part_of(terminal) != name]
            asked = [chance.choice(own)] if own and function[own[0]] in FEEDING else own
            for terminal in asked if others else ():
                if chance.random() < (0.9 if function[terminal] in FEEDING else 0.4):
                    yield terminal, chance.choice(others[:3] if function[terminal] in FEEDING else others)
    for _ in range(chance.randint(0, len(parts))):
        luck = chance.random()
        if luck < 0.6 and groups:
            start, goal = chance.sample(chance.choice(groups), 2)
        else:
            start, goal = chance.choices(sound or every, k=2) if luck < 0.97 else chance.choices(every, k=2)
        if chance.random() < 0.03:
            yield start, None
        elif chance.random() < unknown:
            yield start, UnknownEnd(unknown="behind the wall")
        elif start != goal:
            yield start, goal


def _terminals(catalogue: Catalogue, part: Part) -> Sequence[tuple[str, Any]]:
    if part.kind == UNKNOWN_KIND:
        supply = next(iter(next(iter(catalogue.kinds.values())).terminals.values()))
        return [("1", supply), ("2", supply)]
    return list(catalogue.kind(part.kind).terminals.items())


def _conductor(chance: Random, ends: tuple[End, End]) -> Conductor:
    luck = chance.random()
    insulation = chance.choice([None, "RD", "WH", "GN", "YE", "BU"])
    if luck < 0.5:
        return Conductor(ends=ends, insulation=insulation)
    if luck < 0.75:
        return Conductor(ends=ends, cable="cb", insulation=insulation)
    length_m = chance.choice([0.5, 4.0, 15.0, 60.0])
    return Conductor(ends=ends, length_m=length_m, size_awg=chance.choice([16, 18, 22]), insulation=insulation)


def situation_by_chance(chance: Random, layout: Layout, catalogue: Catalogue, faults: int = 0) -> Situation:
    """Return calls, positions, supply, outdoor temperature and so many faults (fewer where there is no place)."""
    calls: dict[str, Any] = {}
    positions: dict[str, Choice] = {}
    mains: dict[str, Any] = {}
    for name, part in layout.parts.items():
        kind = catalogue.kind_of(part)
        if kind is None:
            continue
        if kind.calls and chance.random() < 0.8:
            calls[name] = tuple(chance.sample(sorted(kind.calls), chance.choice([1, 1, 1, min(2, len(kind.calls))])))
        for switch, declared in kind.switches.items():
            if chance.random() < 0.15:
                positions[f"{name}.{switch}"] = chance.choice(declared.positions)
        for element in kind.elements.values():
            if isinstance(element, Source) and chance.random() < 0.02:
                mains[str(settings_of(kind, part).get(element.mains, element.mains))] = "off"
    broken = [
        fault for fault in (fault_by_chance(chance, layout, catalogue, positions) for _ in range(faults)) if fault
    ]
    return Situation(
        calls=calls,
        set=positions,
        supply_percent=chance.choice([100.0, 100.0, 100.0, 88.0, 106.0, 60.0]),
        outdoor_c=chance.choice([20.0, 20.0, -12.0, 3.0]),
        mains=mains,
        faults=_one_a_place(broken),
    )


def _one_a_place(faults: Sequence[Fault]) -> tuple[Fault, ...]:
    """Two faults on one place have no one meaning, and a swap moves the place of others."""
    if any(fault.is_ == "swapped" for fault in faults):
        return next(((fault,) for fault in faults if fault.is_ == "swapped"), ())
    return tuple({str(fault.at): fault for fault in faults}.values())


def fault_by_chance(
    chance: Random, layout: Layout, catalogue: Catalogue, taken: dict[str, Choice], is_: FaultName | None = None
) -> Fault | None:
    """Return a fault of any class, or of the one asked for; None where the layout has no place for it.

    Args:
        taken: positions by ``part.name`` that the situation sets already.
    """
    sort = chance.choice(FAULT_NAMES) if is_ is None else is_
    places = list(_places(layout, catalogue, sort, taken))
    if not places:
        return None
    ohms = chance.choice([0.5, 5.0, 60.0, 2000.0])
    if sort == "short":
        if len(places) < 2:
            return None
        one, other = chance.sample(places, 2)
        return Fault.model_validate({"is": sort, "at": (one, other), "ohms": chance.choice([0, ohms])})
    if sort == "swapped":
        pairs = list(_swaps(layout, places))
        return Fault.model_validate({"is": sort, "at": chance.choice(pairs)}) if pairs else None
    fault: dict[str, Any] = {"is": sort, "at": chance.choice(places)}
    if sort == "joint-ohms":
        fault["ohms"] = ohms
    if sort in ("to-ground", "coil-shorted"):
        fault["ohms"] = chance.choice([0, ohms])
    return Fault.model_validate(fault)


ELEMENTS_OF: dict[str, type[Any]] = {
    "coil-open": Coil,
    "coil-shorted": Coil,
    "contact-welded": Contact,
    "contact-dead": Contact,
    "fuse-open": Fuse,
    "source-dead": Source,
}


def _places(layout: Layout, catalogue: Catalogue, is_: FaultName, taken: dict[str, Choice]) -> Iterator[str]:
    """Yield the places that a class of fault can have in a layout."""
    if is_ in ("conductor-open", "joint-ohms", "swapped"):
        yield from (f"conductor:{name}" for name in layout.conductors)
    elif is_ in ("short", "to-ground"):
        yield from (f"conductor:{name}" for name, wire in layout.conductors.items() if wire.landed())
        yield from sorted({f"terminal:{end}" for wire in layout.conductors.values() for end in wire.landed()})
    for name, part in layout.parts.items():
        kind = catalogue.kind_of(part)
        if kind is None:
            continue
        if sort := ELEMENTS_OF.get(is_):
            yield from (f"element:{name}.{n}" for n, element in kind.elements.items() if isinstance(element, sort))
        elif is_ == "wrong-setting":
            yield from (f"setting:{name}.{n}" for n in _two_way(kind, part) if f"{name}.{n}" not in taken)


def _two_way(kind: Kind, part: Part) -> Iterator[str]:
    values = settings_of(kind, part)
    for name in (*kind.settings, *kind.switches, *kind.jumpers):
        if name in kind.settings:
            choices = kind.settings[name].choices or ((False, True) if isinstance(values[name], bool) else ())
        else:
            choices = kind.switches[name].positions if name in kind.switches else ("fitted", "removed")
        if len(set(choices)) == 2 and values[name] in choices:
            yield name


def _swaps(layout: Layout, places: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Yield pairs of conductors with exactly one end each on one and the same part, and no other part in common."""
    names = [place.partition(":")[2] for place in places]
    on = {name: [part_of(end) for end in layout.conductors[name].landed()] for name in names}
    for at, one in enumerate(names):
        for other in names[at + 1 :]:
            if sum(a == b for a in on[one] for b in on[other]) == 1:
                yield f"conductor:{one}", f"conductor:{other}"


__all__ = ["FAULT_NAMES", "fault_by_chance", "layout_by_chance", "situation_by_chance", "without_opaque"]
