"""The dots of a PNG as numbers from 0 (paper) to 1 (ink), as the typesetter writes it: eight bits, no interlacing."""

from __future__ import annotations

import zlib

import numpy as np
from numpy.typing import NDArray

Dots = NDArray[np.float64]
ABOVE, BETWEEN, NEAREST = 2, 3, 4
"""How a byte is guessed, from which the difference is written; 1 is from the left."""


def dots_in(png: bytes) -> Dots:
    """Return the dots of a PNG, row by row."""
    at, packed, head = 8, b"", b""
    while at < len(png):
        size, name = int.from_bytes(png[at : at + 4], "big"), png[at + 4 : at + 8]
        body = png[at + 8 : at + 8 + size]
        packed, head = (packed + body, head) if name == b"IDAT" else (packed, body if name == b"IHDR" else head)
        at += 12 + size
    width, height = (int.from_bytes(head[place : place + 4], "big") for place in (0, 4))
    depth, colour, _, _, interlaced = head[8:13]
    assert (depth, interlaced) == (8, 0)
    channels = {0: 1, 2: 3, 4: 2, 6: 4}[colour]
    rows = np.frombuffer(zlib.decompress(packed), np.uint8).reshape(height, 1 + width * channels)
    whole = _unfiltered(rows, channels).reshape(height, width, channels)
    light: Dots = whole[:, :, : min(channels, 3)].mean(axis=2)
    return 1 - light / 255


def _unfiltered(rows: NDArray[np.uint8], channels: int) -> NDArray[np.uint8]:
    """Return the bytes of each row, which are written as differences from what is left and above (PNG, 9.2)."""
    done = np.zeros((len(rows), rows.shape[1] - 1), np.uint8)
    above = done[0]
    for number, row in enumerate(rows):
        way, raw = int(row[0]), row[1:]
        if way == ABOVE:
            raw = raw + above
        elif way:
            raw = np.array(_one_by_one(way, raw.tolist(), above.tolist(), channels), np.uint8)
        done[number] = above = raw
    return done


def _one_by_one(way: int, raw: list[int], above: list[int], channels: int) -> list[int]:
    for at, value in enumerate(raw):
        left, before = (raw[at - channels], above[at - channels]) if at >= channels else (0, 0)
        raw[at] = (value + _guess(way, left, above[at], before)) & 255
    return raw


def _guess(way: int, left: int, up: int, before: int) -> int:
    if way == NEAREST:
        return min((left, up, before), key=lambda value: abs(left + up - before - value))
    return (left + up) // 2 if way == BETWEEN else left
