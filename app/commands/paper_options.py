"""The options of paper: which, how it lies, how small lettering may become, how fine a picture is."""

from __future__ import annotations

import argparse

from app.commands.command import bad_input
from app.drawing.frame.paper import KEEPING_WHOLE_MM, PAPERS, SMALLEST_CAPITAL_MM, TURNS, USUAL
from app.job.model import Job
from app.paper.packet import Wanted

DPI = 200
DPI_LEAST, DPI_MOST = 50, 600
CAPITALS_LEAST_MM, CAPITALS_MOST_MM = 1.0, 10.0
ON_PAPER = (".pdf", ".png")
"""What is always on paper; SVG is, where a paper is named."""

CAPITALS = f"the least height of capitals ({SMALLEST_CAPITAL_MM:g}; to keep rungs and parts whole {KEEPING_WHOLE_MM:g})"


def add_paper(parser: argparse.ArgumentParser) -> None:
    """Let a command take a paper."""
    add = parser.add_argument_group("paper").add_argument
    add("--paper", choices=tuple(PAPERS), help="the paper (letter, or a4 where the job measures in metres)")
    add("--turned", choices=("auto", *TURNS), help="how it lies (auto: as it needs fewer sheets)")
    add(
        "--capitals",
        type=float,
        metavar="MM",
        help=CAPITALS,
    )
    add("--dpi", type=int, metavar="N", help=f"dots to the inch of a PNG ({DPI})")


def is_on_paper(args: argparse.Namespace) -> bool:
    """Return whether what is written stands on paper.

    Raises:
        BadInput: an option of paper was given for what does not stand on any.
    """
    png = args.out.lower().endswith(".png")
    if args.dpi is not None and not png:
        raise bad_input("--dpi", "Only a picture has dots.", "a name that ends in .png, or no --dpi")
    if args.paper is not None or args.out.lower().endswith(ON_PAPER):
        return True
    for option, value in (("--turned", args.turned), ("--capitals", args.capitals)):
        if value is not None:
            raise bad_input(option, "Without a paper an SVG is one sheet as large as it needs.", "--paper letter or a4")
    return False


def wanted_paper(args: argparse.Namespace, job: Job) -> Wanted:
    """Return the paper that the options ask for.

    Raises:
        BadInput: the height of capitals is not one that can be printed or read.
    """
    capitals = args.capitals
    if capitals is not None and not CAPITALS_LEAST_MM <= capitals <= CAPITALS_MOST_MM:
        right = f"{CAPITALS_LEAST_MM:g} to {CAPITALS_MOST_MM:g}"
        raise bad_input("--capitals", f"Capitals cannot be {capitals:g} mm high.", right)
    return Wanted(PAPERS[args.paper or USUAL[job.settings.units]], args.turned or "auto", capitals)


def wanted_dpi(args: argparse.Namespace) -> int:
    """Return how many dots to the inch a picture has.

    Raises:
        BadInput: it would be too coarse to be read, or too large to be held.
    """
    dpi: int = DPI if args.dpi is None else args.dpi
    if not DPI_LEAST <= dpi <= DPI_MOST:
        raise bad_input("--dpi", f"A picture cannot have {dpi} dots to the inch.", f"{DPI_LEAST} to {DPI_MOST}")
    return dpi
