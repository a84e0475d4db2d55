"""``take-in``: a job from a wire list, so that people can start from a spreadsheet."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from app.commands.command import BadInput, Command, bad_input
from app.commands.job_file import file_bytes
from app.commands.output import write_out
from app.job.pointers import steps_of
from app.job.reading import job_from_document, parse_document
from app.job.refusal import Refused
from app.tables.job_from_tables import DEFAULT_LAYOUT, DEFAULT_TITLE, Tables, job_from_tables
from app.tables.kinds_asked import KindAsked
from app.tables.sheet import decoded


def _options(parser: argparse.ArgumentParser) -> None:
    add = parser.add_argument
    add("wires", metavar="FILE.csv", help="the wire list, or - for stdin; what `wires --format csv` gives, or your own")
    add("--parts", metavar="FILE.csv", help="the parts: what `wires --of parts --format csv` gives, or your own")
    add("--cables", metavar="FILE.csv", help="the cables: what `wires --of cables --format csv` gives, or your own")
    add("--kind", action="append", default=[], metavar="PART=KIND", help="of which kind a part is, such as tc=splice")
    add("--kinds-of", metavar="JOB", help="a job file whose own kinds are taken over")
    add("--title", default=DEFAULT_TITLE, help=f"the title of the job ({DEFAULT_TITLE})")
    add("--layout", default=DEFAULT_LAYOUT, metavar="LAYOUT", help=f"the name of the layout ({DEFAULT_LAYOUT})")
    add("--out", required=True, metavar="JOB.json", help="the job file to write, or - for stdout")


def _run(args: argparse.Namespace) -> int:
    try:
        tables = Tables(
            _text(args.wires, "wires"),
            None if args.parts is None else _text(args.parts, "parts"),
            None if args.cables is None else _text(args.cables, "cables"),
            _kinds(args.kind),
            _own_kinds(args.kinds_of),
        )
        made = job_from_tables(tables, args.title, args.layout)
    except Refused as refused:
        raise _told_of_file(refused, args) from refused
    write_out(args.out, json.dumps(made.document, ensure_ascii=False, allow_nan=False, indent=2) + "\n")
    _ask(made.asked)
    return 0


def _text(path: str, table: str) -> str:
    return decoded(file_bytes(path, "a wire list" if table == "wires" else f"a table of {table}"), table)


def _kinds(said: Iterable[str]) -> dict[str, str]:
    found: dict[str, str] = {}
    for each in said:
        part, equals, kind = each.partition("=")
        if not equals or part in found:
            what = f"{part} has a kind already" if equals else "there is no = in it"
            raise bad_input(f"--kind {each}", f"This names no kind: {what}.", "PART=KIND, such as tc=splice")
        found[part] = kind
    return found


def _own_kinds(path: str | None) -> Mapping[str, Any]:
    if path is None:
        return {}
    try:
        return job_from_document(parse_document(file_bytes(path, "a job file"))).kinds
    except Refused as refused:
        raise BadInput(path, refused) from refused


def _told_of_file(refused: Refused, args: argparse.Namespace) -> BadInput:
    """Return the refusal with the file it stands in; its message already names row and column."""
    first, *rest = [*steps_of(refused.pointer or ""), ""]
    files = {"wires": args.wires, "parts": args.parts, "cables": args.cables}
    if first in files:
        return BadInput(files[first], Refused(refused.code, refused.message, would_be_right=refused.would_be_right))
    option = f"--kind {rest[0]}" if first == "kinds" else args.wires
    return BadInput(option, Refused(refused.code, refused.message, would_be_right=refused.would_be_right))


def _ask(asked: Sequence[KindAsked]) -> None:
    """Say on stderr which kinds were not told, since nothing is computed through such parts."""
    for each in asked:
        fitting = ", ".join(suggestion.kind for suggestion in each.suggestions) or "none that comes along"
        landed = ", ".join(each.letters) or "nothing yet"
        print(f"{each.part} is of unknown kind; landed on: {landed}. Kinds that fit: {fitting}", file=sys.stderr)
    if asked:
        words = (
            "Say a kind with --kind PART=KIND, or later on the bench; until then nothing is computed through the part."
        )
        print(words, file=sys.stderr)


COMMAND = Command("take-in", "Make a job from a wire list, such as a sheet saved as CSV.", _options, _run)
