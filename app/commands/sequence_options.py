"""The options of a sequence, the same for every command that plays one."""

from __future__ import annotations

import argparse

from app.commands.asked import Asked
from app.commands.command import BadInput
from app.job.refusal import Refused
from app.sequence.change_text import read_changes
from app.sequence.run import Run, run_sequence

ONE_HOUR_S = 3600.0


def add_sequence(parser: argparse.ArgumentParser) -> None:
    """Let a command take changes and how long to follow them."""
    group = parser.add_argument_group("sequence")
    group.add_argument(
        "--at",
        action="append",
        default=[],
        metavar="SECONDS:CHANGE",
        help="a change: 0:tc=heat-1, 30:fb.limit=open, 60:main=off, 90:tc=idle, 120:outdoor=-8, 150:supply=88, "
        "180:fault=conductor-open:w3",
    )
    group.add_argument(
        "--for", dest="for_s", type=float, default=ONE_HOUR_S, metavar="SECONDS", help="when to cut it off (3600)"
    )


def sequence_asked(args: argparse.Namespace) -> bool:
    """Return whether any change was given."""
    return bool(args.at)


def played(args: argparse.Namespace, what: Asked) -> Run:
    """Return the run that a command's options ask for.

    Raises:
        BadInput: a change cannot be read, or names what the layout does not have.
    """
    try:
        layout = what.job.job.layouts[what.layout]
        changes = read_changes(args.at, layout, what.job.catalogue, what.situation)
        return run_sequence(what.circuit, changes, args.for_s, what.situation)
    except Refused as refused:
        raise BadInput(f"{args.job}: layout {what.layout}: sequence", refused) from refused
