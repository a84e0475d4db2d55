"""A context that is used again is as good as new: what one test kept in it the next does not find."""

from __future__ import annotations

from tests.bench.conftest import LAPTOP
from tests.bench.contexts import Contexts

KEEP = """async () => {
  localStorage.setItem("kept", "1");
  sessionStorage.setItem("kept", "1");
  document.cookie = "kept=1";
  await caches.open("kept");
  await new Promise((done) => { indexedDB.open("kept").onsuccess = done; });
}"""
FOUND = """async () => [
  ...Object.keys(localStorage), ...Object.keys(sessionStorage), document.cookie, ...await caches.keys(),
  ...(await indexedDB.databases()).map((one) => one.name),
].filter(Boolean)"""


def test_what_one_page_kept_the_next_does_not_find(contexts: Contexts, server: str) -> None:
    context = contexts.take(**LAPTOP, base_url=server)
    page = context.new_page()
    page.goto("/keys")
    page.evaluate(KEEP)
    assert page.evaluate(FOUND) == ["kept", "kept", "kept=1", "kept", "kept"]
    contexts.give_back()
    again = contexts.take(**LAPTOP, base_url=server)
    assert again is context
    page = again.new_page()
    page.goto("/keys")
    assert page.evaluate(FOUND) == []
    contexts.give_back()


def test_two_at_once_share_nothing(contexts: Contexts, server: str) -> None:
    one, other = (contexts.take(**LAPTOP, base_url=server) for _ in range(2))
    assert one is not other
    contexts.give_back()
