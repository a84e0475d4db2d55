"""What must hold of every page in every state: what axe finds, contrast, no sideways scroll, no motion, targets."""

from __future__ import annotations

from pathlib import Path

from axe_playwright_python.base import AXE_SCRIPT

from tests.bench.hands import Hands

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
PICTURES = {"exclude": [[".demo-drawing"], [".example-drawing"]]}
"""Drawings on pages to read are hidden from readers; the words beside them say the same."""


def look(name: str) -> str:
    """Return one of the ways to look at a page, as JavaScript."""
    return (Path(__file__).parent / "looks" / f"{name}.js").read_text(encoding="utf-8")


def is_sound(hands: Hands, where: str, only: str = "") -> None:
    """Axe has nothing to say, of one of its rules or of all."""
    of = {"type": "rule", "values": [only]} if only else {"type": "tag", "values": TAGS}
    if not hands.page.evaluate("'axe' in window"):
        hands.page.evaluate(AXE_SCRIPT)
    options = {"runOnly": of, "resultTypes": ["violations"]}
    found = hands.page.evaluate("([context, options]) => axe.run(context, options)", [PICTURES, options])
    said = [(one["id"], [node["html"][:160] for node in one["nodes"][:3]]) for one in found["violations"]]
    assert said == [], f"{where}: {said}"


def is_sound_in_both_themes(hands: Hands, where: str) -> None:
    """A theme changes colours alone, so only contrast is looked at again."""
    is_sound(hands, f"{where}, light")
    is_legible(hands, f"{where}, light")
    hands.page.emulate_media(color_scheme="dark")
    is_sound(hands, f"{where}, dark", "color-contrast")
    is_legible(hands, f"{where}, dark")
    hands.page.emulate_media(color_scheme="light")


def is_legible_in_both_themes(hands: Hands, where: str) -> None:
    """Text, marks and edges have their contrast, by their computed styles, in light and dark."""
    for theme in ("dark", "light"):
        hands.page.emulate_media(color_scheme=theme)
        is_legible(hands, f"{where}, {theme}")


def is_legible(hands: Hands, where: str) -> None:
    """Text has a contrast of 4.5, marks and edges of 3, by their computed styles."""
    faults = hands.page.evaluate(look("contrast"))
    assert faults == [], f"{where}: {faults}"


def no_sideways_scroll(hands: Hands, where: str) -> None:
    """Nothing is wider than the screen."""
    assert hands.page.evaluate("document.documentElement.scrollWidth <= innerWidth"), where


def nothing_moves(hands: Hands, where: str) -> None:
    """No animation and no transition runs."""
    assert hands.page.evaluate("document.getAnimations().length") == 0, where


def targets_are(hands: Hands, least: int, where: str) -> None:
    """Everything that is tapped is that wide and high, but for words inside a sentence."""
    small = hands.page.evaluate(look("small_targets"), least)
    assert small == [], f"{where}: {small}"
