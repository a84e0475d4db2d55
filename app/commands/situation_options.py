"""The options of a situation, the same for every command that asks for one."""

from __future__ import annotations

import argparse

from app.catalogue.opening import Opened
from app.circuit.situation import Situation
from app.circuit.situation_text import check_situation, parse_situation
from app.commands.command import BadInput
from app.job.refusal import Refused
from app.job.temperatures import Units, temperature_words


def add_situation(parser: argparse.ArgumentParser) -> None:
    """Let a command take a situation."""
    group = parser.add_argument_group("situation")
    add = group.add_argument
    add("--call", action="append", default=[], metavar="PART=CALL", help="what a control asks for, such as tc=cool-1")
    add("--set", action="append", default=[], metavar="PART.NAME=VALUE", help="a position, such as fb.limit=open")
    add("--supply", type=float, default=100.0, metavar="PERCENT", help="supply in percent of rated volts (100)")
    add("--outdoor", type=float, default=20.0, metavar="C", help="outdoor temperature in °C (20)")
    add("--mains", action="append", default=[], metavar="SUPPLY=off", help="an open disconnect, such as outdoor=off")
    add("--fault", action="append", default=[], metavar="IS:AT[:OHMS]", help="such as conductor-open:conductor:w3")


def is_asked(args: argparse.Namespace) -> bool:
    """Return whether any option of a situation was given."""
    return bool(args.call or args.set or args.fault or args.mains) or args.supply != 100.0 or args.outdoor != 20.0


def situation_of(args: argparse.Namespace, job: Opened, layout: str) -> Situation:
    """Return the situation that a command's options say, checked against the layout.

    Raises:
        BadInput: they cannot be read, or name what the layout does not have.
    """
    try:
        situation = parse_situation(args.call, args.set, args.supply, args.outdoor, args.fault, args.mains)
        check_situation(situation, job.job.layouts[layout], job.catalogue)
    except Refused as refused:
        raise BadInput(f"{args.job}: layout {layout}: situation", refused) from refused
    return situation


def situation_words(args: argparse.Namespace, units: Units) -> str:
    """Return the situation in the words of the options, ``idle`` where nothing is asked; ``units`` are the job's."""
    words = [*args.call, *args.set, *args.mains, *args.fault]
    if args.supply != 100.0:
        words.append(f"supply {args.supply:g} %")
    if args.outdoor != 20.0:
        words.append(f"outdoor {temperature_words(args.outdoor, units)}")
    return ", ".join(words) or "idle"
