"""``sequence``: what happens one thing after another, through calls and disturbances."""

from __future__ import annotations

import argparse

from app.commands.asked import Asked, asked
from app.commands.command import BadInput, Command
from app.commands.job_file import add_job, add_layout
from app.commands.output import add_format, print_columns, print_json
from app.commands.situation_options import add_situation, situation_words
from app.job.refusal import Refused
from app.sequence.change import Change
from app.sequence.change_text import read_changes
from app.sequence.document import run_document
from app.sequence.run import Run, run_sequence
from app.sequence.telling import clock_words, end_words, lines_of, runs_words, warning_words

ONE_HOUR_S = 3600.0


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    parser.add_argument(
        "--at",
        action="append",
        default=[],
        metavar="SECONDS:CHANGE",
        help="a change: 0:tc=heat-1, 30:fb.limit=open, 60:main=off, 90:tc=idle, 120:outdoor=-8, 150:supply=88, "
        "180:fault=conductor-open:w3",
    )
    parser.add_argument(
        "--for", dest="for_s", type=float, default=ONE_HOUR_S, metavar="SECONDS", help="when to cut it off (3600)"
    )
    parser.add_argument(
        "--all",
        action="store_true",
        help="tell of every contact and input too",
    )
    add_layout(parser)
    add_format(parser)
    add_situation(parser)


def _run(args: argparse.Namespace) -> int:
    what = asked(args)
    run, changes = _played(args, what)
    if args.format == "json":
        print_json(run_document(run))
        return 0
    print(f"{what.job.job.title}\nLayout {what.layout}, has long stood: {situation_words(args)}\n")
    rows = [["min:s", "part", "what", "now", "because of"]]
    rows += (list(line) for line in lines_of(run, what.circuit, changes, everything=args.all))
    if len(rows) > 1:
        print_columns(rows)
    if not run.events:
        print(f"Nothing moves from 0:00 to {clock_words(args.for_s)}.")
    print()
    for sentence in (runs_words(run), *warning_words(run), end_words(run)):
        print(sentence)
    return 0


def _played(args: argparse.Namespace, what: Asked) -> tuple[Run, list[Change]]:
    try:
        layout = what.job.job.layouts[what.layout]
        changes = read_changes(args.at, layout, what.job.catalogue, what.situation)
        return run_sequence(what.circuit, changes, args.for_s, what.situation), changes
    except Refused as refused:
        raise BadInput(f"{args.job}: layout {what.layout}: sequence", refused) from refused


COMMAND = Command(
    "sequence", "Say what happens one thing after another, through calls and disturbances.", _options, _run
)
