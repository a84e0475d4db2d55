"""One part as a situation asks it to be: its logic and its figures, worked out once a kind for equal wishes."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, replace

from app.catalogue.kind import Choice
from app.circuit.figures import PartFigures, figures_of
from app.circuit.logic import PartScene, enabled_calls, values_of
from app.circuit.network import Place
from app.circuit.template import Template
from app.job.model import Part


@dataclass(frozen=True, slots=True)
class Wish:
    """What is asked of one part. Names are those of slots of its kind; ``turned`` are sources tried at 180°."""

    part: Part
    overrides: Mapping[str, Choice]
    calls: tuple[str, ...]
    outdoor_c: float
    mains_off: frozenset[str]
    forced_on: frozenset[str]
    forced_off: frozenset[str]
    dead: frozenset[str]
    turned: frozenset[str]


def part_scene_and_figures(place: Place, wish: Wish) -> tuple[PartScene, PartFigures]:
    """Return the logic and the figures of a part."""
    template = place.template
    values = values_of(template.kind, wish.part, wish.overrides)
    said = _key(values)
    outdoor_c = wish.outdoor_c if template.asks_outdoor else 0.0
    scene = template.keep(
        ("logic", said, wish.calls, outdoor_c, wish.mains_off, wish.forced_on, wish.forced_off),
        lambda: _part_scene(template, values, wish, outdoor_c),
    )
    figures = template.keep(
        ("figures", said, wish.dead, wish.turned),
        lambda: _figures(template, values, wish),
    )
    return scene, figures


def _part_scene(template: Template, values: Mapping[str, Choice], wish: Wish, outdoor_c: float) -> PartScene:
    enabled = enabled_calls(template, values, outdoor_c) if wish.calls else []
    return PartScene(
        template=template,
        values=values,
        calls=tuple(name for name in enabled if name in wish.calls),
        outdoor_c=outdoor_c,
        mains_off=wish.mains_off,
        forced_on=_bits(template, wish.forced_on),
        forced_off=_bits(template, wish.forced_off),
    )


def _figures(template: Template, values: Mapping[str, Choice], wish: Wish) -> PartFigures:
    figures = figures_of(template, values, wish.dead)
    sources = tuple(
        replace(source, emf=-source.emf) if template.slots[source.slot].name in wish.turned else source
        for source in figures.sources
    )
    figures = replace(figures, sources=sources)
    # Settings that change no figure must not keep situations from sharing their solutions.
    return template.keep(("same figures", figures), lambda: figures)


def _bits(template: Template, names: frozenset[str]) -> int:
    return sum(1 << at for at, slot in enumerate(template.slots) if slot.name in names) if names else 0


def _key(values: Mapping[str, Choice]) -> Hashable:
    """Return what tells two sets of values apart; 1 and true are equal to Python, but not to a kind."""
    return tuple((name, value, isinstance(value, bool)) for name, value in values.items())
