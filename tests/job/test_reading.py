"""What is read, what is refused, and that what was said is said again."""

import json
import random
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from app.job.json_values import MOST_BYTES, MOST_DEPTH
from app.job.migrations import migrate
from app.job.model import VERSION
from app.job.names import is_id
from app.job.reading import document_of, job_from_document, parse_document
from app.job.refusal import Refused
from app.job.schema import job_schema
from app.job.sketch import sketch, sketch_job
from tests.job.chance import mutated_bytes, mutated_document
from tests.job.four_checks import check_words, text_of
from tests.job.samples import bare, sample, with_layout


def refusal_of_bytes(data: bytes) -> Refused:
    with pytest.raises(Refused) as caught:
        parse_document(data)
    assert caught.value.would_be_right
    return caught.value


def test_what_was_said_is_said_again_and_no_more() -> None:
    said = parse_document(json.dumps(sample()).encode())
    assert json.dumps(said) == json.dumps(sample())
    assert document_of(job_from_document(said)) == sample()
    assert document_of(job_from_document(bare())) == bare()


def test_a_job_made_by_hand_says_its_format() -> None:
    document = document_of(sketch_job(sketch({"fb": "furnace-board"}, "fb.C -")))
    assert (document["format"], document["version"]) == ("rungwright-job", 1)
    assert document_of(job_from_document(document)) == document


UNREADABLE: dict[str, tuple[bytes, str, str]] = {
    "nothing": (b"", "not-json", ""),
    "no JSON": (b"{title: 1}", "not-json", ""),
    "two values": (b"{} {}", "not-json", ""),
    "not UTF-8": (b'{"title": "\xff"}', "not-utf8", ""),
    "UTF-16": ('{"title": 1}'.encode("utf-16"), "not-utf8", ""),
    "byte order mark": (b'\xef\xbb\xbf{"title": 1}', "not-json", ""),
    "no object": (b"[1]", "not-a-job", ""),
    "repeated key": (b'{"a": {"b~/": 1, "c": 2, "b~/": 1}}', "repeated-key", "/a/b~0~1"),
    "repeated key inside a repeated one": (b'{"a": 1, "a": {"b": 1, "b": 1}}', "repeated-key", "/a"),
    "not a number": (b'{"a": [0, NaN]}', "not-a-number", "/a/1"),
    "infinity": (b'{"a": -Infinity}', "not-a-number", "/a"),
    "infinity by size": (b'{"a": 1e999}', "not-a-number", "/a"),
    "more digits than are kept": (b'{"a": 9007199254740992}', "not-a-number", "/a"),
    "thousands of digits": (b'{"a": ' + b"9" * 5000 + b"}", "not-a-number", "/a"),
    "half a character": (b'{"a": ["\\ud800"]}', "bad-character", "/a/0"),
    "half a character in a key": (b'{"a\\ud800": 1}', "bad-character", ""),
    "null character": (b'{"a": {"b": "x\\u0000"}}', "bad-character", "/a/b"),
    "very deep": (b'{"a":' + b"[" * 100_000 + b"]" * 100_000 + b"}", "too-deep", ""),
}


@pytest.mark.parametrize("name", UNREADABLE)
def test_what_two_readers_could_read_in_two_ways_is_refused(name: str) -> None:
    data, code, pointer = UNREADABLE[name]
    refusal = refusal_of_bytes(data)
    assert (refusal.code, refusal.pointer) == (code, pointer)


def test_whole_characters_and_line_breaks_are_kept() -> None:
    text = "Ω × é 😀\n\tend\r\n"
    assert parse_document(json.dumps({"a": text}).encode())["a"] == text
    assert parse_document(json.dumps({"a": text}, ensure_ascii=False).encode())["a"] == text


def test_the_size_limit_is_exact() -> None:
    frame = len(b'{"a":""}')
    parse_document(b'{"a":"' + b"x" * (MOST_BYTES - frame) + b'"}')
    refusal = refusal_of_bytes(b'{"a":"' + b"x" * (MOST_BYTES - frame + 1) + b'"}')
    assert (refusal.code, refusal.status_hint) == ("too-large", 413)


def test_the_depth_limit_is_exact() -> None:
    inner = MOST_DEPTH - 1
    parse_document(b'{"a":' + b"[" * inner + b"]" * inner + b"}")
    refusal = refusal_of_bytes(b'{"a":' + b"[" * MOST_DEPTH + b"]" * MOST_DEPTH + b"}")
    assert (refusal.code, refusal.pointer) == ("too-deep", "/a" + "/0" * inner)


