"""``netlist``: a SPICE deck of the settled circuit, to check us by other means."""

from __future__ import annotations

import argparse
import sys

from app.circuit.netlist import netlist
from app.circuit.network import build_circuit
from app.commands.command import Command
from app.commands.job_file import add_job, add_layout, chosen_layout, opened
from app.commands.situation_options import add_situation, situation_of


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    add_layout(parser)
    add_situation(parser)


def _run(args: argparse.Namespace) -> int:
    job = opened(args)
    layout = chosen_layout(args, job.job)
    situation = situation_of(args, job, layout)
    circuit = build_circuit(job.job.layouts[layout], job.catalogue, job.job.settings.frequency_hz)
    sys.stdout.write(netlist(circuit, situation))
    return 0


COMMAND = Command("netlist", "Print a SPICE deck of a layout in a situation.", _options, _run)
