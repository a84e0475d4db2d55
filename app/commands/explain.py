"""``explain``: why something runs or does not, or what a conductor is for."""

from __future__ import annotations

import argparse

from app.commands.asked import asked
from app.commands.command import BadInput, Command
from app.commands.job_file import add_job, add_layout
from app.commands.output import add_format, print_json
from app.commands.situation_options import add_situation, situation_words
from app.explain.documents import explained_document
from app.explain.explain import explain
from app.job.refusal import Refused

SUBJECT = "part:ou, element:ou.contactor, conductor:w3, or an effect such as ou:compressor"


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    parser.add_argument("subject", metavar="SUBJECT", help=f"what to explain: {SUBJECT}")
    add_layout(parser)
    add_format(parser)
    add_situation(parser)


def _run(args: argparse.Namespace) -> int:
    what = asked(args)
    try:
        explained = explain(what.circuit, what.situation, args.subject, what.job.job.settings.units)
    except Refused as refused:
        raise BadInput(f"{args.job}: layout {what.layout}", refused) from refused
    if args.format == "json":
        print_json(explained_document(explained))
        return 0
    if explained.purpose is None:
        situation = situation_words(args, what.job.job.settings.units)
        print(f"{what.job.job.title}\nLayout {what.layout}, situation: {situation}\n")
    print("\n".join(explained.words))
    return 0


COMMAND = Command("explain", "Say why something runs or does not, or what a wire is for.", _options, _run)
