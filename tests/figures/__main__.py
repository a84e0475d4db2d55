"""Prints every figure: `make figures`, or `python -m tests.figures NAME...` for some."""

from __future__ import annotations

import importlib
import pkgutil
import sys

import tests.figures
from tests.figures.measure import yardstick

SUPPORT = {"anew", "measure", "jobs", "slowed", "zones", "__main__"}


def main(wanted: list[str]) -> None:
    """Run the modules of figures, in the order of their names."""
    print(f"yardstick: 200,000 square roots in pure Python take {yardstick().ms()}", flush=True)
    names = sorted(module.name for module in pkgutil.iter_modules(tests.figures.__path__))
    for name in names:
        if name in SUPPORT or (wanted and name not in wanted):
            continue
        print(f"\n{name}", flush=True)
        for line in importlib.import_module(f"tests.figures.{name}").figures():
            print(f"  {line}", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
