"""Parts, from their own table or from what the wire list lands on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from app.catalogue.catalogue import UNKNOWN_KIND, Catalogue
from app.job.refusal import Refused
from app.tables.cell import Cell, Row, near_ones, quoted
from app.tables.ends import id_of
from app.tables.figures import whole_number
from app.tables.reading_cables import refuse_repeated
from app.tables.settings_text import settings_of_cell

_UNKNOWN = frozenset({UNKNOWN_KIND, "not known", "?"})


def parts_of_table(rows: Sequence[Row], kinds: Mapping[str, str], catalogue: Catalogue) -> dict[str, dict[str, Any]]:
    """Return the parts of a table as they stand in a document, by id; one whose kind nobody says has none.

    Args:
        rows: the rows of the table.
        kinds: kinds said beside it, by part.
        catalogue: the kinds that there are.

    Raises:
        Refused: a cell cannot be read, an id stands twice, or a kind is said twice and differently.
    """
    found: dict[str, dict[str, Any]] = {}
    seen: dict[str, Cell] = {}
    for row in rows:
        part = id_of(row["part"], "part")
        refuse_repeated(part, row["part"], seen, "part")
        said: dict[str, Any] = {name: row[name].text for name in ("label", "place", "air", "note")}
        # An apostrophe alone is an empty text that somebody meant; an empty cell leaves what holds by default.
        said = {name: text for name, text in said.items() if text or row[name].raw}
        said.update(_kind(row["kind"], part, kinds.get(part), catalogue))
        said.update(_at(row))
        settings = settings_of_cell(row["settings"])
        if settings:
            said["settings"] = settings
        found[part] = said
    return found


def parts_landed_on(
    ends: Iterable[tuple[str, Cell]], table: Mapping[str, Mapping[str, Any]] | None, kinds: Mapping[str, str]
) -> dict[str, dict[str, Any]]:
    """Return the parts that ends name and no table has, in order of their names.

    Args:
        ends: part and cell of each landed end.
        table: the parts of the table, None where there is no table.
        kinds: kinds said beside it, by part.

    Raises:
        Refused: ``unknown-part``, there is a table and neither it nor ``kinds`` has the part.
    """
    found: dict[str, dict[str, Any]] = {}
    for part, cell in ends:
        if table is not None and part in table:
            continue
        if table is not None and part not in kinds:
            right = near_ones(part, table) if table else "a part of the table; it has none"
            raise cell.refuse("unknown-part", f"there is no part {part} in the table of parts.", right)
        found[part] = {"kind": kinds[part]} if part in kinds else {}
    return {part: found[part] for part in sorted(found)}


def refuse_strangers(kinds: Mapping[str, str], parts: Mapping[str, object], catalogue: Catalogue) -> None:
    """Refuse kinds said for parts that are not there, and kinds that do not exist.

    Raises:
        Refused: ``unknown-part`` or ``unknown-kind``; the pointer is ``/kinds/PART``.
    """
    for part, kind in kinds.items():
        if part not in parts:
            message = f"A kind is said for {part[:60]}, which is neither in the wire list nor in the table of parts."
            right = near_ones(part, parts) if parts else "no kinds: there are no parts"
            raise Refused("unknown-part", message, pointer=f"/kinds/{part}", would_be_right=right)
        if kind not in catalogue and kind != UNKNOWN_KIND:
            right = near_ones(kind, [*catalogue, UNKNOWN_KIND])
            message = f"There is no kind {kind[:60]}, which {part} is said to be."
            raise Refused("unknown-kind", message, pointer=f"/kinds/{part}", would_be_right=right)


def _kind(cell: Cell, part: str, beside: str | None, catalogue: Catalogue) -> dict[str, str]:
    """Return the kind of a part by id or by title, nothing where nobody says one."""
    words = cell.words.casefold()
    if not words:
        return {} if beside is None else {"kind": beside}
    by_title = {kind.title.casefold(): name for name, kind in catalogue.kinds.items()}
    found = UNKNOWN_KIND if words in _UNKNOWN else by_title.get(words, "-".join(words.split()))
    if found not in catalogue and found != UNKNOWN_KIND:
        right = near_ones(found, [*catalogue, UNKNOWN_KIND], most=60)
        raise cell.refuse("unknown-kind", f"there is no kind {quoted(cell.words)}.", right)
    if beside is not None and beside != found:
        message = f"{part} is a {found} here, and was said to be a {beside}."
        raise cell.refuse("said-twice", message, "one of the two")
    return {"kind": found}


def _at(row: Row) -> dict[str, Any]:
    x, y = whole_number(row["x"]), whole_number(row["y"])
    if x is None and y is None:
        return {}
    if x is None or y is None:
        raise row["x" if x is None else "y"].refuse(
            "half-said", "of a place on the sheet one coordinate is missing.", "both x and y, or neither"
        )
    return {"at": [x, y]}
