"""Every page and state, light and dark, at three widths: no violation that axe finds, legible, nothing too wide."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from tests.bench import states
from tests.bench.conftest import LAPTOP, SCREENS, Open, in_the_long_run
from tests.bench.hands import Hands
from tests.bench.soundness import (
    is_legible,
    is_legible_in_both_themes,
    is_sound,
    is_sound_in_both_themes,
    look,
    no_sideways_scroll,
    nothing_moves,
    targets_are,
)

PAGES = ("/", "/findings", "/findings/hot-to-common-short", "/kinds", "/kinds/heat-pump-unit", "/keys")
ZOOMED = {"viewport": {"width": 320, "height": 200}}
"""A laptop of 1280 by 800 at 400 %."""

Walk = Callable[[Hands], Iterator[str]]
WALKS: tuple[tuple[str, Walk], ...] = (
    ("laptop", states.walk_beginning),
    ("laptop", states.walk_sheet),
    ("laptop", states.walk_live),
    ("phone", states.walk_phone),
    ("laptop", states.walk_around),
    ("tablet", states.walk_crowded),
    ("laptop", states.walk_dialogs),
    ("phone", states.walk_hands),
)
"""Every state on one screen."""
ELSEWHERE: tuple[tuple[str, Walk], ...] = (
    ("tablet", states.walk_beginning),
    ("tablet", states.walk_sheet),
    ("tablet", states.walk_live),
    ("tablet", states.walk_around),
    ("phone", states.walk_around),
    ("phone", states.walk_following),
    ("tablet", states.walk_dialogs),
    ("laptop", states.walk_hands),
    ("tablet", states.walk_hands),
)
"""The same states on other screens."""


def named(case: str | Walk) -> str:
    return case if isinstance(case, str) else case.__name__.removeprefix("walk_")


@pytest.mark.parametrize("path", PAGES)
def test_a_page_to_read(opens: Open, path: str) -> None:
    hands = opens(LAPTOP)
    hands.page.goto(path)
    is_sound_in_both_themes(hands, path)
    nothing_moves(hands, path)


@pytest.mark.parametrize("screen", ["phone", *in_the_long_run("tablet")])
def test_pages_to_read_on_a_smaller_screen(opens: Open, screen: str) -> None:
    hands = opens(SCREENS[screen])
    for path in PAGES:
        hands.page.goto(path)
        no_sideways_scroll(hands, path)
        is_sound(hands, path)
        targets_are(hands, 24, path)


@pytest.mark.parametrize(("screen", "walk"), [*WALKS, *in_the_long_run(*ELSEWHERE)], ids=named)
def test_every_state_of_the_bench(opens: Open, screen: str, walk: Walk) -> None:
    hands = opens(SCREENS[screen], reduced_motion="reduce")
    for state in walk(hands):
        where = f"{screen}, {state}"
        is_sound(hands, where)
        is_legible_in_both_themes(hands, where)
        no_sideways_scroll(hands, where)
        nothing_moves(hands, where)
        targets_are(hands, 24, where)


@pytest.mark.slow
@pytest.mark.parametrize(("screen", "walk"), [*WALKS, *ELSEWHERE], ids=named)
def test_every_state_of_the_bench_in_the_dark(opens: Open, screen: str, walk: Walk) -> None:
    """That words stand out is read off the styles each time; axe looks at what lies under them as well."""
    hands = opens(SCREENS[screen], reduced_motion="reduce", color_scheme="dark")
    for state in walk(hands):
        is_sound(hands, f"{screen}, {state}, dark", "color-contrast")


def test_more_contrast_is_given_where_it_is_asked_for(opens: Open) -> None:
    hands = opens(LAPTOP, contrast="more")
    for state in states.walk_beginning(hands):
        is_legible(hands, state)
    heavy = hands.page.locator("#sheet .wire[stroke-width='3.5']").first
    assert heavy.evaluate("node => getComputedStyle(node).strokeWidth") == "5px"


def test_pages_to_read_at_four_times_their_size(opens: Open) -> None:
    hands = opens(ZOOMED)
    for path in PAGES:
        hands.page.goto(path)
        no_sideways_scroll(hands, path)


@pytest.mark.parametrize("walk", [states.walk_phone, *in_the_long_run(states.walk_around)], ids=named)
def test_the_bench_at_four_times_its_size(opens: Open, walk: Walk) -> None:
    hands = opens(ZOOMED)
    for state in walk(hands):
        no_sideways_scroll(hands, state)


@pytest.mark.parametrize("walk", [states.walk_sheet, *in_the_long_run(states.walk_beginning)], ids=named)
def test_text_may_be_spaced_out(opens: Open, walk: Walk) -> None:
    hands = opens(LAPTOP)
    for state in walk(hands):
        hands.page.evaluate(look("spaced_out"))
        no_sideways_scroll(hands, state)
        cut = hands.page.evaluate(look("cut_text"))
        assert cut == [], f"{state}: {cut}"


def test_marks_on_the_drawing_are_only_ink(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("bakery-flat-heat-pump"))
    colours = hands.page.eval_on_selector_all(
        "#sheet .drawing *",
        "nodes => [...new Set(nodes.flatMap(n => [n.getAttribute('fill'), n.getAttribute('stroke')]))]",
    )
    assert set(colours) <= {None, "none", "currentColor", "black", "white"}


def test_a_missing_page_is_said(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.expects_refusal = True
    reply = hands.page.goto("/kinds/perpetual-motion")
    assert reply
    assert reply.status == 404
