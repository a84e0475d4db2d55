"""What tests of several rooms share: one browser a worker, since Playwright can be started only once in a process."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator

import hypothesis
import pytest
from playwright.sync_api import Browser, sync_playwright

# A busy machine fails no test: being slow is told by the figures. The usual run tries the same examples each time, so
# that what fails has been broken; the long run looks for what nobody has thought of.
hypothesis.settings.register_profile("usual", max_examples=50, derandomize=True, database=None, deadline=None)
hypothesis.settings.register_profile("long", deadline=None)
# A mutant is noticed by its first failure: nothing is gained by finding the smallest one. Being slow is no failure.
hypothesis.settings.register_profile(
    "mutation",
    phases=(hypothesis.Phase.explicit, hypothesis.Phase.generate),
    derandomize=True,
    database=None,
    deadline=None,
    suppress_health_check=[hypothesis.HealthCheck.too_slow],
)


def pytest_configure(config: pytest.Config) -> None:
    """Take the examples of the usual or of the long run, before any test is read."""
    if not config.getoption("--hypothesis-profile"):
        hypothesis.settings.load_profile("usual" if config.option.markexpr == "not slow" else "long")


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


@pytest.fixture
def tell(record_property: Callable[[str, object], None]) -> Callable[[str], None]:
    """Return what a test tells a figure with; all that was told stands at the end of the run."""

    def tell_once(text: str) -> None:
        record_property("told", text)

    return tell_once


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print what tests told."""
    reports = [report for reports in terminalreporter.stats.values() for report in reports]
    told = {text for report in reports for word, text in getattr(report, "user_properties", ()) if word == "told"}
    if told:
        terminalreporter.section("figures told by tests")
        for text in sorted(told):
            terminalreporter.write_line(text)
