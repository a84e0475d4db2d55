"""Puts other code into functions that are already imported, so that nothing is imported or collected again for it.

Whoever holds a function goes on holding it; only the code that it runs is another. So what was worked out with the
code as it was must be forgotten, wherever the rooms keep it: in caches of functions, and in collections of a module
whose names are written small.
"""

from __future__ import annotations

import gc
import sys
from collections import defaultdict
from collections.abc import Mapping, MutableMapping, Sequence
from importlib import import_module
from pkgutil import walk_packages
from types import CodeType, FunctionType

from tests.mutation.mutants import ROOMS, ROOT, Mutant, Place, mutated_codes, probed_codes

PROBE = "_statement_of_a_mutant_runs"

Living = dict[tuple[str, Place], list[FunctionType]]


def living_functions() -> Living:
    """Import what the rooms import only when they need it; return every function, by its file and its place in it."""
    for package in (import_module(room.replace("/", ".")) for room in ROOMS):
        for found_module in walk_packages(package.__path__, f"{package.__name__}."):
            import_module(found_module.name)
    rooms = tuple(f"{ROOT}/{room}/" for room in ROOMS)
    found: Living = defaultdict(list)
    for each in gc.get_objects():
        if isinstance(each, FunctionType) and each.__code__.co_filename.startswith(rooms):
            code = each.__code__
            found[code.co_filename, (code.co_qualname, code.co_firstlineno)].append(each)
    return found


def put_in(mutant: Mutant, living: Living) -> None:
    """Let the functions of the mutant's module run as if it were written there."""
    _put_in(mutant.path, mutated_codes(mutant), living)


def put_in_probes(mutants: Sequence[Mutant], living: Living) -> None:
    """Let functions call ``PROBE`` before what a mutant breaks, with its number."""
    modules: dict[str, dict[int, Mutant]] = defaultdict(dict)
    for number, mutant in enumerate(mutants):
        modules[mutant.path][number] = mutant
    for path, of_module in modules.items():
        _put_in(path, probed_codes(path, of_module, PROBE), living)


def forget() -> None:
    """Forget what modules of the rooms keep from one question to the next."""
    names = tuple(room.replace("/", ".") for room in ROOMS)
    for module in [module for name, module in sys.modules.items() if name.startswith(names)]:
        for name, value in vars(module).items():
            if hasattr(value, "cache_clear"):
                value.cache_clear()
            elif name.islower() and not name.startswith("__") and isinstance(value, MutableMapping):
                value.clear()


def _put_in(path: str, codes: Mapping[Place, CodeType], living: Living) -> None:
    for place, code in codes.items():
        for function in living.get((str(ROOT / path), place), ()):
            if function.__code__ != code:
                function.__code__ = code
