"""``serve``: the bench in the browser."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.commands.command import Command, bad_input


def _options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--host",
        default="127.0.0.1",
        help="address to bind (127.0.0.1: this machine only; any other asks everybody for a key, which is printed)",
    )
    parser.add_argument("--port", type=_port, default=8024, help="port (8024; 0 takes a free one)")
    parser.add_argument("--data", type=Path, default=Path("data"), metavar="DIR", help="where the jobs are kept (data)")
    parser.add_argument(
        "--allow-host", action="append", default=[], metavar="NAME", help="a further name to answer to; repeatable"
    )
    parser.add_argument("--new-key", action="store_true", help="make another key, which everybody has to give anew")


def _run(args: argparse.Namespace) -> int:
    # The web server is imported here so that the other commands start without it.
    from app.web.serving import serve

    try:
        serve(args.host, args.port, args.data, args.allow_host, renew_key=args.new_key)
    except OSError as error:
        where = f"{args.host}:{args.port}, {args.data}"
        raise bad_input(
            where, f"Cannot serve: {error}.", "a free port (--port) and a folder to write (--data)"
        ) from error
    print("Stopped.")
    return 0


def _port(text: str) -> int:
    # The sockets of some systems take a larger number and bind what is left of it.
    port = int(text)
    if not 0 <= port <= 65535:
        raise ValueError
    return port


COMMAND = Command("serve", "Serve the bench and the API.", _options, _run)
