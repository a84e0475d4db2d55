"""The same verbs from a terminal: one command a file in ``app.commands``.

Exit codes: 0 fine; 1 only from ``check``, where a finding of severity danger stands; 2 bad input, said on stderr with
the file, the place in it (JSON Pointer), what is wrong and what would be right. Answers go to stdout and nothing
else does.
"""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Sequence

from app.commands import check, draw, explain, kinds, netlist, read, rules, sequence, serve, solve, take_in, wires
from app.commands.command import BadInput, Command

COMMANDS: tuple[Command, ...] = (
    serve.COMMAND,
    check.COMMAND,
    solve.COMMAND,
    read.COMMAND,
    sequence.COMMAND,
    explain.COMMAND,
    draw.COMMAND,
    wires.COMMAND,
    take_in.COMMAND,
    netlist.COMMAND,
    rules.COMMAND,
    kinds.COMMAND,
)


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    _write_utf8()
    args = parser().parse_args(argv)
    try:
        code: int = args.run(args)
        sys.stdout.flush()
    except BadInput as bad:
        print(bad, file=sys.stderr)
        return 2
    except BrokenPipeError:
        # Whoever read our output has seen enough (``rungwright rules | head``); Python would complain once more at
        # exit, when it flushes stdout.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    return code


def parser() -> argparse.ArgumentParser:
    """Return the parser of all commands."""
    top = argparse.ArgumentParser(
        prog="rungwright",
        description="Draws, checks and proves 24-volt control wiring of heating and cooling equipment.",
        epilog="JOB is a job file (JSON), or - for stdin. Exit codes: 0 fine; 1 a danger stands (check); 2 bad input.",
    )
    commands = top.add_subparsers(metavar="COMMAND", required=True)
    for command in COMMANDS:
        one = commands.add_parser(command.name, help=command.words, description=command.words, allow_abbrev=False)
        command.add_options(one)
        one.set_defaults(run=command.run)
    return top


def _write_utf8() -> None:
    """Say Ω and ° also where the terminal's own encoding has none."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8")
