"""How the symbols are found: every module of ``families`` lists those of its family in ``SYMBOLS``."""

from __future__ import annotations

import importlib
import pkgutil
from functools import lru_cache

import app.drawing.symbols.families
from app.drawing.symbols.symbol import Symbol


@lru_cache(maxsize=1)
def all_symbols() -> dict[str, Symbol]:
    """Return every symbol by its name, sorted.

    Raises:
        TypeError: two symbols have one name.
    """
    found: dict[str, Symbol] = {}
    package = app.drawing.symbols.families
    for module in pkgutil.iter_modules(package.__path__, f"{package.__name__}."):
        symbols: tuple[Symbol, ...] = importlib.import_module(module.name).SYMBOLS
        for symbol in symbols:
            if symbol.name in found:
                raise TypeError(f"the symbol name {symbol.name} is taken")
            found[symbol.name] = symbol
    return {name: found[name] for name in sorted(found)}


def symbol_named(name: str) -> Symbol:
    """Return the symbol of this name.

    Raises:
        KeyError: there is none.
    """
    return all_symbols()[name]
