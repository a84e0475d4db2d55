"""What a conductor is for, in sentences."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.catalogue.spoken import effect_words, plain
from app.explain.losing import Lost
from app.explain.names import Names
from app.explain.phrases import joined, sentence
from app.explain.role import Role, RoleName
from app.explain.situation_words import IDLE
from app.job.model import End, UnknownEnd

ROLE_WORDS: Mapping[RoleName, str] = {
    "supply": "24 V supply",
    "common": "common: the way back to the source",
    "ground": "ground: it bonds to the chassis and carries nothing in use",
    "compressor": "call for the compressor",
    "compressor-2": "call for the second compressor stage",
    "reversing-valve": "call for the reversing valve",
    "furnace-heat": "call for furnace heat",
    "furnace-heat-2": "call for the second furnace stage",
    "auxiliary-heat": "call for auxiliary heat",
    "emergency-heat": "call for emergency heat alone",
    "electric-heat": "call for electric heat",
    "boiler-heat": "call for boiler heat",
    "defrost-output": "output of the outdoor unit: calls for tempering heat while it defrosts",
    "pump": "call for the pump",
    "humidifier": "call for the humidifier",
    "zone-open": "opens a zone",
    "zone-close": "closes a zone",
    "ventilation": "call for fresh air",
    "dehumidifier": "call for drying the air",
    "indoor-fan": "call for the indoor fan",
    "outdoor-fan": "call for the outdoor fan",
    "signal": "signal: a message that runs nothing",
    "sensor": "sensor lead: never to be joined to 24 V",
    "bus": "data: nothing is computed through it",
    "millivolt": "millivolts: never to be joined to 24 V",
    "line": "line voltage",
    "spare": "spare: it joins nothing",
    "unknown": "not known: an end or a part was not seen",
    "no-effect": "no effect found: nothing runs by it in any call",
}


NEVER_HOT: frozenset[RoleName] = frozenset({"common", "ground", "spare", "sensor", "bus", "millivolt", "line"})


def role_words(role: Role) -> str:
    """Return a role in words, with its mode and what else the conductor carries."""
    words = ROLE_WORDS[role.name]
    if role.name == "reversing-valve" and role.mode:
        words += f", which is energised in {role.mode}"
    elif role.mode:
        words += f", {role.mode} side"
    also = [ROLE_WORDS[name].partition(":")[0] for name in role.also]
    return f"{words}; also {joined(also)}" if also else words


def conductor_sentences(names: Names, conductor: str, role: Role, lost: Sequence[Lost]) -> tuple[str, ...]:
    """Return what a conductor is for, when it is hot, and what is lost without it."""
    ends = names.layout.conductors[conductor].ends
    first = f"conductor {names.conductor(conductor)}, {_end(names, ends[0])} to {_end(names, ends[1])}"
    lines = [sentence(f"{first}: {role_words(role)}"), _hot_words(names, role)]
    by_loss: dict[tuple[str, str], list[str]] = {}
    for each in lost:
        loses = joined(list(dict.fromkeys(effect_words(effect) for _, effect in each.effects)))
        gets = joined(list(dict.fromkeys(effect_words(effect) for _, effect in each.instead)))
        by_loss.setdefault((loses, gets), []).append(each.situation)
    for (loses, gets), situations in by_loss.items():
        one = len(situations) == 1
        what = f"{'lacks' if one else 'lack'} {loses}" if loses else f"{'keeps' if one else 'keep'} what was there"
        more = f" and {'brings' if one else 'bring'} {gets}" if gets else ""
        lines.append(sentence(f"without it {situations_words(names, situations)} {what}{more}"))
    if not lost and role.name not in ("spare", "unknown"):
        lines.append("Nothing that runs is lost without it.")
    return tuple(line for line in lines if line)


def situations_words(names: Names, situations: Sequence[str], last: str = "and") -> str:
    """Return ``cool 1 and cool 2 at Thermostat``; what is more than a call is said whole."""
    by_part: dict[str, list[str]] = {}
    others: list[str] = []
    for each in situations:
        part, equals, call = each.partition("=")
        if each == IDLE:
            others.append("standing idle")
        elif equals and " " not in each and part in names.layout.parts:
            by_part.setdefault(part, []).append(plain(call))
        else:
            others.append(" with ".join(_option_words(names, option) for option in each.split(" ")))
    said = [f"{joined(calls, last)} at {names.part(part)}" for part, calls in by_part.items()]
    return joined([*said, *others], last)


def _option_words(names: Names, option: str) -> str:
    name, _, value = option.partition("=")
    part, dot, switch = name.partition(".")
    kind = names.kind(part) if part in names.layout.parts else None
    if kind is None:
        return option
    if not dot:
        return f"{plain(value)} at {names.part(part)}"
    return f"{names.switch(part, switch)} {value}" if switch in kind.switches else option


def _hot_words(names: Names, role: Role) -> str:
    if IDLE in role.hot_in:
        return "It is hot all the time."
    if not role.hot_in:
        return "" if role.name in NEVER_HOT else "No call makes it hot."
    return sentence(f"it is hot with {situations_words(names, role.hot_in, 'or')}")


def _end(names: Names, end: End) -> str:
    if end is None:
        return "landed nowhere"
    return f"an end that was not seen ({end.unknown})" if isinstance(end, UnknownEnd) else names.terminal(end)
