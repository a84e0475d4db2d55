"""Browser contexts that one test after the other is given, emptied of all that pages have kept.

To open the bench in a new context costs half as much again as in one that has opened it before, since its scripts are
compiled anew, and most tests do little else than open it and look.
"""

from __future__ import annotations

from playwright.sync_api import Browser, BrowserContext, Page

KEPT = "cache_storage,cookies,indexeddb,local_storage,service_workers"
"""What pages can leave behind, in the words of the DevTools protocol."""


class Contexts:
    """Contexts by how they were made. Who takes two of one sort in one test has two browsers that share nothing."""

    def __init__(self, browser: Browser, origin: str) -> None:
        self._browser, self._origin = browser, origin
        self._free: dict[str, list[BrowserContext]] = {}
        self._taken: list[tuple[str, BrowserContext]] = []
        self._keepers: dict[BrowserContext, Page] = {}

    def take(self, **made: object) -> BrowserContext:
        """Return a context made so, in which nothing is open and nothing is kept."""
        sort = repr(sorted(made.items()))
        free = self._free.setdefault(sort, [])
        context = free.pop() if free else self._new(made)
        self._taken.append((sort, context))
        return context

    def give_back(self) -> None:
        """Close the pages of all contexts that were taken, and empty them for the next."""
        for sort, context in self._taken:
            keeper = self._keepers[context]
            for page in context.pages:
                if page != keeper:
                    page.close()
            protocol = context.new_cdp_session(keeper)
            protocol.send("Storage.clearDataForOrigin", {"origin": self._origin, "storageTypes": KEPT})
            protocol.detach()
            self._free[sort].append(context)
        self._taken.clear()

    def close(self) -> None:
        """Close all contexts."""
        for context in self._keepers:
            context.close()

    def _new(self, made: dict[str, object]) -> BrowserContext:
        context = self._browser.new_context(**made)  # type: ignore[arg-type]
        # What the scripts were compiled to lives as long as some page of the context does.
        self._keepers[context] = context.new_page()
        return context