# name: (document, pointer, what the message must hold, what would be right must hold)
MISSHAPEN: dict[str, tuple[dict[str, Any], str, str, str]] = {
    "no format": ({"title": "x"}, "", "no Rungwright job", "rungwright-job"),
    "another format": ({**bare(), "format": "x"}, "/format", "no Rungwright job", "rungwright-job"),
    "no version": ({"format": "rungwright-job", "title": "x"}, "", "version", '"version": 1'),
    "version that is true": ({**bare(), "version": True}, "/version", "true", '"version": 1'),
    "version that is a text": ({**bare(), "version": "1"}, "/version", '"1"', '"version": 1'),
    "newer version": ({**bare(), "version": 2}, "/version", "newer", "version 1"),
    "unknown key": (bare(tilte="x"), "/tilte", "tilte", "title"),
    "unknown key of a part": (
        with_layout(parts={"fb": {"kind": "x", "lable": ""}}),
        "/layouts/a/parts/fb/lable",
        "A part has no key",
        "kind, label, place, air, at, settings, note",
    ),
    "no title": ({"format": "rungwright-job", "version": 1}, "", "title", "at most 200"),
    "long title": (bare(title="x" * 201), "/title", "201 characters", "at most 200"),
    "frequency": (bare(settings={"frequency_hz": 55}), "/settings/frequency_hz", "55", "50 or 60"),
    "units": (bare(settings={"units": "metric"}), "/settings/units", "metric", '"us" or "si"'),
    "bad layout id": (bare(layouts={"A B": {}}), "/layouts/A B", "A B", "small letter"),
    "bad kind id": (bare(kinds={"Box": {}}), "/kinds/Box", "Box", "small letter"),
    "kind that is no object": (bare(kinds={"box": 3}), "/kinds/box", "3", "a kind is an object"),
    "parts that are no object": (with_layout(parts=[]), "/layouts/a/parts", "[]", "one member for each id"),
    "part that is no object": (with_layout(parts={"fb": 3}), "/layouts/a/parts/fb", "a part", "kind"),
    "part without kind": (with_layout(parts={"fb": {}}), "/layouts/a/parts/fb", "kind", "furnace-board"),
    "place between two units": (
        with_layout(parts={"fb": {"kind": "x", "at": [1.5, 2]}}),
        "/layouts/a/parts/fb/at/0",
        "1.5",
        "whole numbers",
    ),
    "place with one number": (
        with_layout(parts={"fb": {"kind": "x", "at": [1]}}),
        "/layouts/a/parts/fb/at",
        "too few",
        "two whole numbers",
    ),
    "setting that is a list": (
        with_layout(parts={"fb": {"kind": "x", "settings": {"q": [1]}}}),
        "/layouts/a/parts/fb/settings/q",
        "[1]",
        "true, false, a number or text",
    ),
    "conductor without ends": (with_layout(conductors={"w": {}}), "/layouts/a/conductors/w", "ends", "two ends"),
    "conductor with one end": (
        with_layout(conductors={"w": {"ends": [None]}}),
        "/layouts/a/conductors/w/ends",
        "too few",
        "two ends",
    ),
    "conductor with three ends": (
        with_layout(conductors={"w": {"ends": [None, None, None]}}),
        "/layouts/a/conductors/w/ends",
        "too many",
        "two ends",
    ),
    "end that is no terminal": (
        with_layout(conductors={"w": {"ends": [None, "fbR"]}}),
        "/layouts/a/conductors/w/ends/1",
        "fbR",
        "fb.R",
    ),
    "end that is a number": (
        with_layout(conductors={"w": {"ends": [3, None]}}),
        "/layouts/a/conductors/w/ends/0",
        "3",
        "fb.R",
    ),
    "unknown end without words": (
        with_layout(conductors={"w": {"ends": [{}, None]}}),
        "/layouts/a/conductors/w/ends/0",
        "unknown",
        "where the end disappears",
    ),
    "unknown end with a number": (
        with_layout(conductors={"w": {"ends": [{"unknown": 3}, None]}}),
        "/layouts/a/conductors/w/ends/0/unknown",
        "3",
        "where the end disappears",
    ),
    "unknown end with another key": (
        with_layout(conductors={"w": {"ends": [{"unknown": "", "at": 1}, None]}}),
        "/layouts/a/conductors/w/ends/0/at",
        "at",
        "unknown",
    ),
    "insulation": (
        with_layout(conductors={"w": {"ends": [None, None], "insulation": "red"}}),
        "/layouts/a/conductors/w/insulation",
        "red",
        "IEC 60757",
    ),
    "length that is a text": (
        with_layout(cables={"c": {"length_m": "3"}}),
        "/layouts/a/cables/c/length_m",
        '"3"',
        "metres",
    ),
    "length that is true": (
        with_layout(cables={"c": {"length_m": True}}),
        "/layouts/a/cables/c/length_m",
        "true",
        "metres",
    ),
    "length of nothing": (with_layout(cables={"c": {"length_m": 0}}), "/layouts/a/cables/c/length_m", "0", "metres"),
    "gauge": (with_layout(cables={"c": {"size_awg": 31}}), "/layouts/a/cables/c/size_awg", "31", "10 to 30"),
    "accepted without reason": (
        bare(records={"accepted": [{"rule": "x", "subjects": []}]}),
        "/records/accepted/0",
        "reason",
        "text",
    ),
}


