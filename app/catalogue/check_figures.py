"""Are the figures and settings of a kind possible?

Rules of the file: the bounds are wider than anything in the trade. They are there so that arithmetic on a bad kind
ends in a refusal and never in infinity.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.catalogue.catalogue import tap_marking
from app.catalogue.kind import Choice, Coil, Kind, Setting, Source
from app.job.names import pointer
from app.job.refusal import Refused

BOUNDS: dict[str, tuple[float, float]] = {
    "volts": (1, 600),
    "va": (0.01, 10_000),
    "va_sealed": (0.01, 10_000),
    "va_inrush": (0.01, 10_000),
    "regulation": (0.01, 0.5),
    "power_factor": (0.05, 1),
    "power_factor_sealed": (0.05, 1),
    "power_factor_inrush": (0.05, 1),
    "pull_in": (0.05, 1.2),
    "pull_in_guaranteed": (0.05, 1.2),
    "drop_out": (0.01, 1.2),
    "dc_ohms": (0.001, 1e6),
    "amps": (0.001, 1000),
    "max_amps": (0.001, 1000),
    "off_leak_ohms": (1, 1e9),
    "ohms": (0.1, 1e9),
    "threshold_volts": (0.1, 600),
    "powers_above": (0.1, 600),
    "line_volts": (1, 1000),
}
"""Least and most of each figure, by its name in an element."""

_NAMED: dict[str, frozenset[Choice]] = {
    "phase_deg": frozenset({0, 180, "unknown"}),
    "limiting": frozenset({"inherent", "device", "unknown"}),
}


def check_figures(kind: Kind) -> None:
    """Refuse a setting that contradicts itself and a figure that is out of bounds.

    Raises:
        Refused: ``bad-setting``, ``unknown-setting`` or ``bad-figure``; the pointer is within the kind.
    """
    for name, setting in kind.settings.items():
        _check_setting(name, setting)
    for name, element in kind.elements.items():
        for figure, (least, most) in BOUNDS.items():
            given = getattr(element, figure, None)
            if given is not None:
                _check_figure(kind, pointer("elements", name, figure), given, least, most)
        if isinstance(element, Source):
            _check_source(kind, name, element)
            _check_taps(kind, name, element)
        if isinstance(element, Coil):
            _check_coil(kind, name, element)


def value_fits(setting: Setting, value: Choice) -> bool:
    """Return whether a setting may have this value."""
    if setting.choices:
        return any(same(value, choice) for choice in setting.choices)
    if setting.least is not None or setting.most is not None:
        if isinstance(value, bool | str):
            return False
        return (setting.least is None or value >= setting.least) and (setting.most is None or value <= setting.most)
    return _sort(value) == _sort(setting.default)


def same(one: Choice, other: Choice) -> bool:
    """Return whether two values are equal and of one sort: 1 is 1.0, but is not true."""
    return _sort(one) == _sort(other) and one == other


def _sort(value: Choice) -> str:
    if isinstance(value, bool):
        return "true or false"
    return "text" if isinstance(value, str) else "number"


def _check_setting(name: str, setting: Setting) -> None:
    if setting.choices and (setting.least is not None or setting.most is not None):
        raise Refused(
            "bad-setting",
            f"The setting {name} has choices and a range as well.",
            pointer=pointer("settings", name),
            would_be_right="either choices, or least and most",
        )
    if not value_fits(setting, setting.default):
        raise Refused(
            "bad-setting",
            f"The default of the setting {name}, {setting.default!r}, is not among what it may be.",
            pointer=pointer("settings", name, "default"),
            would_be_right="one of its choices, or a number from least to most",
        )


def _values(setting: Setting) -> Iterator[Choice]:
    yield setting.default
    yield from setting.choices
    yield from (value for value in (setting.least, setting.most) if value is not None)


def _check_figure(kind: Kind, at: str, given: float | str, least: float, most: float) -> None:
    if isinstance(given, str):
        setting = _setting(kind, at, given)
        if not setting.choices and (setting.least is None or setting.most is None):
            raise Refused(
                "bad-setting",
                f"The setting {given} is a figure and so needs its choices, or least and most.",
                pointer=pointer("settings", given),
                would_be_right=f"a range within {least} to {most}",
            )
        values = list(_values(setting))
    else:
        values = [given]
    for value in values:
        if isinstance(value, bool | str) or not least <= value <= most:
            raise Refused(
                "bad-figure",
                f"The figure {value!r} is not possible here.",
                pointer=at,
                would_be_right=f"a number from {least} to {most}",
            )


def _check_source(kind: Kind, name: str, source: Source) -> None:
    for field, allowed in _NAMED.items():
        given = getattr(source, field)
        at = pointer("elements", name, field)
        values = {given} if given in allowed else set(_values(_setting(kind, at, str(given))))
        if not values <= allowed:
            raise Refused(
                "bad-figure",
                f"{field} is never {sorted(map(str, values - allowed))[0]}.",
                pointer=at,
                would_be_right="one of " + ", ".join(sorted(map(str, allowed))),
            )


def _check_taps(kind: Kind, name: str, source: Source) -> None:
    least, most = BOUNDS["line_volts"]
    for marking, volts in source.taps.items():
        if not least <= volts <= most:
            raise Refused(
                "bad-figure",
                f"A tap for {volts!r} V is not possible here.",
                pointer=pointer("elements", name, "taps", marking),
                would_be_right=f"a number from {least} to {most}",
            )
    if not source.tap:
        return
    at = pointer("elements", name, "tap")
    markings = {tap_marking(value) for value in _setting(kind, at, source.tap).choices}
    if not markings or not markings <= set(source.taps):
        raise Refused(
            "bad-setting",
            f"The setting {source.tap} does not choose among the taps of {name}.",
            pointer=pointer("settings", source.tap),
            would_be_right="choices among " + (", ".join(sorted(source.taps)) or "the taps, of which there are none"),
        )


def _check_coil(kind: Kind, name: str, coil: Coil) -> None:
    pull_in, drop_out = coil.pull_in, coil.drop_out
    if isinstance(pull_in, str) or isinstance(drop_out, str):
        return
    if drop_out >= pull_in:
        raise Refused(
            "bad-figure",
            f"The coil {name} lets go at {drop_out} of its volts, which is not below its pull-in at {pull_in}.",
            pointer=pointer("elements", name, "drop_out"),
            would_be_right=f"a share below {pull_in}",
        )


def _setting(kind: Kind, at: str, name: str) -> Setting:
    if name not in kind.settings:
        raise Refused(
            "unknown-setting",
            f"There is no setting {name} that could hold this figure.",
            pointer=at,
            would_be_right="a number, or one of "
            + (", ".join(sorted(kind.settings)) or "the settings, of which there are none"),
        )
    return kind.settings[name]
