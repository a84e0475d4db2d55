"""``netlist``: a SPICE deck of the settled circuit, to check us by other means."""

from __future__ import annotations

import argparse
import sys

from app.circuit.netlist import netlist
from app.commands.asked import asked
from app.commands.command import Command
from app.commands.job_file import add_job, add_layout
from app.commands.situation_options import add_situation


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    add_layout(parser)
    add_situation(parser)


def _run(args: argparse.Namespace) -> int:
    what = asked(args)
    sys.stdout.write(netlist(what.circuit, what.situation))
    return 0


COMMAND = Command("netlist", "Print a SPICE deck of a layout in a situation.", _options, _run)
