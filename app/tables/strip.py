"""A strip of screws typed in one line: ``R=RD C=BU Y=YE`` says which conductor of a cable is landed on which screw.

Rules of the file: left of ``=`` stands the letter of a screw, ``-`` for landed nowhere, or ``?`` for not looked at yet;
right of it the insulation code of a conductor, or its name. What is not mentioned stays as it is. Either every item is
right and all of them become one change, or each wrong one is told with what would be right, and nothing changes.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from app.catalogue.catalogue import Catalogue
from app.job.model import Conductor, End, Layout, UnknownEnd
from app.job.names import LETTER_PATTERN, part_of, pointer, short_names
from app.job.refusal import Refused
from app.tables.cable_sides import CableSides, cable_sides, conductors_of
from app.tables.cell import Cell, near_ones, quoted
from app.tables.colours import insulation

NOT_LANDED, NOT_LOOKED = "-", "?"
NOT_LOOKED_WORDS = "not looked at yet"
MOST_ITEMS = 100
AN_ITEM = "a screw, an equals sign and an insulation code, such as R=RD"
_LETTER = re.compile(LETTER_PATTERN.strip("^$"))


@dataclass(frozen=True)
class WrongItem:
    """An item of a strip that cannot be taken: which, what is wrong, and what would be right."""

    item: str
    number: int
    wrong: str
    would_be_right: str


@dataclass(frozen=True)
class StripChange:
    """What a strip comes to: a JSON Patch, and for each conductor that changes where its end goes."""

    operations: tuple[dict[str, Any], ...]
    moved: Mapping[str, End]
    wrong: tuple[WrongItem, ...]


@dataclass(frozen=True)
class Strip:
    """One end of a cable at the screws of one part."""

    layout: Layout
    cable: str
    side: int
    part: str
    letters: tuple[str, ...] | None
    """None where nobody could identify the part: then it has whatever screws are named."""

    def change(self, layout_name: str, text: str) -> StripChange:
        """Return what ``text`` changes, or what is wrong with it."""
        return _Reader(self, layout_name).read(text)


def strip_at(layout: Layout, catalogue: Catalogue, cable: str, side: int, part: str) -> Strip:
    """Return the strip at a part for a side of a cable.

    Raises:
        Refused: the layout has no such cable or part.
    """
    for sort, name, known in (("cable", cable, layout.cables), ("part", part, layout.parts)):
        if name not in known:
            right = f"one of {', '.join(known)}" if known else f"a {sort} of the layout; it has none"
            raise Refused(
                f"unknown-{sort}", f"There is no {sort} {quoted(name)}.", pointer=f"/{sort}", would_be_right=right
            )
    known_kind = catalogue.kind_of(layout.parts[part]) is not None
    letters = tuple(catalogue.terminals_of(layout, part)) if known_kind else None
    return Strip(layout, cable, side, part, letters)


def codes_in_strip(members: Mapping[str, Conductor], called: Mapping[str, str]) -> Mapping[str, str]:
    """Return what each conductor of a cable is called in a strip: its code, its name where two share one."""
    counts = Counter(conductor.insulation for conductor in members.values())
    return {
        name: conductor.insulation if conductor.insulation and counts[conductor.insulation] == 1 else called[name]
        for name, conductor in members.items()
    }


class _Wrong(Exception):  # noqa: N818 - it is the answer to a person
    def __init__(self, wrong: str, would_be_right: str) -> None:
        super().__init__(wrong)
        self.wrong, self.would_be_right = wrong, would_be_right


class _Reader:
    """Reads one strip; what is wrong is collected, not raised."""

    def __init__(self, strip: Strip, layout_name: str) -> None:
        self.strip = strip
        self.layout_name = layout_name
        self.members = conductors_of(strip.layout, strip.cable)
        self.sides: CableSides = cable_sides(self.members)
        self.codes = codes_in_strip(self.members, short_names(strip.layout.conductors))

    def read(self, text: str) -> StripChange:
        items = _items(text)
        if not items:
            return StripChange((), {}, (WrongItem("", 1, "Nothing is said.", AN_ITEM),))
        if len(items) > MOST_ITEMS:
            wrong = WrongItem("", 1, f"These are {len(items)} items.", f"at most {MOST_ITEMS} at once")
            return StripChange((), {}, (wrong,))
        ends: dict[str, End] = {}
        wrong_items: list[WrongItem] = []
        for number, item in enumerate(items, start=1):
            try:
                name, end = self._item(item)
                if name in ends:
                    raise _Wrong(f"{self._called(name)} is said twice.", "each conductor once")
                ends[name] = end
            except _Wrong as found:
                wrong_items.append(WrongItem(item, number, found.wrong, found.would_be_right))
        if wrong_items:
            return StripChange((), {}, tuple(wrong_items))
        moved = {name: end for name, end in ends.items() if not _same(end, self._present(name))}
        return StripChange(tuple(self._operations(moved)), moved, ())

    def _item(self, item: str) -> tuple[str, End]:
        left, equals, right = item.partition("=")
        if not equals or not left or not right or "=" in right:
            raise _Wrong(f"{quoted(item)} is no item of a strip.", AN_ITEM)
        if self._is_turned_round(left, right):
            raise _Wrong(f"{quoted(item)} has the conductor before the screw.", f"{right}={left}")
        end = self._end(left)
        name = self._conductor(right)
        far = self.members[name].ends[1 - self._index(name)]
        if isinstance(end, str) and far == end:
            raise _Wrong(f"The other end of {self._called(name)} is on {left} already.", "another screw or conductor")
        return name, end

    def _is_turned_round(self, left: str, right: str) -> bool:
        return self._letter(left) is None and self._letter(right) is not None and left.upper() in self.codes.values()

    def _letter(self, said: str) -> str | None:
        letters = self.strip.letters
        if letters is None:
            return said if _LETTER.fullmatch(said) else None
        if said in letters:
            return said
        folded = [letter for letter in letters if letter.casefold() == said.casefold()]
        return folded[0] if len(folded) == 1 else None

    def _end(self, said: str) -> End:
        if said == NOT_LANDED:
            return None
        if said == NOT_LOOKED:
            return UnknownEnd(unknown=NOT_LOOKED_WORDS)
        letter = self._letter(said)
        if letter is not None:
            return f"{self.strip.part}.{letter}"
        label = self.strip.layout.parts[self.strip.part].label or self.strip.part
        right = near_ones(said, self.strip.letters) if self.strip.letters else "a letter such as R or O/B"
        raise _Wrong(f"There is no screw {quoted(said)} on {label}.", right)

    def _conductor(self, said: str) -> str:
        """Return the conductor that a code, a colour in words, or a name means."""
        if not self.members:
            raise _Wrong("This cable has no conductors.", "a cable with conductors")
        named = [name for name in self.members if said.lower() in (name, self.codes[name].lower())]
        if len(named) == 1:
            return named[0]
        code = _code(said)
        found = [name for name, conductor in self.members.items() if conductor.insulation == code]
        if len(found) == 1:
            return found[0]
        if found:
            names = [self.codes[name] for name in found]
            raise _Wrong(
                f"{len(found)} conductors of this cable are {code}.", f"one of them by name: {', '.join(names)}"
            )
        raise _Wrong(f"No conductor of this cable is {quoted(said)}.", near_ones(said.upper(), self.codes.values()))

    def _called(self, name: str) -> str:
        return self.codes[name]

    def _index(self, name: str) -> int:
        """Return the number of the end that a strip means: the one on this part if only one is, else by side."""
        here = [isinstance(end, str) and part_of(end) == self.strip.part for end in self.members[name].ends]
        return here.index(True) if sum(here) == 1 else self.sides.end_at(name, self.strip.side)

    def _present(self, name: str) -> End:
        return self.members[name].ends[self._index(name)]

    def _operations(self, moved: Mapping[str, End]) -> Iterator[dict[str, Any]]:
        for name, end in moved.items():
            path = pointer("layouts", self.layout_name, "conductors", name, "ends", self._index(name))
            value = end.model_dump() if isinstance(end, UnknownEnd) else end
            yield {"op": "replace", "path": path, "value": value}


def _items(text: str) -> list[str]:
    return [item for item in re.split(r"[\s,;]+", re.sub(r"\s*=\s*", "=", text.strip())) if item]


def _code(said: str) -> str | None:
    try:
        return insulation(Cell("", 0, "", said))
    except Refused:
        return said.upper()


def _same(end: End, present: End) -> bool:
    """An end that was not seen stays as it is told where it disappears."""
    return end == present or (isinstance(end, UnknownEnd) and isinstance(present, UnknownEnd))
