"""``wires``: the wire list."""

from __future__ import annotations

import argparse
import sys
from dataclasses import asdict, astuple, fields

from app.commands.command import Command
from app.commands.job_file import add_job, add_layout, chosen_layout, opened
from app.commands.output import add_format, print_columns, print_json
from app.drawing.wire_list import WireRow, wire_list, wire_list_csv


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    add_layout(parser)
    add_format(parser, "csv")


def _run(args: argparse.Namespace) -> int:
    job = opened(args).job
    layout = chosen_layout(args, job)
    rows = wire_list(job.layouts[layout])
    if args.format == "json":
        print_json({"layout": layout, "wires": [asdict(row) for row in rows]})
    elif args.format == "csv":
        sys.stdout.write(wire_list_csv(rows))
    else:
        print(f"{job.title}\nLayout {layout}, {len(rows)} conductors\n")
        headings = [field.name.replace("_", " ") for field in fields(WireRow)]
        print_columns([headings, *([_word(value) for value in astuple(row)] for row in rows)])
    return 0


def _word(value: object) -> str:
    return "" if value is None else str(value)


COMMAND = Command("wires", "Print the wire list of a layout.", _options, _run)
