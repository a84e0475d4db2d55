"""Changes of a document: JSON Patch (RFC 6902), with the rules that hold for jobs.

Rules of the file: this is the only way in which a document changes. A patch is applied whole or not at all; what was
handed in stays as it was; the way back is returned. Over RFC 6902 stand the limits, and one rule: what has an id is
never overwritten by accident, so ``add`` (and ``copy`` and ``move``) onto an id that exists is refused.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.job.inverse import inverse_of
from app.job.json_values import compact, json_equal, refuse_unfit, shown
from app.job.names import pointer
from app.job.pointers import steps_of
from app.job.refusal import Refused
from app.job.strict_json import parse_json
from app.job.working_copy import WorkingCopy

MOST_OPERATIONS = 500
MOST_PATCH_BYTES = 256 * 1024

Operation = Mapping[str, Any]
Steps = tuple[str, ...]

_NEEDS = {
    "add": ("value",),
    "remove": (),
    "replace": ("value",),
    "move": ("from",),
    "copy": ("from",),
    "test": ("value",),
}
_COLLECTIONS = ("parts", "cables", "conductors")


@dataclass(frozen=True, slots=True)
class Patched:
    """A document after a patch, and the patch that leads back. It shares what did not change with the one before."""

    document: dict[str, Any]
    inverse: tuple[dict[str, Any], ...]


@dataclass(frozen=True, slots=True)
class _Step:
    """One operation whose form has been judged."""

    op: str
    path: Steps
    source: Steps
    value: Any


def parse_patch(data: bytes) -> list[dict[str, Any]]:
    """Return the operations of a JSON Patch text; ``apply_patch`` judges each of them.

    Raises:
        Refused: not JSON, over a limit, or not a list; pointers lead into the patch.
    """
    operations = parse_json(data, MOST_PATCH_BYTES, "patch")
    if not isinstance(operations, list):
        raise Refused("bad-patch", "A patch is a list.", pointer="", would_be_right="a list of operations (RFC 6902)")
    return operations


def apply_patch(document: Mapping[str, Any], operations: Sequence[Operation]) -> Patched:
    """Return the document after all operations, and the inverse.

    Args:
        document: a JSON object within the limits of a job. It is not changed.
        operations: RFC 6902 operations. Members that RFC 6902 does not know are ignored, as it demands.

    Raises:
        Refused: ``bad-patch``, ``bad-pointer``, ``no-such-target``, ``too-large``, ``too-deep``; with status 409
            ``id-taken`` and ``test-failed``. Pointers lead into the document; those of ``bad-patch`` and
            ``bad-pointer`` lead into the patch.
    """
    steps = _judged_all(operations)
    working = WorkingCopy(document)
    for number, step in enumerate(steps):
        try:
            _apply(working, step)
        except Refused as refusal:
            raise _told(refusal, number, step) from None
    if not isinstance(working.document, dict):
        raise Refused("bad-patch", "The job would no longer be an object.", pointer="", would_be_right="an object")
    inverse = inverse_of(document, working.document, MOST_OPERATIONS)
    _refuse_large(inverse, undo=True)
    return Patched(working.document, tuple(inverse))


def way_back(document: Mapping[str, Any], inverses: Iterable[Sequence[Operation]]) -> list[dict[str, Any]]:
    """Return one patch that undoes several changes at once, each thing said once.

    Args:
        document: the document after the changes. It is not changed.
        inverses: the inverse of each change, the newest first, as they were returned when it was made.

    Raises:
        Refused: an inverse does not lead from where the ones before it have led.
    """
    working = WorkingCopy(document)
    for inverse in inverses:
        for number, operation in enumerate(inverse):
            _apply(working, _judged(operation, number))
    return inverse_of(working.document, document, MOST_OPERATIONS)


def _apply(working: WorkingCopy, step: _Step) -> None:
    match step.op:
        case "add":
            _put(working, step.path, step.value)
        case "remove":
            working.remove(step.path)
        case "replace":
            working.replace(step.path, step.value)
        case "copy":
            _put(working, step.path, working.at(step.source))
        case "move":
            _move(working, step)
        case _:
            _test(working, step)


def _move(working: WorkingCopy, step: _Step) -> None:
    if step.source == step.path:
        working.at(step.source)
        return
    if step.path[: len(step.source)] == step.source:
        raise Refused(
            "no-such-target",
            "A thing cannot be moved into itself.",
            pointer=pointer(*step.path),
            would_be_right="a place outside of what is moved",
        )
    _put(working, step.path, working.remove(step.source))


def _put(working: WorkingCopy, path: Steps, value: Any) -> None:
    if (_has_id(path) and working.holds(path)) or (_holds_ids(path) and _is_filled(working, path)):
        what = pointer(*path) or "The whole job"
        raise Refused(
            "id-taken",
            f"{what} exists already, and adding would overwrite it.",
            pointer=pointer(*path),
            would_be_right="`replace` to change what is there, or another id for a new one",
            status_hint=409,
        )
    working.add(path, value)


def _has_id(path: Steps) -> bool:
    """Tell whether a place is that of a part, cable, conductor, kind or layout."""
    if len(path) == 4:
        return path[0] == "layouts" and path[2] in _COLLECTIONS
    return len(path) == 2 and path[0] in ("layouts", "kinds")


def _holds_ids(path: Steps) -> bool:
    """Tell whether a place holds such things by id, so that adding there would overwrite all of them at once."""
    if len(path) == 3:
        return path[0] == "layouts" and path[2] in _COLLECTIONS
    return path in ((), ("layouts",), ("kinds",))


def _is_filled(working: WorkingCopy, path: Steps) -> bool:
    return not path or (working.holds(path) and working.at(path) != {})


def _test(working: WorkingCopy, step: _Step) -> None:
    try:
        found = working.at(step.path)
    except Refused as refusal:
        raise Refused(
            "test-failed",
            f"{refusal.message} The change expects {shown(step.value)} there.",
            pointer=pointer(*step.path),
            would_be_right="a change made from the job as it is now",
            status_hint=409,
        ) from None
    if not json_equal(found, step.value):
        raise Refused(
            "test-failed",
            f"{pointer(*step.path) or 'The job'} is now {shown(found)}, while the change expects {shown(step.value)}.",
            pointer=pointer(*step.path),
            would_be_right="a change made from the job as it is now",
            status_hint=409,
        )


def _judged_all(operations: Sequence[Operation]) -> list[_Step]:
    if len(operations) > MOST_OPERATIONS:
        raise Refused(
            "too-large",
            f"The patch has {len(operations):,} operations.",
            pointer="",
            would_be_right=f"at most {MOST_OPERATIONS} operations",
            status_hint=413,
        )
    steps = [_judged(operation, number) for number, operation in enumerate(operations)]
    _refuse_large([dict(operation) for operation in operations], undo=False)
    return steps


def _refuse_large(operations: list[dict[str, Any]], *, undo: bool) -> None:
    size = len(compact(operations).encode())
    if size > MOST_PATCH_BYTES:
        raise Refused(
            "too-large",
            f"The undo of this change would take {size:,} bytes." if undo else f"The patch is {size:,} bytes long.",
            pointer="",
            would_be_right=f"at most {MOST_PATCH_BYTES:,} bytes; a change in several smaller steps",
            status_hint=413,
        )


def _judged(operation: object, number: int) -> _Step:
    if not isinstance(operation, Mapping):
        raise _bad((number,), "An operation is an object.", '{"op": …, "path": …}')
    op = operation.get("op")
    if not isinstance(op, str) or op not in _NEEDS:
        raise _bad((number, "op"), f"{_shortly(op)} is no operation.", "one of " + ", ".join(_NEEDS))
    for name in _NEEDS[op]:
        if name not in operation:
            raise _bad((number,), f"The operation {op} needs {name!r}.", f'"{name}" beside "op" and "path"')
    # A value has its own depth, of which the operation around it is no part.
    refuse_unfit(dict(operation), (number,), depth=-1)
    value = operation.get("value") if "value" in _NEEDS[op] else None
    source = _pointed(operation, "from", number) if "from" in _NEEDS[op] else ()
    return _Step(op, _pointed(operation, "path", number), source, value)


def _pointed(operation: Mapping[str, Any], name: str, number: int) -> Steps:
    text = operation.get(name)
    if not isinstance(text, str):
        raise _bad((number, name), f"The operation needs a JSON Pointer as {name!r}.", '"/layouts/as-left/parts/fb"')
    try:
        return steps_of(text)
    except Refused as refusal:
        refusal.pointer = pointer(number, name)
        raise


def _bad(steps: tuple[str | int, ...], message: str, would_be_right: str) -> Refused:
    return Refused("bad-patch", message, pointer=pointer(*steps), would_be_right=would_be_right)


def _shortly(value: object) -> str:
    return repr(value)[:40]


def _told(refusal: Refused, number: int, step: _Step) -> Refused:
    """Return the refusal with the operation named; the place in the document stays its pointer."""
    return Refused(
        refusal.code,
        f"Operation {number + 1} ({step.op} {pointer(*step.path) or 'the whole job'}): {refusal.message}",
        pointer=refusal.pointer,
        would_be_right=refusal.would_be_right,
        status_hint=refusal.status_hint,
    )
