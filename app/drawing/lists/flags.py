"""Wire flags to print, cut out and fold around the wires: one for each end, part by part, screw by screw.

Rules of the file: a flag has a size of its own, which paper does not change: 1 u comes to 0.3 mm, a flag to 63 mm by
19.2 mm, and three of them fill the width of a sheet. Both halves of a flag say the same, so that it can be read from
either side. Between them a band is left blank for the wire: half the way around an 18 AWG conductor with its insulation
is some 3 mm (from memory).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from app.catalogue.catalogue import Catalogue
from app.catalogue.spoken import counted
from app.drawing.frame.drawing import Drawing
from app.drawing.lists.marks import AND_MORE, CUT, CUT_HERE, FOLD, FOLD_HERE, INSULATION_CODE
from app.drawing.lists.measuring_bar import BAR, put_bar
from app.drawing.lists.words import CONTINUED, head_of, part_words
from app.drawing.surface.geometry import Box, Point, up_to_grid
from app.drawing.surface.text_width import fitted, width_of
from app.drawing.surface.verbs import NAME, SMALL, Font, Surface, Text
from app.explain.role import Role
from app.explain.role_label import role_labels
from app.job.model import Layout
from app.job.names import short_names
from app.tables.ends import NOT_SEEN, end_words
from app.tables.natural_order import natural_key

VIEW = "Wire flags"
TRUE_SCALE = 3.0
"""Tenths of a millimetre to one u on paper."""
HALF = 97
"""Width of a half, 29.1 mm on paper."""
WRAP = 16
"""Width of the band around the wire, 4.8 mm on paper."""
HEIGHT = 64
"""19.2 mm on paper."""
ACROSS = 3
ROWS_IN_BLOCK = 3
ROWS_AT_MOST = 5
"""A block has up to two rows more where that ends its part: flags below a title of their own are overlooked."""
BETWEEN = 24
TITLE = 20
PAD = 6
BASELINES = (16, 30, 44, 57)
CABLE_ROWS = (2, 1, 3)
"""The rows on which a cable may stand, the best first: beside the other end, this end, the role."""
COUNT = re.compile(r" \+ \d")
HERE = Font("words", 11, bold=True)
WORDS = SMALL


class Flag(NamedTuple):
    """What one flag says: the conductor as it is called, its insulation, its cable, this end and the other, its role.

    ``role`` are the forms in which the role may be said, the fullest first.
    """

    conductor: str
    end: int
    called: str
    insulation: str
    cable: str
    here: str
    there: str
    role: tuple[str, ...]


class Block(NamedTuple):
    """Flags under a title that stay on one sheet. ``box`` is around all of it."""

    title: str
    box: Box
    flags: tuple[tuple[Flag, Point], ...]


def flags_drawing(layout: Layout, catalogue: Catalogue, roles: Mapping[str, Role]) -> Drawing:
    """Return the flags of a layout, to be printed, cut out and folded around the wires; ``roles`` by conductor."""
    blocks = tuple(_blocks(_by_part(layout, catalogue, roles)))
    bottom = blocks[-1].box.bottom if blocks else BAR.bottom

    def put(surface: Surface) -> None:
        put_bar(surface)
        for block in blocks:
            _put_block(surface, block)

    content = Box(0, 0, ACROSS * (2 * HALF + WRAP), bottom)
    counts = any(COUNT.search(_role_shown(flag)) for block in blocks for flag, _ in block.flags)
    marks = (CUT_HERE, FOLD_HERE, INSULATION_CODE, *((AND_MORE,) if counts else ()))
    count = sum(len(block.flags) for block in blocks)
    description = f"{counted(count, 'flag')} to cut out, two for each conductor."
    whole = (BAR, *(block.box for block in blocks))
    heads = {block.box: head_of(block.title) for block in blocks}
    return Drawing(VIEW, content, marks, description, put, whole, heads=heads, scale=TRUE_SCALE, from_above=True)


def _by_part(layout: Layout, catalogue: Catalogue, roles: Mapping[str, Role]) -> Iterator[tuple[str, list[Flag]]]:
    """Yield a title and the flags of each part in the order of its screws, then those of ends that are not landed."""
    at: dict[str, list[Flag]] = {}
    names = short_names(layout.conductors)
    for name in sorted(layout.conductors, key=natural_key):
        conductor = layout.conductors[name]
        words = [end_words(end) for end in conductor.ends]
        for number, end in enumerate(conductor.ends):
            told = (conductor.insulation or "", conductor.cable or "", words[number], words[1 - number])
            flag = Flag(name, number, names[name], *told, role_labels(roles[name]) if name in roles else ("",))
            at.setdefault(end if isinstance(end, str) else "", []).append(flag)
    for part in sorted(layout.parts, key=natural_key):
        screws = [f"{part}.{letter}" for letter in catalogue.terminals_of(layout, part)]
        flags = [flag for screw in screws for flag in at.get(screw, ())]
        if flags:
            yield part_words(layout, catalogue, part), flags
    if "" in at:
        yield "Loose ends: not landed, or not seen", at[""]


def _blocks(groups: Iterator[tuple[str, list[Flag]]]) -> Iterator[Block]:
    y, width = up_to_grid(BAR.bottom + BETWEEN), 2 * HALF + WRAP
    for title, flags in groups:
        first, last = 0, 0
        while last < len(flags):
            first, last = last, _last_of_block(last, len(flags))
            some = flags[first:last]
            top = y + TITLE
            at = [Point(place % ACROSS * width, top + place // ACROSS * HEIGHT) for place in range(len(some))]
            box = Box(0, y, ACROSS * width, TITLE + -(-len(some) // ACROSS) * HEIGHT)
            yield Block(f"{title}{CONTINUED}" if first else title, box, tuple(zip(some, at, strict=True)))
            y = up_to_grid(box.bottom + BETWEEN)


def _last_of_block(first: int, count: int) -> int:
    """Return the flag before which a block ends that begins with the flag ``first`` of so many."""
    return count if count - first <= ACROSS * ROWS_AT_MOST else first + ACROSS * ROWS_IN_BLOCK


def _put_block(surface: Surface, block: Block) -> None:
    surface.begin({"class": "block"}, block.title)
    _words(surface, Point(block.box.x, block.box.y + 14), block.title, NAME, block.box.w)
    for flag, at in block.flags:
        surface.begin({"class": "flag", "data-flag": f"{flag.conductor}.{flag.end}"}, f"{flag.called} at {flag.here}")
        surface.rect(Box(at.x, at.y, 2 * HALF + WRAP, HEIGHT), CUT)
        fold = at.x + HALF + WRAP // 2
        surface.line((Point(fold, at.y), Point(fold, at.y + HEIGHT)), FOLD)
        for left in (at.x + PAD, at.x + HALF + WRAP):
            _put_half(surface, Point(left, at.y), flag)
        surface.end()
    surface.end()


def _put_half(surface: Surface, at: Point, flag: Flag) -> None:
    """Write one half, ``HALF - PAD`` wide: names to the left, codes to the right."""
    room = HALF - PAD
    rows = [(flag.called, NAME), (flag.here, HERE), (f"→ {flag.there}", WORDS), (_role_shown(flag), WORDS)]
    codes = {0: flag.insulation, _row_of_cable(flag, rows): flag.cable}
    for place, (down, (words, font)) in enumerate(zip(BASELINES, rows, strict=True)):
        taken, code = 0, codes.get(place, "")
        if code:
            shown = fitted(code, WORDS, room // 2)
            taken = width_of(shown, WORDS) + PAD
            surface.text(Text(Point(at.x + room, at.y + down), shown, WORDS, taken - PAD, "end"))
        _words(surface, Point(at.x, at.y + down), shortened(words, font, room - taken), font, room - taken)


def _role_shown(flag: Flag) -> str:
    """Return the fullest form of a role that finds room."""
    # Where nothing else fits, a count loses its last word rather than its number.
    forms = (*flag.role, flag.role[-1].removesuffix(" more"))
    return next((words for words in forms if width_of(words, WORDS) <= HALF - PAD), forms[-1])


def _row_of_cable(flag: Flag, rows: Sequence[tuple[str, Font]]) -> int:
    """Return the row on which the cable stands: beside the other end, or where it leaves a screw its whole name."""
    taken = width_of(fitted(flag.cable, WORDS, (HALF - PAD) // 2), WORDS) + PAD
    free = [place for place in CABLE_ROWS if width_of(*rows[place]) + taken <= HALF - PAD]
    return free[0] if free else CABLE_ROWS[0]


def shortened(words: str, font: Font, most: int) -> str:
    """Return an end as it finds room: a terminal with its part shortened, since without its letter it says nothing.

    Of an end that was not seen the list tells where it is lost; half of that on a flag leads nowhere.
    """
    if NOT_SEEN in words and width_of(words, font) > most:
        return words[: words.index(NOT_SEEN)] + NOT_SEEN.rstrip(": ")
    part, dot, letter = words.rpartition(".")
    ending = f".{letter}"
    room = most - width_of(ending, font)
    if not dot or " " in letter or width_of(words, font) <= most or room <= 0:
        return words
    return f"{fitted(part, font, room)}{ending}"


def _words(surface: Surface, at: Point, words: str, font: Font, most: int) -> None:
    shown = fitted(words, font, most)
    if shown:
        surface.text(Text(at, shown, font, width_of(shown, font)))
