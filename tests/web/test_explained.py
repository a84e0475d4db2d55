"""The pages that explain rules and kinds: each shows drawings of good and bad wiring, and says what is found."""

from __future__ import annotations

import re
from html import unescape

import pytest
from flask import Flask

from app.catalogue.builtin import builtin_catalogue
from app.checks.registry import all_rules, rule_named
from app.web.example_pages import heavy, kind_examples, rule_examples

KINDS = sorted(builtin_catalogue())
RULES = [rule.name for rule in all_rules()]
EVERY_SIXTH_KIND, EVERY_SIXTH_RULE = KINDS[::6], RULES[::6]
FIGURE = re.compile(r'<figure class="example (\w+)">(.*?)</figure>', re.DOTALL)


def figures(app: Flask, path: str) -> list[tuple[str, str]]:
    """Return the examples of a page as (sort, HTML)."""
    reply = app.test_client().get(path)
    assert reply.status_code == 200
    return FIGURE.findall(reply.get_data(as_text=True))


def caption(figure: str) -> str:
    return unescape(re.sub(r"<[^>]*>", "", figure[figure.index("<figcaption>") :]))


def check_kind(app: Flask, kind: str) -> None:
    (good_sort, good), (bad_sort, bad) = figures(app, f"/kinds/{kind}")
    assert (good_sort, bad_sort) == ("good", "bad")
    title = builtin_catalogue().kind(kind).title
    for figure in (good, bad):
        assert unescape(figure).count("<svg") == 1
        assert title.split(",")[0] in unescape(figure)
    assert 'class="found' not in good
    words = caption(bad)
    assert all(said in words for said in kind_examples(kind)[1].said)
    assert len(kind_examples(kind)[1].said) >= 1
    rule = kind_examples(kind)[1].rule
    assert f'href="/findings/{rule}"' in bad


def check_rule(app: Flask, name: str) -> None:
    rule = rule_named(name)
    shown = figures(app, f"/findings/{name}")
    assert [sort for sort, _ in shown].count("bad") == len(rule.bad)
    assert len(shown) == len(rule.bad) + len(rule.good)
    for (sort, figure), example in zip(shown, rule_examples(name), strict=True):
        assert figure.count("<svg") == 1
        assert all(said in caption(figure) for said in example.said)
        assert bool(example.said) == (sort == "bad")


@pytest.mark.parametrize("kind", EVERY_SIXTH_KIND)
def test_a_kind_is_drawn_sound_and_with_a_finding(app: Flask, kind: str) -> None:
    check_kind(app, kind)


@pytest.mark.parametrize("name", EVERY_SIXTH_RULE)
def test_every_example_of_a_rule_is_drawn_and_the_bad_ones_say_what_is_found(app: Flask, name: str) -> None:
    check_rule(app, name)


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_all_kinds_are_drawn(app: Flask, kind: str) -> None:
    check_kind(app, kind)


@pytest.mark.slow
@pytest.mark.parametrize("name", RULES)
def test_all_rules_are_drawn(app: Flask, name: str) -> None:
    check_rule(app, name)


def test_what_a_finding_names_is_drawn_heavy(app: Flask) -> None:
    found = [figure for sort, figure in figures(app, "/findings/hot-to-common-short") if sort == "bad"]
    assert all('class="found conductor"' in figure for figure in found)


def test_a_drawing_on_a_page_is_the_same_each_time_it_is_made() -> None:
    first = [example.drawing for example in rule_examples("sources-joined")]
    rule_examples.cache_clear()
    assert [example.drawing for example in rule_examples("sources-joined")] == first


def test_only_what_is_named_is_marked() -> None:
    svg = '<g class="conductor" data-conductor="w1"/><g class="part" data-box="1 2" data-part="fb"/>'
    assert heavy(svg, ["conductor:w1"]).count("found") == 1
    assert heavy(svg, ["part:fb", "conductor:w1"]).count("found") == 2
    assert heavy(svg, ["part:w1"]) == svg
