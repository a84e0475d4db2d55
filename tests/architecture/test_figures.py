"""Every module of figures has figures, so that `make figures` does not stop half way."""

from __future__ import annotations

import importlib
import pkgutil

import pytest

import tests.figures
from tests.figures.__main__ import SUPPORT

MODULES = sorted({module.name for module in pkgutil.iter_modules(tests.figures.__path__)} - SUPPORT)


@pytest.mark.parametrize("name", MODULES)
def test_a_module_of_figures_has_figures(name: str) -> None:
    assert callable(importlib.import_module(f"tests.figures.{name}").figures)
