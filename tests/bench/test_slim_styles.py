"""Every style sheet as it is served means to a browser what the written one does."""

from __future__ import annotations

from pathlib import Path

from app.web.slimming import slim
from tests.bench.conftest import LAPTOP, Open

STYLES = sorted((Path(__file__).resolve().parents[2] / "static" / "style").glob("*.css"))
RULES = """text => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(text);
  return [...sheet.cssRules].map((rule) => rule.cssText.replaceAll(/([,(])\\s+|\\s+(?=\\))/g, "$1"));
}"""
"""A browser keeps what has a property of its own in it as it is written, with the space after each comma."""


def test_a_browser_reads_the_same_rules(opens: Open) -> None:
    page = opens(LAPTOP).page
    assert STYLES
    for path in STYLES:
        written = path.read_bytes()
        before = page.evaluate(RULES, written.decode())
        assert len(before) > 1, path.name
        assert page.evaluate(RULES, slim(written, "text/css").decode()) == before, path.name
