"""A situation said in options (``tc=cool-1``, ``fb.limit=open``, ``conductor-open:w3``): does it fit a layout?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal, get_args

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import CallName, Choice, Kind
from app.catalogue.structure import said_choices, settable_of, setting_fits
from app.circuit.broken_layout import broken_layout
from app.circuit.faults import injected
from app.circuit.logic import enabled_calls, values_of
from app.circuit.situation import Fault, FaultName, Situation
from app.circuit.supplies import supplies_of
from app.circuit.template import template_of
from app.job.model import Layout
from app.job.names import is_id
from app.job.refusal import Refused

_CALLS = get_args(CallName)
_FAULTS = get_args(FaultName)
_ON_ELEMENTS = ("coil-open", "coil-shorted", "contact-welded", "contact-dead", "fuse-open", "source-dead")


def parse_situation(
    calls: Sequence[str] = (),
    sets: Sequence[str] = (),
    supply: float | str | None = None,
    outdoor: float | str | None = None,
    faults: Sequence[str] = (),
    mains: Sequence[str] = (),
) -> Situation:
    """Return the situation that options say.

    Args:
        calls: ``PART=CALL``; a part may come several times.
        sets: ``PART.NAME=VALUE``; a value that reads as a number or as true or false is one.
        supply: percent of the rated supply, 100 when None.
        outdoor: degrees Celsius, 20 when None.
        faults: ``IS:AT`` or ``IS:AT:OHMS``; two places are joined by a comma; ``w3`` stands for ``conductor:w3``,
            ``fb.R`` for the terminal, or the element or setting where the fault is on one.
        mains: ``SUPPLY=on`` or ``SUPPLY=off``; a supply that is not named is on.

    Raises:
        Refused: code ``bad-situation``.
    """
    asked: dict[str, list[CallName]] = {}
    for text in calls:
        part, call = _call(text)
        if call not in asked.setdefault(part, []):
            asked[part].append(call)
    return Situation(
        calls={part: tuple(names) for part, names in asked.items()},
        set=dict(_setting(text) for text in sets),
        supply_percent=_number("supply", supply, 100.0, 0.0, 200.0),
        outdoor_c=_number("outdoor temperature", outdoor, 20.0, -80.0, 80.0),
        mains=dict(_mains(text) for text in mains),
        faults=tuple(_fault(text) for text in faults),
    )


def check_situation(situation: Situation, layout: Layout, catalogue: Catalogue) -> None:
    """Refuse a situation that asks for what the layout does not have.

    Raises:
        Refused: codes ``bad-situation`` and ``bad-fault``.
    """
    overrides: dict[str, dict[str, Choice]] = {}
    supplies = supplies_of(layout, catalogue) if situation.mains else {}
    for supply, state in situation.mains.items():
        if state == "off" and supply not in supplies:
            raise _refused(f"there is no supply {supply}", "one of " + (", ".join(supplies) or "no supply at all"))
    for name, value in situation.set.items():
        part, _, what = name.partition(".")
        _check_setting(name, value, what, _kind(part, layout, catalogue))
        overrides.setdefault(part, {})[what] = value
    for part, calls in situation.calls.items():
        kind = _kind(part, layout, catalogue)
        values = values_of(kind, layout.parts[part], overrides.get(part, {}))
        enabled = enabled_calls(template_of(kind), values, situation.outdoor_c)
        for call in calls:
            if call not in enabled:
                what = "is not set up for" if call in kind.calls else "has no"
                raise _refused(f"{part} {what} call {call}", "one of " + (", ".join(enabled) or "no call at all"))
    broken_layout(layout, situation.faults)
    injected(layout, catalogue, situation.faults)


def _refused(what: str, right: str) -> Refused:
    return Refused("bad-situation", f"The situation cannot be asked: {what}.", would_be_right=right)


def _call(text: str) -> tuple[str, CallName]:
    part, _, call = text.partition("=")
    for name in _CALLS:
        if name == call and is_id(part):
            return part, name
    raise _refused(f"{text!r} is not PART=CALL", "such as tc=cool-1; the calls are " + ", ".join(_CALLS))


def _mains(text: str) -> tuple[str, Literal["on", "off"]]:
    supply, _, state = text.partition("=")
    if state == "on":
        return supply, "on"
    if state == "off":
        return supply, "off"
    raise _refused(f"{text!r} is not SUPPLY=on or SUPPLY=off", "such as outdoor=off")


def _setting(text: str) -> tuple[str, Choice]:
    name, equals, value = text.partition("=")
    part, _, what = name.partition(".")
    if not equals or not value or not what or not is_id(part):
        raise _refused(f"{text!r} is not PART.NAME=VALUE", "such as fb.limit=open")
    return name, _value(value)


def _value(text: str) -> Choice:
    if text in ("true", "false"):
        return text == "true"
    try:
        return int(text)
    except ValueError:
        number = _finite(text)
        return text if number is None else number


def _finite(text: str) -> float | None:
    try:
        number = float(text)
    except ValueError:
        return None
    return number if math.isfinite(number) else None


def _number(what: str, given: float | str | None, default: float, least: float, most: float) -> float:
    if given is None:
        return default
    number = _finite(str(given))
    if number is None or not least <= number <= most:
        raise _refused(f"the {what} is {given!r}", f"a number from {least:g} to {most:g}")
    return number


def _fault(text: str) -> Fault:
    word, _, rest = text.partition(":")
    for name in _FAULTS:
        if name == word and rest:
            places, _, last = rest.rpartition(":")
            ohms = _finite(last) if places else None
            if ohms is not None and ohms < 0:
                raise _refused(f"the fault {text!r} has less than 0 ohms", "0 ohms or more")
            at = [_subject(name, place) for place in (rest if ohms is None else places).split(",")]
            if len(at) > 2 or "" in at:
                raise _refused(f"the fault {text!r} does not name one or two places", "such as short:fb.R,fb.C")
            return Fault.model_validate({"is": name, "at": at[0] if len(at) == 1 else tuple(at), "ohms": ohms})
    raise _refused(
        f"{text!r} is not IS:AT or IS:AT:OHMS", "such as conductor-open:w3; faults are " + ", ".join(_FAULTS)
    )


def _subject(fault: FaultName, place: str) -> str:
    """Return the subject string of a place; the sort that the fault is about may be left away."""
    if ":" in place or not place:
        return place
    if "." not in place:
        return f"conductor:{place}"
    if fault in _ON_ELEMENTS:
        return f"element:{place}"
    return f"setting:{place}" if fault == "wrong-setting" else f"terminal:{place}"


def _kind(part: str, layout: Layout, catalogue: Catalogue) -> Kind:
    if part not in layout.parts:
        raise _refused(f"there is no part {part}", "one of " + (", ".join(sorted(layout.parts)) or "no part at all"))
    kind = catalogue.kind_of(layout.parts[part])
    if kind is None:
        raise _refused(f"nobody knows what kind of part {part} is", "a part of a known kind")
    return kind


def _check_setting(name: str, value: Choice, what: str, kind: Kind) -> None:
    setting = settable_of(kind, what)
    if setting is None:
        named = sorted([*kind.settings, *kind.switches, *kind.jumpers])
        raise _refused(f"there is no {name}", "one of " + (", ".join(named) or "nothing that can be set"))
    if not setting_fits(setting, value):
        raise _refused(f"{name} cannot be {value!r}", said_choices(setting))
