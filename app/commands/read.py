"""``read``: what a meter shows between two terminals."""

from __future__ import annotations

import argparse

from app.circuit.answers import reading_document
from app.circuit.meter import METERS, Meter, Reading, read_with
from app.circuit.solve import solve
from app.commands.asked import asked
from app.commands.command import BadInput, Command
from app.commands.job_file import add_job, add_layout
from app.commands.output import add_format, print_json
from app.commands.situation_options import add_situation, situation_words
from app.job.refusal import Refused


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    parser.add_argument("a", metavar="A", help="the first terminal, such as fb.R")
    parser.add_argument("b", metavar="B", help="the second terminal, such as fb.C")
    parser.add_argument(
        "--meter",
        choices=METERS,
        default="ideal",
        help="ideal: draws nothing; high: 10 MΩ; low: 3 kΩ; ohms: resistance with the power off (--supply 0)",
    )
    add_layout(parser)
    add_format(parser)
    add_situation(parser)


def _run(args: argparse.Namespace) -> int:
    what = asked(args)
    point = solve(what.circuit, what.situation)
    try:
        reading = read_with(args.meter, what.circuit, point, args.a, args.b)
    except Refused as refused:
        raise BadInput(f"{args.job}: layout {what.layout}", refused) from refused
    if args.format == "json":
        print_json(reading_document(reading))
    else:
        situation = situation_words(args, what.job.job.settings.units)
        print(f"{args.a} to {args.b} ({situation}): {_words(args.meter, reading)}")
    return 0


def _words(meter: Meter, reading: Reading) -> str:
    why = f" ({reading.why})" if reading.why else ""
    if reading.volts is not None:
        return f"{reading.volts:.{1 if reading.volts >= 1 else 2}f} V{why}"
    if reading.ohms is not None:
        return f"{reading.ohms:.3g} Ω{why}"
    if reading.floating and meter == "ohms":
        return reading.why
    if reading.floating:
        return f"floating: {reading.why or 'nothing joins the two, so the meter shows nothing to rely on'}"
    return (
        reading.why if reading.between_ohms or reading.why.startswith("not meaningful") else f"unknown: {reading.why}"
    )


COMMAND = Command("read", "Say what a meter shows between two terminals.", _options, _run)
