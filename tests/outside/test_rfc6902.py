"""The examples of RFC 6902 (JavaScript Object Notation (JSON) Patch, April 2013), Appendix A, by section number.

They are set down from memory of the RFC's text and are few and short; the JSON values are those of its examples. A
further case of the body, section 4.1, is marked as such. What a job adds to the RFC (ids are not overwritten, limits)
touches none of these documents.
"""

from typing import Any

import pytest

from app.job.patch import apply_patch, parse_patch
from app.job.refusal import Refused
from tests.job.four_checks import check_change

EXAMPLES: dict[str, tuple[dict[str, Any], list[dict[str, Any]], dict[str, Any]]] = {
    "A.1 adding an object member": (
        {"foo": "bar"},
        [{"op": "add", "path": "/baz", "value": "qux"}],
        {"baz": "qux", "foo": "bar"},
    ),
    "A.2 adding an array element": (
        {"foo": ["bar", "baz"]},
        [{"op": "add", "path": "/foo/1", "value": "qux"}],
        {"foo": ["bar", "qux", "baz"]},
    ),
    "A.3 removing an object member": (
        {"baz": "qux", "foo": "bar"},
        [{"op": "remove", "path": "/baz"}],
        {"foo": "bar"},
    ),
    "A.4 removing an array element": (
        {"foo": ["bar", "qux", "baz"]},
        [{"op": "remove", "path": "/foo/1"}],
        {"foo": ["bar", "baz"]},
    ),
    "A.5 replacing a value": (
        {"baz": "qux", "foo": "bar"},
        [{"op": "replace", "path": "/baz", "value": "boo"}],
        {"baz": "boo", "foo": "bar"},
    ),
    "A.6 moving a value": (
        {"foo": {"bar": "baz", "waldo": "fred"}, "qux": {"corge": "grault"}},
        [{"op": "move", "from": "/foo/waldo", "path": "/qux/thud"}],
        {"foo": {"bar": "baz"}, "qux": {"corge": "grault", "thud": "fred"}},
    ),
    "A.7 moving an array element": (
        {"foo": ["all", "grass", "cows", "eat"]},
        [{"op": "move", "from": "/foo/1", "path": "/foo/3"}],
        {"foo": ["all", "cows", "eat", "grass"]},
    ),
    "A.8 testing a value: success": (
        {"baz": "qux", "foo": ["a", 2, "c"]},
        [{"op": "test", "path": "/baz", "value": "qux"}, {"op": "test", "path": "/foo/1", "value": 2}],
        {"baz": "qux", "foo": ["a", 2, "c"]},
    ),
    "A.10 adding a nested member object": (
        {"foo": "bar"},
        [{"op": "add", "path": "/child", "value": {"grandchild": {}}}],
        {"foo": "bar", "child": {"grandchild": {}}},
    ),
    "A.11 ignoring unrecognized elements": (
        {"foo": "bar"},
        [{"op": "add", "path": "/baz", "value": "qux", "xyz": 123}],
        {"foo": "bar", "baz": "qux"},
    ),
    "A.14 tilde escape ordering": (
        {"/": 9, "~1": 10},
        [{"op": "test", "path": "/~01", "value": 10}],
        {"/": 9, "~1": 10},
    ),
    "A.16 adding an array value": (
        {"foo": ["bar"]},
        [{"op": "add", "path": "/foo/-", "value": ["abc", "def"]}],
        {"foo": ["bar", ["abc", "def"]]},
    ),
    "section 4.1 add replaces a member that exists": (
        {"foo": "bar"},
        [{"op": "add", "path": "/foo", "value": "baz"}],
        {"foo": "baz"},
    ),
}


@pytest.mark.parametrize("name", EXAMPLES)
def test_an_example_gives_its_result(name: str) -> None:
    document, operations, result = EXAMPLES[name]
    check_change(document, operations, result)


ERRORS: dict[str, tuple[dict[str, Any], list[dict[str, Any]]]] = {
    "A.9 testing a value: error": ({"baz": "qux"}, [{"op": "test", "path": "/baz", "value": "bar"}]),
    "A.12 adding to a nonexistent target": ({"foo": "bar"}, [{"op": "add", "path": "/baz/bat", "value": "qux"}]),
    "A.15 comparing strings and numbers": ({"/": 9, "~1": 10}, [{"op": "test", "path": "/~01", "value": "10"}]),
}


@pytest.mark.parametrize("name", ERRORS)
def test_an_example_of_an_error_is_refused(name: str) -> None:
    document, operations = ERRORS[name]
    with pytest.raises(Refused):
        apply_patch(document, operations)


def test_a_13_invalid_json_patch_document() -> None:
    with pytest.raises(Refused) as caught:
        parse_patch(b'[{ "op": "add", "path": "/baz", "value": "qux", "op": "remove" }]')
    assert caught.value.pointer == "/0/op"
