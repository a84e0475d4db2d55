"""One kind of part in words, for its page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from app.catalogue.called import called
from app.catalogue.kind import Kind, Setting
from app.catalogue.spoken import effect_words, plain, upper_first
from app.web.wording.naming import choice_words

FIGURE_WORDS = {
    "va": "{} VA",
    "va_sealed": "{} VA sealed",
    "va_inrush": "{} VA inrush",
    "power_factor": "power factor {}",
    "power_factor_sealed": "power factor {} sealed",
    "power_factor_inrush": "power factor {} inrush",
    "ohms": "{} Ω",
    "threshold_volts": "answers from {} V",
    "powers_above": "works above {} V",
    "amps": "{} A",
    "max_amps": "up to {} A",
    "off_leak_ohms": "leaks through {} Ω while open",
    "volts": "{} V",
    "phase_deg": "phase {}°",
    "rest": "{} at rest",
    "limiting": "limited: {}",
    "mains": "fed by: {}",
}
SET_WORDS = {"va": "VA", "amps": "A", "phase_deg": "phase"}


@dataclass(frozen=True)
class KindPage:
    """What the page of a kind shows. Rows are tuples of words, in the order of the columns."""

    title: str
    summary: str
    cautions: tuple[str, ...]
    terminals: list[tuple[str, str, str, str]]
    settings: list[tuple[str, str, str, str]]
    switches: list[tuple[str, str, str]]
    calls: list[tuple[str, str]]
    effects: list[str]
    figures: list[tuple[str, str, str]]


def kind_page(kind: Kind) -> KindPage:
    """Return a kind in words."""
    return KindPage(
        kind.title,
        kind.summary,
        kind.cautions,
        [(letter, one.use, plain(one.function), str(one.holds)) for letter, one in kind.terminals.items()],
        [_setting(name, setting) for name, setting in kind.settings.items()],
        [*_switches(kind), *_jumpers(kind)],
        [(plain(name), call.use) for name, call in kind.calls.items()],
        [effect_words(effect) for effect in kind.effects],
        [row for name, element in kind.elements.items() for row in _figures(name, element, kind)],
    )


def _setting(name: str, setting: Setting) -> tuple[str, str, str, str]:
    if setting.choices:
        allowed = ", ".join(choice_words(choice) for choice in setting.choices)
    else:
        allowed = (
            f"{setting.least:g} to {setting.most:g}" if setting.least is not None and setting.most is not None else ""
        )
    unit = f" {setting.unit}" if setting.unit else ""
    return upper_first(setting.use or plain(name)), choice_words(setting.default) + unit, allowed, setting.basis


def _switches(kind: Kind) -> list[tuple[str, str, str]]:
    return [
        (upper_first(one.use or plain(name)), plain(one.rest), ", ".join(plain(position) for position in one.positions))
        for name, one in kind.switches.items()
    ]


def _jumpers(kind: Kind) -> list[tuple[str, str, str]]:
    return [(upper_first(one.use or plain(name)), one.rest, "fitted, removed") for name, one in kind.jumpers.items()]


def _figures(name: str, element: Any, kind: Kind) -> list[tuple[str, str, str]]:
    """Return the figures of an element that has a basis, as one row."""
    basis = getattr(element, "basis", "")
    if not basis:
        return []
    skipped = {"is_", "between", "at", "nodes", "basis", "by", "why", "taps"}
    said = [_figure(field, value, kind) for field, value in element if field in element.model_fields_set - skipped]
    return [(f"{called(kind, name)} ({element.is_})", ", ".join(said), basis)]


def _figure(field: str, value: Any, kind: Kind) -> str:
    """Return ``7 VA sealed``; a figure that a setting gives is only said to be set."""
    if isinstance(value, str) and value in kind.settings:
        return f"{SET_WORDS.get(field, plain(field))} as set"
    return FIGURE_WORDS.get(field, f"{plain(field)} {{}}").format(choice_words(value))
