"""The placed widths against what a real browser shows, and the exported file on its own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.drawing.connection.diagram import draw_connection
from tests.demo_jobs.demos import demo, layouts

INSIDES_OF = "post-office-dual-fuel"
BOXES = """() => {
const natural = text => {
  const bare = text.cloneNode(true);
  bare.removeAttribute('textLength');
  text.parentNode.appendChild(bare);
  const width = bare.getComputedTextLength();
  bare.remove();
  return width;
};
return [...document.querySelectorAll('text')].map(text => {
  const box = text.getBoundingClientRect();
  return {words: text.textContent, said: Number(text.getAttribute('textLength')), long: text.getComputedTextLength(),
          natural: natural(text),
          left: box.left, top: box.top, right: box.right, bottom: box.bottom};
});
}"""


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    opened = browser.new_page(viewport={"width": 1600, "height": 1200})
    yield opened
    opened.close()


def drawings() -> Iterator[tuple[str, str]]:
    """Yield each demo by name with its drawing in its last situation, the busiest for words."""
    for name, layout_name in layouts():
        opened = demo(name)
        layout = opened.job.layouts[layout_name]
        situation = situations_of(layout, opened.catalogue)[-1]
        point = solve(build_circuit(layout, opened.catalogue), situation)
        yield name, draw_connection(opened.job, layout_name, opened.catalogue, point=point, situation_words="a call")
        if name == INSIDES_OF:
            words = f"{name} with insides"
            yield words, draw_connection(opened.job, layout_name, opened.catalogue, point=point, insides=True)


def test_no_words_overlap_and_none_is_squeezed_in_chromium(page: Page) -> None:
    for name, drawing in drawings():
        page.set_content(f"<body>{drawing}</body>")
        texts = page.evaluate(BOXES)
        assert texts, name
        for text in texts:
            # A width is the natural one rounded up, so that words are never squeezed; they are hardly stretched, by
            # as much as Chromium moves pairs of letters together.
            assert 0.97 * text["said"] - 1 <= text["natural"] <= text["said"] + 0.01, (name, text)
            assert abs(text["long"] - text["said"]) < 0.1, (name, text)
        texts.sort(key=lambda text: text["left"])
        for number, one in enumerate(texts):
            for other in texts[number + 1 :]:
                if other["left"] >= one["right"]:
                    break
                apart = one["bottom"] <= other["top"] + 0.2 or other["bottom"] <= one["top"] + 0.2
                assert apart or other["left"] > one["right"] - 0.2, (name, one, other)


def test_an_exported_drawing_stands_alone(page: Page, tmp_path: Path) -> None:
    opened = demo("bell-loft-heat-only")
    file = tmp_path / "drawing.svg"
    file.write_text(draw_connection(opened.job, "as-left", opened.catalogue), encoding="utf-8")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(file.as_uri())
    assert page.evaluate("document.documentElement.getBBox().width") > 500
    assert page.evaluate("getComputedStyle(document.querySelector('path[stroke]')).stroke") == "rgb(0, 0, 0)"
    assert asked == [file.as_uri()]
