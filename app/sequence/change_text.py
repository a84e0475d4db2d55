"""Changes said in a line (``30:fb.limit=open``): what is meant, and does it fit the layout?

::

    SECONDS:PART=CALL[+CALL...]   what a control asks for from now on (tc=heat-1, tc=cool-1+fan)
    SECONDS:PART=idle             it asks for nothing more; PART= says the same
    SECONDS:PART.NAME=VALUE       a switch, jumper or setting (fb.limit=open)
    SECONDS:SUPPLY=off            a disconnect, by the supply that it feeds (main=off, outdoor=on); mains=off opens all
    SECONDS:supply=PERCENT        of the rated volts
    SECONDS:outdoor=C             outdoor temperature
    SECONDS:fault=IS:AT[:OHMS]    something breaks, said as in a situation
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from app.catalogue.catalogue import Catalogue
from app.circuit.situation import Situation
from app.circuit.situation_text import check_situation, parse_situation
from app.circuit.supplies import supplies_of
from app.job.model import Layout
from app.job.refusal import Refused
from app.sequence.change import Change

EVERY_SUPPLY = "mains"
_EXAMPLES = "such as 0:tc=heat-1, 30:fb.limit=open, 60:main=off, 90:tc=idle, 120:outdoor=-8"


def read_changes(texts: Sequence[str], layout: Layout, catalogue: Catalogue, start: Situation) -> list[Change]:
    """Return the changes that lines say, in the order in which they happen.

    Args:
        texts: ``SECONDS:CHANGE``.
        layout: what they have to fit.
        catalogue: with the kinds of the job.
        start: the situation before the first of them.

    Raises:
        Refused: ``bad-change``, ``bad-situation`` or ``bad-fault``.
    """
    supplies = list(supplies_of(layout, catalogue))
    changes = sorted((_read(text, supplies) for text in texts), key=lambda change: change.at_s)
    situation = start
    for change in changes:
        situation = change.made_to(situation)
        # What a control asks for is judged by its set-up at that time; what others ask for is not judged again.
        check_situation(situation.model_copy(update={"calls": change.calls}), layout, catalogue)
    return changes


def _read(text: str, supplies: Sequence[str]) -> Change:
    seconds, colon, said = text.partition(":")
    at_s = _seconds(seconds)
    what, equals, value = said.partition("=")
    if not colon or not equals or not what or at_s is None:
        raise Refused("bad-change", f"{text!r} is not SECONDS:CHANGE.", would_be_right=_EXAMPLES)
    change = Change(at_s, said)
    if what == "fault":
        return replace(change, faults=parse_situation(faults=[value]).faults)
    if "." in what:
        return replace(change, set=parse_situation(sets=[said]).set)
    if value in ("on", "off"):
        return replace(change, mains=dict.fromkeys(_supplies_meant(what, supplies), "on" if value == "on" else "off"))
    if what == "outdoor" and _number(value) is not None:
        return replace(change, outdoor_c=parse_situation(outdoor=value).outdoor_c)
    if what == "supply" and _number(value) is not None:
        return replace(change, supply_percent=parse_situation(supply=value).supply_percent)
    if value in ("", "idle"):
        return replace(change, calls={what: ()})
    return replace(change, calls=parse_situation(calls=[f"{what}={call}" for call in value.split("+")]).calls)


def _supplies_meant(what: str, supplies: Sequence[str]) -> Sequence[str]:
    if what == EVERY_SUPPLY:
        return supplies
    if what in supplies:
        return [what]
    raise Refused(
        "bad-change",
        f"There is no supply {what} to switch on or off.",
        would_be_right="one of " + ", ".join([*supplies, f"{EVERY_SUPPLY} for all of them"]),
    )


def _seconds(text: str) -> float | None:
    seconds = _number(text)
    return seconds if seconds is not None and seconds >= 0 else None


def _number(text: str) -> float | None:
    try:
        number = float(text)
    except ValueError:
        return None
    return number if math.isfinite(number) else None
