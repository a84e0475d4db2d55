"""How commands print: JSON as one object and nothing else, text in columns, files whole or not at all."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from app.commands.command import bad_input


def add_format(parser: argparse.ArgumentParser, *more: str) -> None:
    """Let a command print as text or as JSON, or as one of ``more``."""
    parser.add_argument("--format", choices=("text", "json", *more), default="text", help="how to print (text)")


def print_json(value: Any) -> None:
    """Print one JSON object."""
    json.dump(value, sys.stdout, ensure_ascii=False, allow_nan=False, indent=2)
    print()


def print_columns(rows: Sequence[Sequence[str]], indent: str = "  ") -> None:
    """Print rows of words in columns."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for row in rows:
        line = "  ".join(word.ljust(width) for word, width in zip(row, widths, strict=True))
        print((indent + line).rstrip())


def write_out(out: str, text: str) -> None:
    """Write ``text`` to the file ``out`` as UTF-8, or to stdout where it is ``-``.

    Raises:
        BadInput: the file cannot be written.
    """
    if out == "-":
        print(text, end="" if text.endswith("\n") else "\n")
        return
    try:
        Path(out).write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        raise bad_input(out, f"The file cannot be written: {error.strerror}.", "a path that can be written") from error


def write_bytes(out: str, data: bytes) -> None:
    """Write ``data`` to the file ``out``.

    Raises:
        BadInput: the file cannot be written.
    """
    try:
        Path(out).write_bytes(data)
    except OSError as error:
        raise bad_input(out, f"The file cannot be written: {error.strerror}.", "a path that can be written") from error
