"""Job files: reading one, and choosing the layout that is meant."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from app.catalogue.opening import Opened, open_job
from app.commands.command import BadInput, bad_input
from app.job.layout_choice import layout_before, layout_meant
from app.job.model import Job
from app.job.refusal import Refused


def add_job(parser: argparse.ArgumentParser) -> None:
    """Let a command take a job file."""
    parser.add_argument("job", metavar="JOB", help="the job file, or - for stdin")


def add_layout(parser: argparse.ArgumentParser, default: str = "as-left, else as-found, else the only one") -> None:
    """Let a command take the name of a layout."""
    parser.add_argument("--layout", metavar="LAYOUT", help=f"the layout ({default})")


def add_before(parser: argparse.ArgumentParser) -> None:
    """Let a command take the name of the layout with which another one is compared."""
    parser.add_argument(
        "--before", metavar="LAYOUT", help="the layout that changes are seen from (as-found, else the only other one)"
    )


def opened(args: argparse.Namespace) -> Opened:
    """Return the job of a command's file with the kinds that hold for it.

    Raises:
        BadInput: the file cannot be read, or what it holds is refused.
    """
    try:
        return open_job(file_bytes(args.job, "a job file"))
    except Refused as refused:
        raise BadInput(args.job, refused) from refused


def chosen_layout(args: argparse.Namespace, job: Job) -> str:
    """Return the layout that a command means.

    Raises:
        BadInput: there is none of that name, or none is meant by default.
    """
    try:
        return layout_meant(job, args.layout)
    except Refused as refused:
        raise BadInput(args.job, refused) from refused


def compared_layout(args: argparse.Namespace, job: Job, layout: str) -> str:
    """Return the layout with which a command compares ``layout``.

    Raises:
        BadInput: there is none of that name, or none is meant by default.
    """
    try:
        return layout_before(job, layout, args.before)
    except Refused as refused:
        raise BadInput(args.job, refused) from refused


def file_bytes(path: str, what: str) -> bytes:
    """Return what a file holds, or stdin where its path is ``-``; ``what`` it should be is said where it is not there.

    Raises:
        BadInput: it cannot be read.
    """
    if path == "-":
        return sys.stdin.buffer.read()
    try:
        return Path(path).read_bytes()
    except OSError as error:
        raise bad_input(path, f"The file cannot be read: {error.strerror}.", f"the path of {what}") from error
