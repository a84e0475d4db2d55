"""What conductors are called on drawings and in sentences."""

from __future__ import annotations

from app.job.names import short_names


def test_the_characters_that_keep_editors_apart_are_not_read_out() -> None:
    assert dict(short_names(["w8-7kq2x", "w3", "shield"])) == {"w8-7kq2x": "w8", "w3": "w3", "shield": "shield"}


def test_two_that_would_be_called_the_same_keep_their_ids() -> None:
    assert dict(short_names(["w8-7kq2x", "w8-abcde"])) == {"w8-7kq2x": "w8-7kq2x", "w8-abcde": "w8-abcde"}
    assert dict(short_names(["w8", "w8-abcde"])) == {"w8": "w8", "w8-abcde": "w8-abcde"}


def test_an_id_without_a_number_stays_whole() -> None:
    assert dict(short_names(["w-7kq2x"])) == {"w-7kq2x": "w-7kq2x"}
