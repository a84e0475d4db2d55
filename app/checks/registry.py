"""How the rules are found: every module of this package that is not machinery is exactly one rule.

Nothing lists the rules by hand. A module that is neither machinery nor a whole rule, a file whose name is not its
rule's name, and a name that is used twice all fail here, at the first call.
"""

from __future__ import annotations

import importlib
import pkgutil
from functools import lru_cache
from types import ModuleType

import app.checks
from app.checks.rule import Rule

MACHINERY = frozenset(
    {
        "accepting",
        "advice",
        "answers",
        "check",
        "context",
        "facts",
        "finding",
        "fixes",
        "folding",
        "help",
        "outcome",
        "registry",
        "rule",
        "samples",
        "setup_trial",
        "shown",
        "sneak_samples",
        "told",
    }
)
"""The modules of this package that are not rules."""

RETIRED: frozenset[str] = frozenset()
"""Names of rules that are gone; a name is never used for a second meaning."""


@lru_cache(maxsize=1)
def all_rules() -> tuple[Rule, ...]:
    """Return every rule, sorted by name.

    Raises:
        TypeError: a module of the package is not a whole rule, or its name is taken, retired or not that of its file.
    """
    found: dict[str, Rule] = {}
    for module in sorted(pkgutil.iter_modules(app.checks.__path__), key=lambda each: each.name):
        if module.name in MACHINERY:
            continue
        rule = _rule_in(importlib.import_module(f"{app.checks.__name__}.{module.name}"), module.name)
        if rule.name in found or rule.name in RETIRED:
            raise TypeError(f"the rule name {rule.name} is taken")
        found[rule.name] = rule
    return tuple(found[name] for name in sorted(found))


def rule_named(name: str) -> Rule:
    """Return one rule.

    Raises:
        KeyError: there is no rule of this name.
    """
    for rule in all_rules():
        if rule.name == name:
            return rule
    raise KeyError(name)


def _rule_in(module: ModuleType, file_name: str) -> Rule:
    try:
        rule = Rule(
            name=module.NAME,
            severity=module.SEVERITY,
            text=module.__doc__ or "",
            good=tuple(module.GOOD),
            bad=tuple(module.BAD),
            check=module.check,
            together=getattr(module, "TOGETHER", ""),
        )
    except AttributeError as missing:
        raise TypeError(f"app/checks/{file_name}.py is no whole rule: {missing}") from missing
    if rule.name.replace("-", "_") != file_name:
        raise TypeError(f"app/checks/{file_name}.py declares the rule {rule.name}; both need one name")
    return rule
