"""The page that lists every check against the outside world, made from the records."""

from __future__ import annotations

from collections.abc import Iterator

from tests.outside.record import Source
from tests.outside.registry import all_sources

HEAD = """\
# Held against the outside world

Made by `python -m tests.outside > tests/outside/README.md`; a test holds this page against the records.

Each figure below was set down from its source before the program was asked, and each is a test. How sure a source is
stands beside it in the words of the project's handbook: *published (seen)* was read; *secondary* was read as quoted
elsewhere; *from memory* was not read again; *common practice* has no source that can be named; *calculated* follows
from other rows by arithmetic that can be repeated.
"""


def page() -> str:
    """Return the page as Markdown."""
    sources = all_sources()
    figures = sum(len(source.checks) for source in sources.values())
    methods = sum(len(source.methods) for source in sources.values())
    otherwise = sum(len(source.otherwise) for source in sources.values())
    counted = f"{figures} figures and {methods} methods from {len(sources)} sources"
    lines = [HEAD, f"{counted}; {otherwise} figures where the program is known to answer otherwise.\n"]
    for source in sources.values():
        lines += _section(source)
    return "\n".join(lines)


def _section(source: Source) -> Iterator[str]:
    yield f"## {source.title}\n"
    yield f"How sure: {source.status}. What the program is asked: {source.how}.\n"
    if source.note:
        yield f"{source.note}\n"
    if source.checks:
        yield from _table(
            ("figure", "expected", "tolerance", "how sure"),
            [(check.what, *check.expected.told(), check.status or source.status) for check in source.checks],
        )
    if source.otherwise:
        yield "Known to be otherwise here:\n"
        yield from _table(
            ("figure", "source", "the program", "why"),
            [(each.what, each.theirs.told()[0], each.instead.told()[0], each.why) for each in source.otherwise],
        )
    if source.methods:
        yield from _table(
            ("method", "test", "tolerance", "how sure"),
            [(each.what, f"`{each.test}`", each.tolerance, each.status or source.status) for each in source.methods],
        )


def _table(head: tuple[str, ...], rows: list[tuple[str, ...]]) -> Iterator[str]:
    yield "| " + " | ".join(head) + " |"
    yield "| " + " | ".join("---" for _ in head) + " |"
    for row in rows:
        yield "| " + " | ".join(cell.replace("|", "\\|") for cell in row) + " |"
    yield ""
