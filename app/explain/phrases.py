"""The small phrases of which explanations are made: how a thing stands, in words of the trade."""

from __future__ import annotations

from collections.abc import Sequence

from app.catalogue.called import called as inner_called
from app.catalogue.kind import Coil, Element, Fuse, Input, Load, Setting
from app.catalogue.spoken import plain
from app.explain.deciding import Leaf
from app.explain.names import Names
from app.explain.standing import Standing
from app.explain.ways import DEVICES, Way
from app.job.temperatures import CELSIUS, Units, temperature_words

STATE_WORDS = {
    "pulled-in": "is pulled in",
    "released": "is not pulled in",
    "closed": "is closed",
    "open": "is open",
    "on": "is on",
    "off": "is off",
    "whole": "is whole",
    "unknown": "is unknown",
}


def joined(words: Sequence[str], last: str = "and") -> str:
    """Return ``a, b and c``."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def sentence(words: str) -> str:
    """Return words as a sentence, with a capital and a full stop."""
    return words[:1].upper() + words[1:] + ("" if words.endswith((".", "?")) else ".")


def volts_words(volts: float) -> str:
    """Return volts as a meter shows them."""
    return f"{volts:.1f} V"


def way_words(names: Names, way: Way) -> str:
    """Return what a way is called: ``w3``, ``fuse of Furnace board``."""
    if way.sort == "conductor":
        return names.conductor(way.name)
    if way.sort == "short":
        return "a short"
    return names.element(way.name)


def called(calls: Sequence[str], last: str = "and") -> str:
    """Return calls as their buttons say them: ``cool 1 and fan``."""
    return joined([plain(call) for call in calls], last)


def because(words: Sequence[str]) -> str:
    """Return `` because its heat call is off``, `` because it is 23 °F outdoors``; nothing for nothing."""
    if not words:
        return ""
    own = "" if words[0].startswith("it ") else "its "
    return f" because {own}{joined(words)}"


def state_words(names: Names, element: Element, name: str, state: str) -> str:
    """Return how a coil, input, load or fuse stands: ``contactor of Heat pump is pulled in``."""
    if isinstance(element, Load):
        return f"{names.element(name)} {'has its power' if state in ('on', '') else 'has no power'}"
    if isinstance(element, Fuse):
        return f"{names.element(name)} {'is whole' if state == 'whole' else 'has opened'}"
    return f"{names.element(name)} {STATE_WORDS.get(state, state)}"


RUNNING = {"compressor", "compressor-2", "indoor-fan", "outdoor-fan", "pump", "humidify"}


def effect_stands(names: Names, part: str, effect: str, runs: bool) -> str:
    """Return ``compressor of Heat pump runs``, ``cooling of Heat pump is off``, ``zone of Damper is open``."""
    if effect in RUNNING:
        stands = "runs" if runs else "does not run"
    elif effect == "zone-open":
        stands = "is open" if runs else "is closed"
    else:
        stands = "is on" if runs else "is off"
    return f"{names.effect(part, effect)} {stands}"


def ways_words(names: Names, ways: Sequence[Way]) -> str:
    """Return a path in words: ``w1, fuse (Furnace board), w3``; what lies in one part together is said together."""
    said: list[str] = []
    inside: list[str] = []
    for at, way in enumerate(ways):
        if way.sort in ("conductor", "short"):
            said.append(way_words(names, way))
            continue
        inner = names.inner(way.part, way.inner)
        inside.append(f"through {inner} in series" if way.sort in DEVICES else inner)
        if at + 1 == len(ways) or ways[at + 1].part != way.part:
            said.append(f"{', '.join(inside)} ({names.part(way.part)})")
            inside = []
    return ", ".join(said)


def leaf_words(standing: Standing, names: Names, part: str, leaf: Leaf) -> str:
    """Return what decides a term in words, within its part: ``heat call is off``."""
    kind = standing.kind(part)
    name = leaf.name
    if kind is None:
        return plain(name)
    if name == "outdoor_c":
        return outdoor_words(standing, names)
    if name in kind.switches:
        return f"{names.switch(part, name)} is {standing.value(part, name)}"
    if name in kind.jumpers:
        return f"jumper {plain(name)} is {standing.value(part, name)}"
    if name in kind.settings:
        return f"setting {_setting_words(kind.settings[name], name, standing.value(part, name), names.units)}"
    if name in kind.calls:
        return f"it {'calls' if leaf.holds else 'does not call'} {plain(name)}"
    element = kind.elements.get(name)
    if isinstance(element, Load):
        return f"{inner_called(kind, name)} {'has' if standing.is_on(f'{part}.{name}') else 'lacks'} its power"
    if isinstance(element, Coil | Input | Fuse):
        return f"{inner_called(kind, name)} {STATE_WORDS.get(standing.state(f'{part}.{name}'), '')}"
    words = inner_called(kind, name)
    return words if leaf.holds else f"not {words}"


def outdoor_words(standing: Standing, names: Names) -> str:
    """Return how cold it is: ``it is 23 °F outdoors``."""
    return f"it is {temperature_words(standing.point.situation.outdoor_c, names.units)} outdoors"


def _setting_words(setting: Setting, name: str, value: object, units: Units) -> str:
    if setting.unit == CELSIUS and isinstance(value, int | float):
        return f"{plain(name.removesuffix('_c'))} is {temperature_words(value, units)}"
    return f"{plain(name)} is {plain(str(value))}"
