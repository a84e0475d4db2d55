"""``solve``: what the circuit does in a situation, once it has settled."""

from __future__ import annotations

import argparse

from app.circuit.answers import solution_document
from app.circuit.operating_point import OperatingPoint, TerminalState, Unsettled
from app.circuit.solve import solve
from app.commands.asked import asked
from app.commands.command import Command
from app.commands.job_file import add_job, add_layout
from app.commands.output import add_format, print_columns, print_json
from app.commands.situation_options import add_situation, situation_words


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    add_layout(parser)
    add_format(parser)
    add_situation(parser)


def _run(args: argparse.Namespace) -> int:
    what = asked(args)
    point = solve(what.circuit, what.situation)
    if args.format == "json":
        print_json(solution_document(point))
    else:
        situation = situation_words(args, what.job.job.settings.units)
        print(f"{what.job.job.title}\nLayout {what.layout}, situation: {situation}\n")
        _print(point)
    return 0


def _print(point: OperatingPoint) -> None:
    runs = ", ".join(f"{part} {effect}" for part, effect in point.effects)
    print(f"Runs: {runs or 'nothing'}")
    if point.unsettled is not None:
        print(f"Does not settle: {_unsettled(point.unsettled)}")
    for fuse, amps in sorted(point.blown.items()):
        print(f"Opens: {fuse}, which would carry more than its rating (model: {amps:.1f} A)")
    _print_table("Terminals", [[name, _terminal(state)] for name, state in point.terminals.items()])
    _print_table(
        "Sources", [[name, f"{state.va:.1f} VA", f"{state.amps:.2f} A"] for name, state in point.sources.items()]
    )
    states = [[name, state.state] for name, state in point.elements.items() if state.state]
    _print_table("Elements", states)
    carrying = [
        [name, f"{state.amps:.3f} A", f"toward end {state.toward + 1}"]
        for name, state in point.conductors.items()
        if state.toward is not None
    ]
    _print_table("Conductors that carry", carrying)


def _print_table(title: str, rows: list[list[str]]) -> None:
    if rows:
        print(f"\n{title}")
        print_columns(rows)


def _terminal(state: TerminalState) -> str:
    if state.floating:
        return "floating: no source reaches it"
    if state.volts is None:
        return f"unknown: {state.why}" if state.why else "unknown"
    return f"{abs(state.volts):.1f} V to {state.reference}"


def _unsettled(unsettled: Unsettled) -> str:
    elements = ", ".join(unsettled.elements)
    if unsettled.why == "chatter":
        return f"{elements} pull in and let go in turn"
    if unsettled.why == "race":
        return f"who moves first decides among {elements}"
    return "no settled state was found"


COMMAND = Command("solve", "Say what the circuit does in a situation, once it has settled.", _options, _run)
