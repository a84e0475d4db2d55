"""All sources, found by walking the folder."""

from __future__ import annotations

import importlib
import pkgutil

import tests.outside.sources
from tests.outside.record import Check, Source


def all_sources() -> dict[str, Source]:
    """Return every source by the name of its file, sorted."""
    names = sorted(module.name for module in pkgutil.iter_modules(tests.outside.sources.__path__))
    return {name: importlib.import_module(f"tests.outside.sources.{name}").SOURCE for name in names}


def all_checks() -> dict[str, Check]:
    """Return every figure by ``source: what``.

    Raises:
        ValueError: two checks of one source have the same words.
    """
    found: dict[str, Check] = {}
    for name, source in all_sources().items():
        for check in source.checks:
            key = f"{name.replace('_', ' ')}: {check.what}"
            if key in found:
                raise ValueError(f"two checks are called {key!r}")
            found[key] = check
    return found
