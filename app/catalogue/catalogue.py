"""The kinds that hold for one job: the built-in ones and those that the job brings along."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from app.catalogue.kind import Choice, Kind, Source, Terminal
from app.job.model import Layout, Part

UNKNOWN_KIND = "unknown"
"""The kind of a part that nobody could identify: its terminals are those on which something is landed."""


@dataclass(frozen=True)
class Catalogue:
    """Kinds by id."""

    kinds: Mapping[str, Kind] = field(default_factory=dict)

    def __iter__(self) -> Iterator[str]:
        return iter(self.kinds)

    def __contains__(self, kind: object) -> bool:
        return kind in self.kinds

    def kind(self, name: str) -> Kind:
        """Return a kind.

        Raises:
            KeyError: there is no kind of this name (``unknown`` has none either).
        """
        return self.kinds[name]

    def kind_of(self, part: Part) -> Kind | None:
        """Return the kind of a part, None where its kind is ``unknown``."""
        return None if part.kind == UNKNOWN_KIND else self.kinds[part.kind]

    def terminals_of(self, layout: Layout, part_id: str) -> Mapping[str, Terminal]:
        """Return the terminals of a part by letter, in the kind's order.

        Those of an unknown part are the letters on which something is landed, of function ``spare``: nothing is
        known of them and nothing may be computed through them.
        """
        kind = self.kind_of(layout.parts[part_id])
        if kind is not None:
            return kind.terminals
        return {
            letter: Terminal(function="spare", use="not known", side="right", holds=40)
            for letter in layout.landed_letters(part_id)
        }

    def with_kinds(self, more: Mapping[str, Kind]) -> Catalogue:
        """Return this catalogue and ``more``."""
        return Catalogue({**self.kinds, **more})


def settings_of(kind: Kind, part: Part) -> dict[str, Choice]:
    """Return the value of every setting, switch and jumper of a part: what the part says, else the kind's rest."""
    values: dict[str, Choice] = {name: setting.default for name, setting in kind.settings.items()}
    values.update({name: switch.rest for name, switch in kind.switches.items()})
    values.update({name: jumper.rest for name, jumper in kind.jumpers.items()})
    values.update(part.settings)
    return values


def figure(value: float | str, settings: Mapping[str, Choice]) -> float:
    """Return a figure of an element as a number, looking it up where it names a setting.

    Raises:
        KeyError: it names no setting.
        ValueError: the setting is not a number.
    """
    if not isinstance(value, str):
        return float(value)
    found = settings[value]
    if isinstance(found, bool | str):
        raise ValueError(f"the setting {value} is {found!r}, not a number")
    return float(found)


def line_share(source: Source, settings: Mapping[str, Choice]) -> float:
    """Return the line volts as a share of those that the tap in use is made for; 1.0 where the kind does not say.

    208 V on a tap for 240 V is 0.867, so that a secondary of 24 V is one of 20.8 V.
    """
    if not source.tap or source.line_volts is None:
        return 1.0
    return figure(source.line_volts, settings) / source.taps[tap_marking(settings[source.tap])]


def tap_marking(value: Choice) -> str:
    """Return the marking of a tap as ``taps`` has it: a number without needless digits, or text as it is."""
    return value if isinstance(value, str) else f"{value:g}"


def supply_of(source: Source, settings: Mapping[str, Choice]) -> str:
    """Return the name of the mains supply that feeds a source, looking it up where it names a setting."""
    return str(settings.get(source.mains, source.mains))
