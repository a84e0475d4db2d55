"""What tests of several rooms share: one browser a worker, since Playwright can be started only once in a process."""

from __future__ import annotations

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, sync_playwright


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what drives a browser, so that it can be chosen or left out."""
    for item in items:
        if "browser" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start the system's Chromium where there is one, else the one that Playwright brought."""
    with sync_playwright() as playwright:
        chromium = shutil.which("chromium") or shutil.which("chromium-browser")
        started = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox", "--disable-gpu"])
        yield started
        started.close()
