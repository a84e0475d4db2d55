"""From the text of a kind, as a job brings it along, to a ``Kind`` that has been judged.

pydantic finds what is wrong with the shape; here that becomes one refusal in people's words.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from app.catalogue.catalogue import UNKNOWN_KIND
from app.catalogue.check_kind import check_kind
from app.catalogue.kind import Call, Element, Jumper, Kind, Setting, Switch, Terminal
from app.job.names import pointer
from app.job.refusal import Refused

_ENTRIES: Mapping[str, type[BaseModel]] = {
    "terminals": Terminal,
    "settings": Setting,
    "switches": Switch,
    "jumpers": Jumper,
    "calls": Call,
}
_ELEMENTS: Mapping[str, type[BaseModel]] = {
    get_args(model.model_fields["is_"].annotation)[0]: model for model in get_args(get_args(Element)[0])
}


def kind_from(name: str, said: Mapping[str, Any]) -> Kind:
    """Return a kind from its text.

    Args:
        name: its id, as it stands under ``kinds``.
        said: the kind in the shape of ``kind.schema.json``.

    Raises:
        Refused: the first thing that is wrong with it, with a pointer ``/kinds/NAME/…``.
    """
    if name == UNKNOWN_KIND:
        raise Refused(
            "name-clash",
            "A part that nobody could identify has the kind unknown, so no kind may be named so.",
            pointer=pointer("kinds", name),
            would_be_right="another id",
        )
    try:
        kind = Kind.model_validate(said)
    except ValidationError as error:
        raise _complaint(name, error.errors(include_url=False)[0], said) from None
    check_kind(name, kind)
    return kind


def _complaint(name: str, detail: ErrorDetails, said: Mapping[str, Any]) -> Refused:
    place, standing = _place_in(said, detail["loc"])
    fields = ", ".join(_fields_at(said, place[:-1] if detail["type"] == "extra_forbidden" else place))
    if detail["type"] == "extra_forbidden":
        what, right = f"it has no key {place[-1]!r}", fields
    elif detail["type"] == "missing":
        what, right = f"{detail['loc'][-1]!r} is missing", fields or "as in the schema of a kind"
    elif detail["loc"] and detail["loc"][-1] == "[key]":
        what, right = f"{detail['input']!r} cannot be a name here", _expected(detail)
    else:
        what, right = f"{_shown(standing)} cannot stand here", _expected(detail)
    return Refused(
        "bad-kind",
        f"In the kind {name}: {what}.",
        pointer=pointer("kinds", name, *place),
        would_be_right=right,
    )


def _place_in(said: Any, loc: Sequence[str | int]) -> tuple[tuple[str | int, ...], Any]:
    """Return the part of an error's way that exists in the text, and what stands there."""
    place: tuple[str | int, ...] = ()
    for step in loc:
        is_there = step in said if isinstance(said, Mapping) else isinstance(said, list) and step in range(len(said))
        if not is_there:
            continue
        said = said[step]
        place = (*place, step)
    return place, said


def _fields_at(said: Mapping[str, Any], place: tuple[str | int, ...]) -> list[str]:
    """Return the keys that may stand at a place of a kind."""
    model: type[BaseModel] | None = None
    if not place:
        model = Kind
    elif len(place) == 2 and place[0] == "elements":
        entry = said["elements"][place[1]]
        model = _ELEMENTS.get(str(entry.get("is"))) if isinstance(entry, Mapping) else None
    elif len(place) == 2:
        model = _ENTRIES.get(str(place[0]))
    return [] if model is None else [info.alias or name for name, info in model.model_fields.items()]


def _expected(detail: ErrorDetails) -> str:
    context = detail.get("ctx", {})
    for key in ("expected", "expected_tags"):
        if key in context:
            return f"one of {context[key]}"
    if "pattern" in context:
        return f"text of the form {context['pattern']}"
    message = detail["msg"].removeprefix("Input should be ")
    return message[:1].lower() + message[1:]


def _shown(value: object) -> str:
    text = repr(value)
    return text if len(text) <= 60 else text[:57] + "..."
