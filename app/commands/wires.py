"""``wires``: the wire list."""

from __future__ import annotations

import argparse
import sys
from dataclasses import asdict, astuple
from typing import Any

from app.commands.command import Command
from app.commands.job_file import add_job, add_layout, chosen_layout, opened
from app.commands.output import add_format, print_columns, print_json
from app.drawing.lists.wire_list import HEADINGS, WireRow, wire_list, wire_list_csv


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    add_layout(parser)
    add_format(parser, "csv")


def _run(args: argparse.Namespace) -> int:
    job = opened(args).job
    layout = chosen_layout(args, job)
    rows = wire_list(job.layouts[layout])
    if args.format == "json":
        print_json({"layout": layout, "wires": [_document(row) for row in rows]})
    elif args.format == "csv":
        sys.stdout.write(wire_list_csv(rows))
    else:
        print(f"{job.title}\nLayout {layout}, conductors: {len(rows)}\n")
        print_columns([HEADINGS, *(_words(row) for row in rows)])
    return 0


def _document(row: WireRow) -> dict[str, Any]:
    """A row as JSON; ``from`` is a word of Python's own and has another name inside."""
    return {name.rstrip("_"): value for name, value in asdict(row).items()}


def _words(row: WireRow) -> list[str]:
    return ["" if value is None else str(value) for value in astuple(row)]


COMMAND = Command("wires", "Print the wire list of a layout.", _options, _run)
