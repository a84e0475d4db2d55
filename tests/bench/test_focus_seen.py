"""Wherever Tab goes, focus is drawn, lies on the screen and is not covered, and Tab comes round again."""

from __future__ import annotations

import pytest

from tests.bench import states
from tests.bench.conftest import LAPTOP, SCREENS, Open, in_the_long_run
from tests.bench.soundness import look

MOST_STOPS = 220


@pytest.mark.parametrize("screen", ["laptop", "phone", *in_the_long_run("tablet")])
def test_focus_is_drawn_and_never_covered(opens: Open, screen: str) -> None:
    hands = opens(SCREENS[screen])
    hands.open_job(hands.copy_demo(states.DEMO))
    hands.press("Tab")
    first = hands.page.evaluate(look("focus"))["name"]
    seen = [first]
    for _ in range(MOST_STOPS):
        hands.press("Tab")
        focus = hands.page.evaluate(look("focus"))
        assert focus["drawn"], f"{focus['name']} shows that it has focus"
        assert focus["clear"], f"{focus['name']} is covered or off the screen"
        if focus["name"] == first:
            break
        seen.append(focus["name"])
    assert seen[-1] != seen[0], "Tab goes on"
    assert len(seen) < MOST_STOPS, "Tab comes round"
    assert len(seen) > 12


def test_the_first_stop_leads_past_the_head(opens: Open) -> None:
    hands = opens(LAPTOP)
    for path in ("/", "/findings", "/kinds", "/keys"):
        hands.page.goto(path)
        hands.press("Tab", "Enter")
        assert hands.focused() == "content", path
    hands.open_job(hands.copy_demo(states.DEMO))
    hands.press("Tab", "Enter", "Tab")
    assert hands.focused().startswith(("part:", "sheet")), "on the sheet"
