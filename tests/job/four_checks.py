"""The one way in which a change is tested."""

import copy
import json
from collections.abc import Mapping, Sequence
from typing import Any

from app.job.patch import MOST_OPERATIONS, Patched, apply_patch
from app.job.refusal import Refused


def text_of(value: Any) -> str:
    """Return a value as text in which 1, 1.0 and true differ and the order of keys does not."""
    return json.dumps(value, sort_keys=True)


def check_change(start: Mapping[str, Any], operations: Sequence[Mapping[str, Any]], result: Any = None) -> Patched:
    """Apply ``operations`` and check the result, the start, the way back and again, the JSON round trip."""
    kept = copy.deepcopy(start)
    patched = apply_patch(start, operations)
    if result is not None:
        assert text_of(patched.document) == text_of(result)

    assert list_of(start) == list_of(kept), "the document that was handed in has changed"

    _check_tests_come_first(patched.inverse)
    assert len(patched.inverse) <= MOST_OPERATIONS
    undone = apply_patch(patched.document, patched.inverse)
    assert text_of(undone.document) == text_of(start), "the inverse does not restore the start"
    redone = apply_patch(undone.document, undone.inverse)
    assert text_of(redone.document) == text_of(patched.document), "the inverse of the inverse does not redo"

    again = apply_patch(through_json(start), through_json(list(operations)))
    assert json.dumps(again.document) == json.dumps(patched.document)
    assert json.dumps(again.inverse) == json.dumps(patched.inverse)
    back = apply_patch(through_json(patched.document), through_json(list(patched.inverse)))
    assert text_of(back.document) == text_of(start)
    return patched


def check_words(refusal: Refused, asked: object) -> None:
    """Check that a refusal has what a person and a door need of it."""
    assert refusal.pointer is not None, asked
    assert refusal.message, asked
    assert refusal.would_be_right, asked
    assert refusal.status_hint in (409, 413, 422), asked


def through_json(value: Any) -> Any:
    """Return a value written and read again."""
    return json.loads(json.dumps(value))


def list_of(value: Any) -> str:
    """Return a value as text in which the order of keys counts too."""
    return json.dumps(value)


def _check_tests_come_first(inverse: Sequence[Mapping[str, Any]]) -> None:
    """Whatever the inverse overwrites or removes is tested by the operation before."""
    for number, operation in enumerate(inverse):
        if operation["op"] in ("replace", "remove"):
            before = inverse[number - 1] if number else {}
            assert (before.get("op"), before.get("path")) == ("test", operation["path"])
