"""``draw``: the drawing that stays with the equipment."""

from __future__ import annotations

import argparse

from app.circuit.network import build_circuit
from app.circuit.solve import solve
from app.commands.command import Command, bad_input
from app.commands.job_file import add_job, add_layout, chosen_layout, opened
from app.commands.output import write_out
from app.commands.situation_options import add_situation, is_asked, situation_of
from app.drawing.connection.diagram import draw_connection
from app.web.wording.calls import situation_words
from app.web.wording.naming import Naming

VIEWS = ("connection",)


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    parser.add_argument("--view", choices=VIEWS, default="connection", help="the view (connection)")
    parser.add_argument("--out", required=True, metavar="FILE.svg", help="the file to write, or - for stdout")
    parser.add_argument("--live", action="store_true", help="show what is energised, also where no situation is given")
    parser.add_argument("--dated", default="", metavar="DATE", help="the date for the title block (none)")
    add_layout(parser)
    add_situation(parser)


def _run(args: argparse.Namespace) -> int:
    if args.out != "-" and not args.out.lower().endswith(".svg"):
        raise bad_input(args.out, "Only SVG can be written.", "a name that ends in .svg, or - for stdout")
    job = opened(args)
    layout = chosen_layout(args, job.job)
    situation = situation_of(args, job, layout)
    circuit = build_circuit(job.job.layouts[layout], job.catalogue, job.job.settings.frequency_hz)
    live = args.live or is_asked(args)
    point = solve(circuit, situation) if live else None
    words = situation_words(situation, Naming(job.job.layouts[layout], job.catalogue)) if live else ""
    drawing = draw_connection(job.job, layout, job.catalogue, point=point, dated=args.dated, situation_words=words)
    write_out(args.out, drawing)
    return 0


COMMAND = Command("draw", "Draw a layout as SVG.", _options, _run)
