"""The little language of states: what it reads, what it means, what it refuses."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import (
    Both,
    Compared,
    Constant,
    Counted,
    Either,
    Latched,
    Named,
    Not,
    Timed,
    Tree,
    Value,
    amount_of,
    holds,
    names_in,
    timers_in,
    untimed_names_in,
)
from app.job.refusal import Refused

NAMES = ("a", "b", "heat_call", "cool-1")
TRUTHS = st.fixed_dictionaries({name: st.booleans() for name in NAMES})

constants = st.booleans().map(Constant)
names = st.sampled_from(NAMES).map(Named)
numbers = st.integers(-50, 50).map(float).map(Constant)
comparisons = st.builds(
    Compared, st.just(Named("outdoor_c")), st.sampled_from(["==", "!=", "<", "<=", ">", ">="]), numbers
)
amounts = st.integers(0, 900).map(float) | st.just("off_delay")
trees: st.SearchStrategy[Tree] = st.recursive(
    constants | names | comparisons,
    lambda inner: st.one_of(
        st.builds(Not, inner),
        st.builds(Both, inner, inner),
        st.builds(Either, inner, inner),
        st.builds(Timed, st.sampled_from(["after", "hold", "apart", "up_to"]), inner, amounts),
        st.builds(Counted, st.sampled_from(["summed", "times"]), inner, amounts, inner),
        st.builds(Latched, inner, inner),
    ),
    max_leaves=12,
)


def text_of(tree: Tree) -> str:
    """Return a tree as text with a bracket around everything."""
    match tree:
        case Constant(value):
            return str(value).lower() if isinstance(value, bool) else f"{value:g}"
        case Named(name):
            return name
        case Not(inner):
            return f"not ({text_of(inner)})"
        case Both(left, right):
            return f"({text_of(left)}) and ({text_of(right)})"
        case Either(left, right):
            return f"({text_of(left)}) or ({text_of(right)})"
        case Compared(left, operator, right):
            return f"{text_of(left)} {operator} {text_of(right)}"
        case Timed(function, inner, seconds):
            return f"{function}({text_of(inner)}, {amount_text(seconds)} s)"
        case Counted(function, inner, amount, reset_by):
            unit = " s" if function == "summed" else ""
            return f"{function}({text_of(inner)}, {amount_text(amount)}{unit}, {text_of(reset_by)})"
        case Latched(set_by, reset_by):
            return f"latch({text_of(set_by)}, {text_of(reset_by)})"


def amount_text(amount: float | str) -> str:
    return amount if isinstance(amount, str) else f"{amount:g}"


@given(trees)
def test_reading_gives_back_the_tree_that_was_written(tree: Tree) -> None:
    assert parse_term(text_of(tree)) == tree


words = st.recursive(
    st.sampled_from(["a", "b", "heat_call"]),
    lambda inner: st.one_of(
        inner.map(lambda x: f"not {x}"),
        st.tuples(inner, st.sampled_from(["and", "or"]), inner).map(" ".join),
        inner.map(lambda x: f"({x})"),
    ),
    max_leaves=16,
)


@given(words, TRUTHS)
def test_and_or_not_bind_as_python_binds_them(text: str, truths: dict[str, bool]) -> None:
    expected = bool(eval(text, {"__builtins__": {}}, truths))
    assert holds(parse_term(text), truths.__getitem__) is expected


@given(st.floats(-60, 60), st.integers(-60, 60), st.sampled_from(["==", "!=", "<", "<=", ">", ">="]))
def test_comparisons_are_those_of_python(outdoor_c: float, limit: int, operator: str) -> None:
    expected = bool(eval(f"outdoor_c {operator} {limit}", {"__builtins__": {}}, {"outdoor_c": outdoor_c}))
    assert holds(parse_term(f"outdoor_c {operator} {limit}"), {"outdoor_c": outdoor_c}.__getitem__) is expected


SETTLED = {
    "after is its inner term": ("after(a, 30 s)", {"a": True}, True),
    "hold is its inner term": ("hold(a, 90 s)", {"a": False}, False),
    "apart is its inner term": ("apart(a, 300 s)", {"a": True}, True),
    "a latch that is set": ("latch(a, b)", {"a": True, "b": False}, True),
    "a latch that is reset": ("latch(a, b)", {"a": True, "b": True}, False),
    "up_to is its inner term": ("up_to(a, 600 s)", {"a": True}, True),
    "a sum is full where its term holds": ("summed(a, 1800 s, b)", {"a": True, "b": False}, True),
    "a sum that is reset": ("summed(a, 1800 s, b)", {"a": True, "b": True}, False),
    "a sum of nothing": ("summed(a, 1800 s, b)", {"a": False, "b": False}, False),
    "what has settled has not ended often": ("times(a, 3, b)", {"a": True, "b": False}, False),
    "an amount from a setting": ("after(a, delay s)", {"a": True, "delay": 30}, True),
    "a closed switch is true": ("limit", {"limit": "closed"}, True),
    "an open switch is false": ("limit", {"limit": "open"}, False),
    "a fitted jumper is true": ("link", {"link": "fitted"}, True),
    "a removed jumper is false": ("link", {"link": "removed"}, False),
    "a position": ("mode == 'heat'", {"mode": "heat"}, True),
    "another position": ("mode != 'heat'", {"mode": "heat"}, False),
    "a whole number is that number": ("stages == 2", {"stages": 2}, True),
    "text is never more than a number": ("mode > 3", {"mode": "heat"}, False),
    "a call by its name": ("cool-1 and not fan", {"cool-1": True, "fan": False}, True),
}


@pytest.mark.parametrize(("text", "values", "expected"), SETTLED.values(), ids=SETTLED.keys())
def test_settled_meaning(text: str, values: dict[str, Value], expected: bool) -> None:
    assert holds(parse_term(text), values.__getitem__) is expected


def test_names_come_in_reading_order() -> None:
    tree = parse_term("a and (not b or after(c, g s)) and latch(d, e) and f == 'x' and times(h, i, j)")
    assert list(names_in(tree)) == ["a", "b", "c", "d", "e", "f", "h", "j"]
    assert list(untimed_names_in(tree)) == ["a", "b", "f"]


def test_what_remembers_comes_outermost_first() -> None:
    tree = parse_term("not hold(after(a, 1 s), 2 s) or latch(summed(b, 3 s, c), times(d, 4, up_to(e, 5 s)))")
    assert [timer.function if not isinstance(timer, Latched) else "latch" for timer in timers_in(tree)] == [
        "hold",
        "after",
        "latch",
        "summed",
        "times",
        "up_to",
    ]


def test_an_amount_is_a_number_or_what_the_setting_says() -> None:
    number, named = (next(timers_in(parse_term(f"after(a, {said} s)"))) for said in ("30", "delay"))
    assert not isinstance(number, Latched)
    assert not isinstance(named, Latched)
    nothing: dict[str, Value] = {}
    settings: dict[str, Value] = {"delay": 45}
    assert amount_of(number, nothing.__getitem__) == 30.0
    assert amount_of(named, settings.__getitem__) == 45.0


BAD = {
    "nothing": "",
    "half a term": "a and",
    "two terms": "a b",
    "an open bracket": "(a or b",
    "a word in place of a name": "a or and",
    "a timer without seconds": "after(a)",
    "a timer in minutes": "after(a, 3 m)",
    "a timer that runs backwards": "after(a, -3 s)",
    "a truth in place of seconds": "after(a, true s)",
    "a sum without its reset": "summed(a, 30 s)",
    "a count in seconds": "times(a, 3 s, b)",
    "a capital letter": "Heat",
    "python": "__import__('os')",
    "a call of a function": "abs(a)",
    "nested without end": "(" * 60 + "a" + ")" * 60,
    "not without end": "not " * 60 + "a",
}


@pytest.mark.parametrize("text", BAD.values(), ids=BAD.keys())
def test_what_does_not_read_is_refused(text: str) -> None:
    with pytest.raises(Refused) as caught:
        parse_term(text)
    assert caught.value.code == "bad-term"
    assert caught.value.would_be_right


@given(st.text(alphabet="ab ()'=<>!,not dr3s_-", max_size=40))
def test_any_text_reads_or_is_refused(text: str) -> None:
    assert _outcome(text) in ("reads", "bad-term")


def _outcome(text: str) -> str:
    try:
        parse_term(text)
    except Refused as refused:
        return refused.code
    return "reads"
