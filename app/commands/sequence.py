"""``sequence``: what happens one thing after another, through calls and disturbances."""

from __future__ import annotations

import argparse

from app.commands.asked import asked
from app.commands.command import Command
from app.commands.job_file import add_job, add_layout
from app.commands.output import add_format, print_columns, print_json
from app.commands.sequence_options import add_sequence, played
from app.commands.situation_options import add_situation, situation_words
from app.sequence.document import run_document
from app.sequence.telling import clock_words, end_words, lines_of, runs_words, warning_words


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    add_sequence(parser)
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
    run = played(args, what)
    if args.format == "json":
        print_json(run_document(run))
        return 0
    units = what.job.job.settings.units
    print(f"{what.job.job.title}\nLayout {what.layout}, has long stood: {situation_words(args, units)}\n")
    rows = [["min:s", "part", "what", "now", "because of"]]
    rows += (list(line) for line in lines_of(run, what.circuit, run.changes, everything=args.all, units=units))
    if len(rows) > 1:
        print_columns(rows)
    if not run.events:
        print(f"Nothing moves from 0:00 to {clock_words(args.for_s)}.")
    print()
    for sentence in (runs_words(run), *warning_words(run), end_words(run)):
        print(sentence)
    return 0


COMMAND = Command(
    "sequence", "Say what happens one thing after another, through calls and disturbances.", _options, _run
)
