"""``kinds``: which parts there are, and the whole of one."""

from __future__ import annotations

import argparse

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.kind import Kind
from app.commands.command import Command, bad_input
from app.commands.output import add_format, print_columns, print_json


def _options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("kind", metavar="KIND", nargs="?", help="one kind, with its terminals and what can be set")
    add_format(parser)


def _run(args: argparse.Namespace) -> int:
    catalogue = builtin_catalogue()
    if args.kind is not None and args.kind not in catalogue:
        raise bad_input("kinds", f"There is no kind {args.kind}.", f"one of {', '.join(sorted(catalogue))}")
    names = sorted(catalogue) if args.kind is None else [args.kind]
    if args.format == "json":
        print_json({"kinds": {name: _document(catalogue.kind(name)) for name in names}})
    elif args.kind is None:
        print_columns([[name, catalogue.kind(name).title] for name in names], indent="")
    else:
        _print(args.kind, catalogue.kind(args.kind))
    return 0


def _document(kind: Kind) -> dict[str, object]:
    """A kind as a job may bring it along, without what it does not say."""
    return kind.model_dump(mode="json", by_alias=True, exclude_unset=True)


def _print(name: str, kind: Kind) -> None:
    print(f"{name}: {kind.title}\n{kind.summary}")
    for caution in kind.cautions:
        print(f"Caution: {caution}")
    _print_table("Terminals", [[letter, one.function, one.use] for letter, one in kind.terminals.items()])
    _print_table("Calls", [[call, one.use] for call, one in kind.calls.items()])
    settings = [
        [setting, str(one.default), ", ".join(str(choice) for choice in one.choices), one.use]
        for setting, one in kind.settings.items()
    ]
    _print_table("Settings (default, choices)", settings)
    switches = [[switch, one.rest, ", ".join(one.positions), one.use] for switch, one in kind.switches.items()]
    _print_table("Switches (at rest, positions)", switches)
    _print_table("Jumpers (as fitted)", [[jumper, one.rest, one.use] for jumper, one in kind.jumpers.items()])
    _print_table("Effects", [[effect, f"when {term}"] for effect, term in kind.effects.items()])


def _print_table(title: str, rows: list[list[str]]) -> None:
    if rows:
        print(f"\n{title}")
        print_columns(rows)


COMMAND = Command("kinds", "List the kinds of part, or show one.", _options, _run)
