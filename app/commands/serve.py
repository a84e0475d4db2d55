"""``serve``: the bench in the browser."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.commands.command import Command, bad_input


def _options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--host", default="127.0.0.1", help="address to bind (127.0.0.1: this machine only)")
    parser.add_argument("--port", type=int, default=8024, help="port (8024; 0 takes a free one)")
    parser.add_argument("--data", type=Path, default=Path("data"), metavar="DIR", help="where the jobs are kept (data)")
    parser.add_argument(
        "--allow-host", action="append", default=[], metavar="NAME", help="a further name to answer to; repeatable"
    )


def _run(args: argparse.Namespace) -> int:
    # The web server is imported here so that the other commands start without it.
    from app.web.serving import serve

    try:
        serve(args.host, args.port, args.data, args.allow_host)
    except KeyboardInterrupt:
        print("Stopped.")
    except (OSError, OverflowError) as error:
        where = f"{args.host}:{args.port}, {args.data}"
        raise bad_input(
            where, f"Cannot serve: {error}.", "a free port (--port) and a folder to write (--data)"
        ) from error
    return 0


COMMAND = Command("serve", "Serve the bench and the API.", _options, _run)
