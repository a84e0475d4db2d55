"""``rules``: what is checked, and the help page of each rule."""

from __future__ import annotations

import argparse

from app.checks.answers import rule_document
from app.checks.help import rule_help
from app.checks.registry import all_rules, rule_named
from app.checks.rule import Rule
from app.commands.command import Command, bad_input
from app.commands.output import add_format, print_columns, print_json


def _options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("rule", metavar="RULE", nargs="?", help="one rule, with its whole help page")
    add_format(parser)


def _run(args: argparse.Namespace) -> int:
    rules = all_rules() if args.rule is None else (_named(args.rule),)
    if args.format == "json":
        print_json({"rules": [rule_document(rule) for rule in rules]})
    elif args.rule is None:
        print_columns([[rule.severity, rule.name, rule_help(rule).title] for rule in rules], indent="")
    else:
        page = rule_help(rules[0])
        print(f"{page.name} ({page.severity})\n{page.title}")
        for heading, text in page.sections.items():
            print(f"\n{heading}\n{text}")
    return 0


def _named(name: str) -> Rule:
    try:
        return rule_named(name)
    except KeyError:
        names = ", ".join(rule.name for rule in all_rules())
        raise bad_input("rules", f"There is no rule {name}.", f"one of {names}") from None


COMMAND = Command("rules", "List the rules, or show the help page of one.", _options, _run)
