"""A setting, jumper or switch and the value that it has, in words: ``switch over`` and ``36 °F``.

Rules of the file: a unit stands beside its figure, so that it need not stand in the name; a temperature is told in the
unit of the job.
"""

from __future__ import annotations

from app.catalogue.kind import Choice, Kind, Setting
from app.catalogue.spoken import plain
from app.job.temperatures import CELSIUS, Units, temperature_words


def setting_called(kind: Kind | None, name: str) -> str:
    """Return what a setting, jumper or switch is called: ``blower on`` for ``blower_on_s``."""
    first, _, last = name.rpartition("_")
    return plain(first if _unit_of(kind, name) and len(last) == 1 and first else name)


def value_words(kind: Kind | None, name: str, value: Choice, units: Units) -> str:
    """Return the value of a setting, jumper or switch: ``open``, ``yes``, ``30 s``, ``36 °F``."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, int | float):
        return plain(value)
    unit = _unit_of(kind, name)
    return temperature_words(value, units) if unit == CELSIUS else f"{value:g} {unit}".strip()


def _unit_of(kind: Kind | None, name: str) -> str:
    setting: Setting | None = kind.settings.get(name) if kind is not None else None
    return setting.unit if setting is not None else ""
