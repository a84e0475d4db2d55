"""``draw``: the drawing that stays with the equipment."""

from __future__ import annotations

import argparse

from app.circuit.solve import solve
from app.commands.asked import Asked, asked
from app.commands.command import Command, bad_input
from app.commands.job_file import add_job, add_layout
from app.commands.output import write_out
from app.commands.sequence_options import add_sequence, played, sequence_asked
from app.commands.situation_options import add_situation, is_asked
from app.drawing.frame.one_sheet import one_sheet
from app.drawing.frame.title_block import sheet_words
from app.drawing.timing.diagram import shown_words
from app.drawing.views import VIEWS, Shown
from app.web.wording.calls import situation_words
from app.web.wording.naming import Naming


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    views = "; ".join(f"{name}: {view.words}" for name, view in VIEWS.items())
    parser.add_argument("--view", choices=tuple(VIEWS), default="connection", help=f"{views} (connection)")
    parser.add_argument("--out", required=True, metavar="FILE.svg", help="the file to write, or - for stdout")
    parser.add_argument("--live", action="store_true", help="show what is energised, also where no situation is given")
    parser.add_argument("--dated", default="", metavar="DATE", help="the date for the title block (none)")
    parser.add_argument("--all", action="store_true", help="a line for whatever moves, in a timing chart")
    add_layout(parser)
    add_situation(parser)
    add_sequence(parser)


def _run(args: argparse.Namespace) -> int:
    if args.out != "-" and not args.out.lower().endswith(".svg"):
        raise bad_input(args.out, "Only SVG can be written.", "a name that ends in .svg, or - for stdout")
    view = VIEWS[args.view]
    if sequence_asked(args) and not view.needs_run:
        raise bad_input("--at", f"The view {args.view} shows no sequence.", f"--view {_with_sequence()}, or no --at")
    if (args.live or is_asked(args)) and not view.shows_situation:
        right = "a view that does, or no situation and no --live"
        raise bad_input("situation", f"The view {args.view} shows no situation.", right)
    what = asked(args)
    shown, words = _run_shown(args, what) if view.needs_run else _situation_shown(args, what)
    drawing = view.draw(shown)
    write_out(args.out, one_sheet(drawing, sheet_words(what.job.job, what.layout, drawing.view, args.dated, words)))
    return 0


def _situation_shown(args: argparse.Namespace, what: Asked) -> tuple[Shown, str]:
    """Return what a view of a situation shows, and the situation in words."""
    layout, catalogue = what.job.job.layouts[what.layout], what.job.catalogue
    if not (args.live or is_asked(args)):
        return Shown(layout, catalogue, what.circuit), ""
    words = situation_words(what.situation, Naming(layout, catalogue))
    return Shown(layout, catalogue, what.circuit, solve(what.circuit, what.situation), words), words


def _run_shown(args: argparse.Namespace, what: Asked) -> tuple[Shown, str]:
    """Return what a view of a sequence shows, and the sequence in words."""
    layout, run = what.job.job.layouts[what.layout], played(args, what)
    shown = Shown(layout, what.job.catalogue, what.circuit, run=run, everything=args.all)
    return shown, shown_words(run)


def _with_sequence() -> str:
    return " or ".join(name for name, view in VIEWS.items() if view.needs_run)


COMMAND = Command("draw", "Draw a layout as SVG.", _options, _run)
