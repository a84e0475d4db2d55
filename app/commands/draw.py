"""``draw``: the drawing that stays with the equipment, on one large sheet or on paper."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path

from app.circuit.solve import solve
from app.commands.asked import Asked, asked
from app.commands.command import BadInput, Command, bad_input
from app.commands.job_file import add_before, add_job, add_layout, compared_layout
from app.commands.output import write_bytes, write_out
from app.commands.paper_options import add_paper, is_on_paper, wanted_dpi, wanted_paper
from app.commands.sequence_options import add_sequence, played, sequence_asked
from app.commands.situation_options import add_situation, is_asked
from app.drawing.frame.drawing import Drawing
from app.drawing.frame.one_sheet import one_sheet
from app.drawing.frame.title_block import SheetWords, changes_words, sheet_words
from app.drawing.timing.diagram import shown_words
from app.drawing.views import VIEWS, Shown, compared_with, drawable
from app.job.refusal import Refused
from app.paper.packet import Packet, packet
from app.paper.typesetter import pdf_of, png_of
from app.web.wording.calls import situation_words
from app.web.wording.naming import Naming

ENDINGS = (".svg", ".pdf", ".png")
EVERY_VIEW = "all"


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    views = "; ".join(f"{name}: {view.words}" for name, view in VIEWS.items())
    parser.add_argument(
        "--view",
        action="append",
        choices=(*VIEWS, EVERY_VIEW),
        help=f"{views} (connection); repeatable on paper, where {EVERY_VIEW} means each that can be drawn",
    )
    parser.add_argument(
        "--out", required=True, metavar="FILE.svg/.pdf/.png", help="the file to write, or - for SVG on stdout"
    )
    parser.add_argument("--live", action="store_true", help="show what is energised, also where no situation is given")
    parser.add_argument("--dated", default="", metavar="DATE", help="the date for the title block (none)")
    parser.add_argument("--insides", action="store_true", help="show what is inside each part, in a connection diagram")
    parser.add_argument("--all", action="store_true", help="a line for whatever moves, in a timing chart")
    add_layout(parser)
    add_before(parser)
    add_paper(parser)
    add_situation(parser)
    add_sequence(parser)


def _run(args: argparse.Namespace) -> int:
    if args.out != "-" and not args.out.lower().endswith(ENDINGS):
        right = f"a name that ends in {', '.join(ENDINGS)}, or - for SVG on stdout"
        raise bad_input(args.out, "The ending does not say what is to be written.", right)
    on_paper = is_on_paper(args)
    names = _views(args)
    if not on_paper and len(names) > 1:
        raise bad_input(args.out, "One SVG shows one view.", "a PDF, --paper, or one --view")
    if on_paper and args.out == "-":
        raise bad_input("-", "Sheets of paper do not go to stdout.", f"a name that ends in {', '.join(ENDINGS)}")
    what = asked(args)
    if not on_paper:
        (drawn,) = _drawn(args, what, names)
        write_out(args.out, one_sheet(*drawn))
        return 0
    # What paper is wanted is judged before anything is drawn.
    wanted, dpi = wanted_paper(args, what.job.job), wanted_dpi(args)
    try:
        sheets = packet(list(_drawn(args, what, names)), wanted)
    except Refused as refused:
        raise BadInput(args.job, refused) from refused
    _write(args.out, sheets, dpi)
    return 0


def _views(args: argparse.Namespace) -> list[str]:
    """Return the views that are asked for, each once.

    Raises:
        BadInput: a sequence, a situation, insides or another layout are asked for that none of them shows, or a view of
            a sequence without one.
    """
    said = args.view or ["connection"]
    every = drawable(sequence_asked(args), has_before=True)
    names = list(dict.fromkeys(name for one in said for name in (every if one == EVERY_VIEW else (one,))))
    views = [VIEWS[name] for name in names]
    if sequence_asked(args) and not any(view.needs_run for view in views):
        right = f"--view {_with_sequence()}, or no --at"
        raise bad_input("--at", f"The view {', '.join(names)} shows no sequence.", right)
    without_run = [name for name in args.view or () if name in VIEWS and VIEWS[name].needs_run]
    if without_run and not sequence_asked(args):
        right = "--at SECONDS:CHANGE, such as --at 0:tc=heat-1; a --call is what has long stood before"
        raise bad_input("--view", f"The view {without_run[0]} shows what happens, and nothing does.", right)
    if (args.live or is_asked(args)) and not any(view.shows_situation for view in views):
        right = "a view that does, or no situation and no --live"
        raise bad_input("situation", f"The view {', '.join(names)} shows no situation.", right)
    if args.insides and not any(view.shows_insides for view in views):
        right = "a view that does, or no --insides"
        raise bad_input("--insides", f"The view {', '.join(names)} shows nothing of what is inside a part.", right)
    if args.before is not None and not any(view.needs_before for view in views):
        right = f"--view {' or '.join(name for name, view in VIEWS.items() if view.needs_before)}, or no --before"
        raise bad_input("--before", f"The view {', '.join(names)} compares no layouts.", right)
    return names


def _drawn(args: argparse.Namespace, what: Asked, names: list[str]) -> Iterator[tuple[Drawing, SheetWords]]:
    """Yield the drawing of each view with the words of its title block."""
    for name in names:
        view = VIEWS[name]
        if view.needs_before and name not in (args.view or ()) and len(what.job.job.layouts) == 1:
            # Each view that can be drawn was asked for; this one cannot.
            continue
        if view.needs_before:
            shown, words = _compared_shown(args, what)
        elif view.needs_run:
            shown, words = _run_shown(args, what)
        else:
            shown, words = _situation_shown(args, what, view.shows_situation)
        drawing = view.draw(shown)
        yield drawing, sheet_words(what.job.job, what.layout, drawing.view, args.dated, words)


def _situation_shown(args: argparse.Namespace, what: Asked, shows: bool) -> tuple[Shown, str]:
    """Return what a view of a situation shows, and the situation in words."""
    layout, catalogue = what.job.job.layouts[what.layout], what.job.catalogue
    units = what.job.job.settings.units
    if not (shows and (args.live or is_asked(args))):
        return Shown(layout, catalogue, what.circuit, insides=args.insides, units=units), ""
    words = situation_words(what.situation, Naming(layout, catalogue, units))
    point = solve(what.circuit, what.situation)
    return Shown(layout, catalogue, what.circuit, point, words, insides=args.insides, units=units), words


def _run_shown(args: argparse.Namespace, what: Asked) -> tuple[Shown, str]:
    """Return what a view of a sequence shows, and the sequence in words."""
    layout, run = what.job.job.layouts[what.layout], played(args, what)
    units = what.job.job.settings.units
    shown = Shown(layout, what.job.catalogue, what.circuit, run=run, everything=args.all, units=units)
    return shown, shown_words(run, units)


def _compared_shown(args: argparse.Namespace, what: Asked) -> tuple[Shown, str]:
    """Return what a view of two layouts shows, and what it is compared with in words."""
    job = what.job.job
    before = compared_layout(args, job, what.layout)
    shown = Shown(job.layouts[what.layout], what.job.catalogue, what.circuit, units=job.settings.units)
    return compared_with(shown, job, before, what.layout), changes_words(job, before)


def _write(out: str, sheets: Packet, dpi: int) -> None:
    """Write a PDF, or a file for each sheet; where there are several they are numbered and their names printed."""
    path = Path(out)
    if path.suffix.lower() == ".pdf":
        write_bytes(out, pdf_of(sheets))
        return
    several = len(sheets.sheets) > 1
    digits = len(str(len(sheets.sheets)))
    for number, sheet in enumerate(sheets.sheets, start=1):
        # All numbers have as many digits, so that sheet 10 lies behind sheet 9 wherever files are sorted by name.
        name = str(path.with_name(f"{path.stem}-{number:0{digits}}{path.suffix}")) if several else out
        write_bytes(name, png_of(sheet, dpi) if path.suffix.lower() == ".png" else sheet.svg.encode())
        if several:
            print(name)


def _with_sequence() -> str:
    return " or ".join(name for name, view in VIEWS.items() if view.needs_run)


COMMAND = Command("draw", "Draw a layout as SVG, or on paper as PDF, PNG or SVG.", _options, _run)
