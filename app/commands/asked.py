"""A layout's circuit and the situation that the options ask of it, for the commands that look at what it does."""

from __future__ import annotations

import argparse
from dataclasses import dataclass

from app.catalogue.opening import Opened
from app.circuit.network import Circuit, build_circuit
from app.circuit.situation import Situation
from app.commands.job_file import chosen_layout, opened
from app.commands.situation_options import situation_of


@dataclass(frozen=True, slots=True)
class Asked:
    """What a command was asked to look at."""

    job: Opened
    layout: str
    circuit: Circuit
    situation: Situation


def asked(args: argparse.Namespace) -> Asked:
    """Return what the options ask for.

    Raises:
        BadInput: the file, the layout or the situation is not right.
    """
    job = opened(args)
    layout = chosen_layout(args, job.job)
    situation = situation_of(args, job, layout)
    circuit = build_circuit(job.job.layouts[layout], job.catalogue, job.job.settings.frequency_hz)
    return Asked(job, layout, circuit, situation)