@pytest.mark.parametrize("name", MISSHAPEN)
def test_what_is_misshapen_is_refused_with_place_and_remedy(name: str) -> None:
    document, pointer, message, right = MISSHAPEN[name]
    with pytest.raises(Refused) as caught:
        job_from_document(document)
    refusal = caught.value
    assert refusal.pointer == pointer
    assert message in refusal.message
    assert right in (refusal.would_be_right or "")
    assert "pydantic" not in refusal.message


def test_an_id_ends_where_its_last_letter_does() -> None:
    with pytest.raises(Refused) as caught:
        job_from_document(bare(layouts={"a\n": {}}))
    assert caught.value.pointer == "/layouts/a\n"
    assert is_id("a")
    assert not is_id("a\n")


def test_several_wrong_things_are_one_refusal_that_counts_the_others() -> None:
    with pytest.raises(Refused) as caught:
        job_from_document(bare(settings={"units": "x"}, tilte=1, kinds={"X": {}}))
    assert caught.value.message.endswith("2 more things are wrong elsewhere.")


def test_an_older_version_goes_through_every_step() -> None:
    steps = {
        1: lambda document: {**document, "title": document["name"]},
        2: lambda document: {key: value for key, value in document.items() if key != "name"},
    }
    old = {"format": "rungwright-job", "version": 1, "name": "x"}
    assert migrate(old, steps, 3) == {"format": "rungwright-job", "version": 3, "title": "x"}
    assert old == {"format": "rungwright-job", "version": 1, "name": "x"}


def test_every_older_version_has_its_step() -> None:
    from app.job.migrations import STEPS

    assert set(STEPS) == set(range(1, VERSION))


def check_some_documents(seed: str, count: int) -> int:
    """Read ``count`` mutated documents; return how many were taken. What we take, the schema takes too."""
    chance = random.Random(seed)
    schema = Draft202012Validator(job_schema())
    taken = 0
    for _ in range(count):
        document = mutated_document(chance)
        try:
            job = job_from_document(parse_document(json.dumps(document).encode()))
        except Refused as refusal:
            check_words(refusal, document)
            continue
        taken += 1
        assert schema.is_valid(document), document
        assert document_of(job_from_document(document_of(job))) == document_of(job)
    return taken


def check_some_bytes(seed: str, count: int) -> None:
    """Read ``count`` texts with a few bytes changed: each is taken or refused in words."""
    chance = random.Random(seed)
    text = json.dumps(sample()).encode()
    for _ in range(count):
        data = mutated_bytes(chance, text)
        try:
            job = job_from_document(parse_document(data))
        except Refused as refusal:
            check_words(refusal, data)
            continue
        assert text_of(document_of(job_from_document(document_of(job)))) == text_of(document_of(job))


def test_mutated_documents_are_taken_or_refused_in_words() -> None:
    assert check_some_documents("a slice", 400) > 10
    check_some_bytes("a slice", 400)


@pytest.mark.slow
@pytest.mark.parametrize("seed", ["north", "east", "south", "west"])
def test_ten_thousand_mutated_documents(seed: str) -> None:
    assert check_some_documents(seed, 1250) > 30
    check_some_bytes(seed, 1250)
