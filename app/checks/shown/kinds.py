"""Which small wirings the page of a kind shows.

Rules of the file: nothing is written twice. What a rule's examples show is taken from there; the samples fill in.
The wiring with the fewest parts is chosen, since it says the most about the one that is meant; among equals a sample,
then the rule that comes first by name. That what is shown as sound is sound for every rule, the tests hold, so that a
page need not check it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from app.checks.registry import all_rules
from app.checks.rule import Bad
from app.checks.shown.sample import Sample
from app.checks.shown.samples import SAMPLES
from app.job.model import Conductor, Layout
from app.job.names import part_of


@dataclass(frozen=True)
class Wiring:
    """A small wiring.

    ``about`` are the kinds for which it speaks; ``rule`` names what is found, empty if nothing; ``source`` is the rule
    whose example it is, empty for a sample.
    """

    name: str
    layout: Layout
    about: frozenset[str]
    rule: str = ""
    source: str = ""


def good_for(kind: str) -> Wiring | None:
    """Return the smallest wiring with a part of a kind on which its own rule is silent."""
    return next((wiring for wiring in silent_wirings() if kind in wiring.about), None)


def bad_for(kind: str) -> Wiring | None:
    """Return the smallest wiring with a fault that is about a part of a kind."""
    return next((wiring for wiring in faulty_wirings() if kind in wiring.about), None)


@lru_cache(maxsize=1)
def silent_wirings() -> tuple[Wiring, ...]:
    """Return every wiring on which its own rule is silent, those with the fewest parts first."""
    return _smallest_first(_silent())


@lru_cache(maxsize=1)
def faulty_wirings() -> tuple[Wiring, ...]:
    """Return every wiring with one fault, those with the fewest parts first."""
    return _smallest_first(_faulty())


def _smallest_first(wirings: Iterable[Wiring]) -> tuple[Wiring, ...]:
    return tuple(sorted(wirings, key=lambda each: (len(each.layout.parts), each.source, each.name)))


def _silent() -> Iterator[Wiring]:
    for sample in SAMPLES:
        layout = sample.good()
        yield Wiring(sample.name, layout, frozenset(part.kind for part in layout.parts.values()))
    for rule in all_rules():
        for good in rule.good:
            if not good.near_miss and not good.kinds:
                layout = good.layout
                kinds = frozenset(part.kind for part in layout.parts.values())
                yield Wiring(good.name, layout, kinds, source=rule.name)


def _faulty() -> Iterator[Wiring]:
    for sample in SAMPLES:
        layout = sample.bad()
        yield Wiring(sample.fault, layout, _kinds(layout, _changed(sample)), sample.rule)
    for rule in all_rules():
        for bad in rule.bad:
            if not bad.kinds:
                yield Wiring(bad.name, bad.layout, _kinds(bad.layout, _named(bad)), rule.name, rule.name)


def _changed(sample: Sample) -> Iterator[str]:
    """Yield the parts that the one change of a sample touches."""
    yield from sample.wrong_parts
    for layout in (sample.good(), sample.bad()):
        for name in sample.wrong:
            if name in layout.conductors:
                yield from _parts_at(layout.conductors[name])


def _named(bad: Bad) -> Iterator[str]:
    """Yield the parts that the findings on a bad example name."""
    for subject in (subject for finding in bad.finds for subject in finding):
        sort, _, name = subject.partition(":")
        if sort == "conductor":
            yield from _parts_at(bad.layout.conductors[name])
        elif sort != "cable":
            yield part_of(name)


def _parts_at(conductor: Conductor) -> Iterator[str]:
    return (part_of(end) for end in conductor.ends if isinstance(end, str))


def _kinds(layout: Layout, parts: Iterable[str]) -> frozenset[str]:
    return frozenset(layout.parts[part].kind for part in parts if part in layout.parts)
