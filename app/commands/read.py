"""``read``: what a meter shows between two terminals."""

from __future__ import annotations

import argparse

from app.circuit.answers import reading_document
from app.circuit.meter import Reading, read
from app.circuit.solve import solve
from app.commands.asked import asked
from app.commands.command import BadInput, Command
from app.commands.job_file import add_job, add_layout
from app.commands.output import add_format, print_json
from app.commands.situation_options import add_situation, situation_words
from app.job.refusal import Refused

METERS = ("ideal",)


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    parser.add_argument("a", metavar="A", help="the first terminal, such as fb.R")
    parser.add_argument("b", metavar="B", help="the second terminal, such as fb.C")
    parser.add_argument("--meter", choices=METERS, default="ideal", help="the meter (ideal: draws nothing)")
    add_layout(parser)
    add_format(parser)
    add_situation(parser)


def _run(args: argparse.Namespace) -> int:
    what = asked(args)
    point = solve(what.circuit, what.situation)
    try:
        reading = read(point, args.a, args.b)
    except Refused as refused:
        raise BadInput(f"{args.job}: layout {what.layout}", refused) from refused
    if args.format == "json":
        print_json(reading_document(reading))
    else:
        print(f"{args.a} to {args.b} ({situation_words(args)}): {_words(reading)}")
    return 0


def _words(reading: Reading) -> str:
    said = reading_document(reading)
    if "volts" in said:
        return f"{said['volts']:.1f} V"
    if said.get("floating"):
        return "floating: nothing joins the two, so the meter shows nothing to rely on"
    return f"unknown: {said['why']}"


COMMAND = Command("read", "Say what a meter shows between two terminals.", _options, _run)
