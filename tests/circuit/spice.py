"""ngspice in batch mode: decks in, complex node volts out."""

from __future__ import annotations

import re
import struct
import subprocess
from collections.abc import Mapping, Sequence
from pathlib import Path


def run_decks(folder: Path, decks: Sequence[str]) -> list[dict[str, complex]]:
    """Return the volts of every node of each deck, by the node's name, all from one run of ngspice.

    A deck ends with its ``.ac`` line; ``folder`` is a fresh one.
    """
    control = ["* decks", ".control", "set filetype=binary"]
    for at, deck in enumerate(decks):
        (folder / f"d{at}.cir").write_text(deck)
        control += [f"source {folder}/d{at}.cir", "run", f"write {folder}/d{at}.raw all", "destroy all", "remcirc"]
    (folder / "all.cir").write_text("\n".join([*control, "quit", ".endc", ".end", ""]))
    done = subprocess.run(
        ["ngspice", "-b", str(folder / "all.cir")], capture_output=True, text=True, timeout=300, check=False
    )
    missing = [at for at in range(len(decks)) if not (folder / f"d{at}.raw").exists()]
    assert not missing, f"ngspice wrote nothing for decks {missing}:\n{done.stdout[-2000:]}{done.stderr[-2000:]}"
    return [_read_raw((folder / f"d{at}.raw").read_bytes()) for at in range(len(decks))]


def _read_raw(data: bytes) -> dict[str, complex]:
    head, _, body = data.partition(b"Binary:\n")
    text = head.decode()
    names = re.findall(r"^\t\d+\t(\S+)\t", text, flags=re.MULTILINE)
    numbers = struct.unpack(f"<{2 * len(names)}d", body[: 16 * len(names)])
    values = [complex(*numbers[2 * at : 2 * at + 2]) for at in range(len(names))]
    found = {}
    for name, value in zip(names, values, strict=True):
        node = re.fullmatch(r"v\((.+)\)|(\d+)", name)
        if node is not None:
            found[node.group(1) or node.group(2)] = value
    return found


def mapped(deck: str) -> Mapping[str, str]:
    """Return the node of each terminal that the deck's map names."""
    return {
        terminal: line.split()[2]
        for line in deck.splitlines()
        if line.startswith("* map ")
        for terminal in line.split()[3:]
    }


def element_nodes(deck: str) -> dict[str, tuple[str, str]]:
    """Return the two nodes of each element of a deck, by the name in the comment before it."""
    found: dict[str, tuple[str, str]] = {}
    name = None
    for line in deck.splitlines():
        if re.fullmatch(r"\* [a-z][a-z0-9_-]*(\.[a-z0-9_]+)?", line):
            name = line[2:]
        elif name is not None and re.match(r"[rl]\d", line):
            _, a, b, _ = line.split()
            found[name] = (found[name][0], b) if name in found else (a, b)
        else:
            name = None
    return found
