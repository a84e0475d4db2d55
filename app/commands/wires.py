"""``wires``: the wire list, the terminal list, and the parts and cables that make a wire list whole."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any

from app.circuit.network import Circuit, build_circuit
from app.circuit.solve import solve
from app.commands.command import Command, bad_input
from app.commands.job_file import add_job, add_layout, chosen_layout, opened
from app.commands.output import add_format, print_columns, print_json
from app.commands.situation_options import add_situation, is_asked, situation_of, situation_words
from app.job.model import Job
from app.tables.part_rows import Table, cables_table, parts_table
from app.tables.terminal_rows import HEADINGS as TERMINAL_HEADINGS
from app.tables.terminal_rows import VOLTS_HEADING, TerminalRow, terminal_rows, terminals_csv
from app.tables.wire_rows import BY, HEADINGS, WireGroup, WireRow, grouped, wire_roles, wire_rows, wires_csv

LISTS = ("wires", "terminals", "parts", "cables")


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    add = parser.add_argument
    add("--of", choices=LISTS, default="wires", help="which list (wires)")
    add("--by", choices=BY, default="conductor", help="order of the wire list; by part each wire stands at both ends")
    add_layout(parser)
    add_format(parser, "csv")
    add_situation(parser)


def _run(args: argparse.Namespace) -> int:
    if args.by != "conductor" and args.of != "wires":
        raise bad_input("--by", f"A list of {args.of} has one order.", "--by with the wire list only")
    if is_asked(args) and args.of != "terminals":
        raise bad_input("situation", "Only the terminal list shows a situation.", "--of terminals, or no situation")
    job = opened(args)
    layout = chosen_layout(args, job.job)
    circuit = build_circuit(job.job.layouts[layout], job.catalogue, job.job.settings.frequency_hz)
    if args.of == "terminals":
        point = solve(circuit, situation_of(args, job, layout)) if is_asked(args) else None
        rows = terminal_rows(circuit.layout, job.catalogue, point, wire_roles(circuit))
        _print_terminals(args, job.job, layout, rows)
    elif args.of == "wires":
        _print_wires(args, job.job, layout, circuit)
    else:
        table = parts_table(circuit.layout) if args.of == "parts" else cables_table(circuit.layout)
        _print_table(args, job.job, layout, table)
    return 0


def _print_wires(args: argparse.Namespace, job: Job, layout: str, circuit: Circuit) -> None:
    rows = wire_rows(circuit.layout, wire_roles(circuit))
    groups = grouped(rows, args.by, circuit.layout, circuit.catalogue)
    if args.format == "csv":
        sys.stdout.write(wires_csv(row for group in groups for row in group.rows))
    elif args.format == "json" and args.by == "conductor":
        print_json({"layout": layout, "wires": [_wire(row) for row in rows]})
    elif args.format == "json":
        listed = [{args.by: group.of or None, "wires": [_wire(row) for row in group.rows]} for group in groups]
        print_json({"layout": layout, "groups": listed})
    else:
        print(f"{job.title}\nLayout {layout}, conductors: {len(rows)}")
        for group in groups:
            print(f"\n{_title(args.by, group)}" if args.by != "conductor" else "")
            print_columns([HEADINGS, *(row.words() for row in group.rows)])


def _print_terminals(args: argparse.Namespace, job: Job, layout: str, rows: Sequence[TerminalRow]) -> None:
    with_volts = is_asked(args)
    if args.format == "csv":
        sys.stdout.write(terminals_csv(rows, with_volts))
    elif args.format == "json":
        print_json({"layout": layout, "terminals": [asdict(row) for row in rows]})
    else:
        headings = (*TERMINAL_HEADINGS, VOLTS_HEADING) if with_volts else TERMINAL_HEADINGS
        shown = f", situation: {situation_words(args, job.settings.units)}" if with_volts else ""
        print(f"{job.title}\nLayout {layout}, terminals: {len(rows)}{shown}\n")
        print_columns([headings, *(row.words()[: len(headings)] for row in rows)])


def _print_table(args: argparse.Namespace, job: Job, layout: str, table: Table) -> None:
    if args.format == "csv":
        sys.stdout.write(table.csv())
    elif args.format == "json":
        listed = [dict(zip(table.headings, row, strict=True)) for row in table.rows]
        print_json({"layout": layout, args.of: listed})
    else:
        print(f"{job.title}\nLayout {layout}, {args.of}: {len(table.rows)}\n")
        print_columns(table.words())


def _title(by: str, group: WireGroup) -> str:
    if group.of:
        return f"{by} {group.of}"
    return "in no cable" if by == "cable" else "landed on no part"


def _wire(row: WireRow) -> Mapping[str, Any]:
    """A row as JSON; ``from`` is a word of Python's own and has another name inside."""
    said = {name.rstrip("_"): value for name, value in asdict(row).items()}
    del said["others_have_length"]
    return said


COMMAND = Command("wires", "Print the wire list of a layout, or its terminals or parts.", _options, _run)
