"""What is wrong with the shape of a document, in people's words.

pydantic finds what is wrong; here that becomes one refusal that names the place, says what stands there and what could.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from app.job.json_values import shown
from app.job.model import Accepted, Cable, Conductor, Job, JobSettings, Layout, Part, Records, UnknownEnd
from app.job.names import pointer
from app.job.refusal import Refused

Steps = tuple[str | int, ...]

OWNERS: tuple[tuple[Steps, type[BaseModel], str], ...] = (
    ((), Job, "the job"),
    (("settings",), JobSettings, "the settings of the job"),
    (("records",), Records, "the records"),
    (("records", "accepted", "*"), Accepted, "an accepted finding"),
    (("layouts", "*"), Layout, "a layout"),
    (("layouts", "*", "parts", "*"), Part, "a part"),
    (("layouts", "*", "cables", "*"), Cable, "a cable"),
    (("layouts", "*", "conductors", "*"), Conductor, "a conductor"),
    (("layouts", "*", "conductors", "*", "ends", "*"), UnknownEnd, "an end"),
)
"""Which model stands at which place, ``*`` being an id or a number; a longer way comes after its beginning."""

AN_ID = 'an id: a small letter, then at most 31 small letters, digits, "-" or "_"'
AN_END = 'a terminal such as "fb.R", null (landed nowhere) or {"unknown": "where it disappears"}'
_BY_ID = "an object with one member for each id"
_SHORT = "text of at most 200 characters"
_LONG = "text of at most 4000 characters"

RIGHT: Mapping[str, str] = {
    "format": '"rungwright-job"',
    "version": "1",
    "title": _SHORT,
    "notes": _LONG,
    "note": _LONG,
    "label": _SHORT,
    "place": f"where a person stands: {_SHORT}",
    "air": f"the air stream that the part serves: {_SHORT}",
    "unknown": f"where the end disappears: {_SHORT}",
    "reason": _LONG,
    "layouts": _BY_ID,
    "parts": _BY_ID,
    "cables": _BY_ID,
    "conductors": _BY_ID,
    "kinds": f"{_BY_ID}; a kind is an object",
    "records": 'an object with "accepted"',
    "accepted": "a list of accepted findings",
    "settings": "an object; each setting is true, false, a number or text",
    "frequency_hz": "50 or 60",
    "units": '"us" or "si"',
    "kind": 'the id of a kind such as "furnace-board", or "unknown"',
    "at": "two whole numbers such as [480, 120], each from -100000 to 100000",
    "size_awg": "a whole number from 10 to 30",
    "length_m": "metres, more than 0 and at most 1000",
    "ends": f"exactly two ends, each {AN_END}",
    "cable": 'the id of a cable such as "cb1"',
    "insulation": 'colour letters of IEC 60757 such as "RD", "GNYE" or, with a tracer, "WH/BU"',
    "rule": 'the name of a rule such as "chatter"',
    "subjects": 'a list of subjects such as "conductor:w3"',
}
"""What may stand in each field of the document."""


@dataclass(frozen=True, slots=True)
class _Owner:
    """The model in which something is wrong, its words, and the field of it (None: the whole)."""

    model: type[BaseModel]
    words: str
    field: str | None


def complaint_of(error: ValidationError, document: Mapping[str, Any]) -> Refused:
    """Return what is wrong with a document as one refusal; the first thing is told, the others are counted."""
    details = error.errors(include_url=False)
    places = [_place_in(document, detail["loc"]) for detail in details]
    number = _most_telling(details, places)
    refusal = _told(details[number], places[number])
    first = places[0]
    others = len({place for place in places if place[: len(first)] != first})
    if others:
        refusal.message += f" {others} more {'thing is' if others == 1 else 'things are'} wrong elsewhere."
    return refusal


def _place_in(document: Any, loc: Sequence[str | int]) -> Steps:
    """Return the part of an error's way that exists in the document; the rest names branches of the model."""
    steps: Steps = ()
    for step in loc:
        in_object = isinstance(document, Mapping) and step in document
        in_list = isinstance(document, list) and isinstance(step, int) and step < len(document)
        if in_object or in_list:
            document, steps = document[step], (*steps, step)
        elif step != "UnknownEnd":
            break
    return steps


def _most_telling(details: Sequence[ErrorDetails], places: Sequence[Steps]) -> int:
    """Return the number of the error to tell: of several about one end, the one that looked deepest into it."""
    first = places[0]
    about = [number for number, place in enumerate(places) if place[: len(first)] == first]
    if len(first) == 6 and isinstance(details[0]["input"], Mapping):
        about = [number for number in about if details[number]["loc"][6:7] == ("UnknownEnd",)] or about
    return about[0]


def _told(detail: ErrorDetails, place: Steps) -> Refused:
    owner = _owner_of(place)
    loc = detail["loc"]
    if loc[-1] == "[key]":
        message = f"{shown(detail['input'])} cannot be an id."
        return Refused("bad-shape", message, pointer=pointer(*place), would_be_right=AN_ID)
    if detail["type"] == "extra_forbidden":
        return _unknown_key(str(loc[-1]), place)
    if detail["type"] == "missing" and isinstance(loc[-1], str):
        message = f"{_capital(owner.words)} needs “{loc[-1]}”, which is not there."
        right = f"“{loc[-1]}”: {RIGHT[loc[-1]]}"
        return Refused("bad-shape", message, pointer=pointer(*place), would_be_right=right)
    return _unfit(detail, place, owner)


def _unfit(detail: ErrorDetails, place: Steps, owner: _Owner) -> Refused:
    if owner.field is None:
        what, right = owner.words, f"an object with {_keys(owner.model)}"
    else:
        what, right = f"“{owner.field}” of {owner.words}", RIGHT[owner.field]
    if owner.model is UnknownEnd and owner.field is None:
        right = AN_END
    if detail["type"] == "string_too_long":
        message = f"The text is {len(detail['input'])} characters long, too long for {what}."
    elif detail["type"] == "missing":
        message = f"{_capital(what)} has too few entries."
    elif detail["type"] == "too_long":
        message = f"{_capital(what)} has too many entries."
    else:
        message = f"{shown(detail['input'])} cannot be {what}."
    return Refused("bad-shape", message, pointer=pointer(*place), would_be_right=right)


def _unknown_key(key: str, place: Steps) -> Refused:
    owner = _owner_of(place[:-1])
    keys = [info.alias or name for name, info in owner.model.model_fields.items()]
    near = get_close_matches(key, keys, n=1)
    right = f"“{near[0]}”, if that was meant; {owner.words} has {_keys(owner.model)}" if near else _keys(owner.model)
    message = f"{_capital(owner.words)} has no key {shown(key)}."
    return Refused("unknown-key", message, pointer=pointer(*place), would_be_right=right)


def _owner_of(place: Steps) -> _Owner:
    found = _Owner(Job, "the job", None)
    for pattern, model, words in OWNERS:
        if len(pattern) <= len(place) and all(p in ("*", step) for p, step in zip(pattern, place, strict=False)):
            rest = place[len(pattern) :]
            found = _Owner(model, words, str(rest[0]) if rest else None)
    return found


def _keys(model: type[BaseModel]) -> str:
    names = [info.alias or name for name, info in model.model_fields.items()]
    return ", ".join(names)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
