"""The bench in a Chromium whose processor is slowed, and what that Chromium says of its own pace."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Browser, CDPSession, Page, expect, sync_playwright

from tests.bench.hands import Hands

SCREEN = {"width": 1280, "height": 800}
WINDOW = {"width": 1280, "height": 1000}
"""The browser's own bars stand above the page. What of it lies below a window of the page's size is never drawn, and
what is never drawn counts as not painted, for as long as nothing else changes."""
LONGEST_WAIT_MS = 30_000
SLOWED = 4
"""How many times slower than this machine a person's own is taken to be."""

FIRST_DRAWING = """
addEventListener("click", (event) => sessionStorage.setItem("clicked", performance.timeOrigin + event.timeStamp), true);
const look = () => {
  const drawn = document.querySelector("#sheet svg [data-part]") !== null;
  requestAnimationFrame(drawn ? () => { globalThis.drawnAt = performance.timeOrigin + performance.now(); } : look);
};
look();
"""
"""Notes when something was clicked, and when the frame after the one with the first drawing begins."""

WATCH = """
globalThis.slowest = new Map();
new PerformanceObserver((list) => {
  for (const { interactionId: id, duration, name } of list.getEntries()) {
    if (id && duration > (slowest.get(id)?.duration ?? 0)) slowest.set(id, { duration, name });
  }
}).observe({ type: "event", durationThreshold: 16, buffered: true });
globalThis.longTasks = [];
new PerformanceObserver((list) => longTasks.push(...list.getEntries().map((entry) => entry.duration)))
  .observe({ type: "longtask", buffered: true });
"""
"""Keeps the slowest event of each interaction, and how long the long tasks were."""

FRAMES = """
() => {
  globalThis.frames = [];
  let last = performance.now();
  globalThis.counting = true;
  const frame = (now) => { frames.push(now - last); last = now; if (counting) requestAnimationFrame(frame); };
  requestAnimationFrame((now) => { last = now; requestAnimationFrame(frame); });
}
"""

PAINTED = """
() => new Promise((done) => {
  const frame = (left) => requestAnimationFrame(() => requestIdleCallback(() => (left > 0 ? frame(left - 1) : done())));
  frame(1);
})
"""
"""Ends after two frames, each with a moment in which nothing was left to do."""

YARDSTICK = """
() => {
  const start = performance.now();
  let sum = 0;
  for (let round = 0; round < 20; round += 1) {
    for (let number = 0; number < 200000; number += 1) sum += Math.sqrt(number);
  }
  return (performance.now() - start) / 20 + 0 * sum;
}
"""


@dataclass(frozen=True)
class Slowed:
    """A page that is slowed, with hands to work on it."""

    page: Page
    hands: Hands
    tools: CDPSession

    def yardstick_ms(self) -> float:
        """Return how long 200,000 square roots take in this page."""
        found: float = self.page.evaluate(YARDSTICK)
        return found

    @contextmanager
    def saved(self) -> Iterator[None]:
        """Do something that sends one patch, and wait for its answer without keeping the page busy by asking."""
        revision = self.hands.revision()
        yield
        self.page.wait_for_function(
            "now => Number(document.querySelector('#bench').dataset.revision) === now", arg=revision + 1
        )

    def wait_until_painted(self) -> None:
        """Wait until what has come is on the screen: two frames in which the page found time for more."""
        self.page.evaluate(PAINTED)

    def count_frames(self) -> None:
        """Begin to note how long each frame takes."""
        self.page.evaluate(FRAMES)

    def frames_ms(self) -> list[float]:
        """Stop, and return the times from frame to frame."""
        found: list[float] = self.page.evaluate("() => { counting = false; return frames; }")
        return found

    def held(self) -> tuple[int, int]:
        """Return the nodes that the document or anybody holds, and their listeners, after rubbish was collected."""
        self.tools.send("HeapProfiler.collectGarbage")
        found = self.tools.send("Memory.getDOMCounters")
        return found["nodes"], found["jsEventListeners"]


@contextmanager
def chromium() -> Iterator[Browser]:
    """Start the system's Chromium where there is one, else the one that Playwright brought."""
    expect.set_options(timeout=LONGEST_WAIT_MS)
    with sync_playwright() as playwright:
        path = shutil.which("chromium") or shutil.which("chromium-browser")
        started = playwright.chromium.launch(executable_path=path, args=["--no-sandbox", "--disable-gpu"])
        yield started
        started.close()


@contextmanager
def slowed_page(browser: Browser, server: str, factor: float = SLOWED) -> Iterator[Slowed]:
    """Open a page with nothing kept from any other, slowed so many times."""
    context = browser.new_context(base_url=server, viewport=SCREEN)  # type: ignore[arg-type]
    context.add_init_script(FIRST_DRAWING)
    page = context.new_page()
    page.set_default_timeout(LONGEST_WAIT_MS)
    tools = context.new_cdp_session(page)
    window = tools.send("Browser.getWindowForTarget")["windowId"]
    tools.send("Browser.setWindowBounds", {"windowId": window, "bounds": WINDOW})
    tools.send("Emulation.setCPUThrottlingRate", {"rate": factor})
    yield Slowed(page, Hands(page, server), tools)
    context.close()


def transferred(tools: CDPSession) -> dict[str, list[float]]:
    """Return what will hold the bytes of each answer, as they came over the line, with its headers."""
    kinds: dict[str, str] = {}
    bytes_by_kind: dict[str, list[float]] = {}

    def named(said: Any) -> None:
        kinds[said["requestId"]] = said["type"]

    def came(said: Any) -> None:
        bytes_by_kind.setdefault(kinds.get(said["requestId"], "other"), []).append(said["encodedDataLength"])

    tools.on("Network.responseReceived", named)
    tools.on("Network.loadingFinished", came)
    tools.send("Network.enable")
    return bytes_by_kind
