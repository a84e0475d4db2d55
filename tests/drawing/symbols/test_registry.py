"""Every symbol: inside its box, joined to its connection points, like no other, different in each state."""

from __future__ import annotations

from itertools import combinations, product

import pytest

from app.drawing.surface.geometry import GRID, Point, box_around
from app.drawing.surface.recorder import Recorder
from app.drawing.surface.verbs import HEAVY, THIN
from app.drawing.symbols.registry import all_symbols, symbol_named
from app.drawing.symbols.symbol import ACTS, HALF, LONG, Symbol
from tests.drawing.symbols.seen import AT, STATES, looks, strokes

SYMBOLS = [pytest.param(symbol, id=name) for name, symbol in all_symbols().items()]
INK_APART_LEAST = 8
"""Two symbols must differ by strokes that are at least so long together, in u: less is lost on a copy of a copy."""


@pytest.mark.parametrize("symbol", SYMBOLS)
@pytest.mark.parametrize("state", STATES)
def test_all_ink_lies_in_the_box(symbol: Symbol, state: str) -> None:
    box = symbol.box(AT)
    for stroke in strokes(symbol, state):
        inked = stroke.bounds()
        assert inked is not None
        assert box_around((box, inked)) == box, stroke


@pytest.mark.parametrize("symbol", SYMBOLS)
def test_the_box_is_whole_lanes_with_its_connection_points_half_way_up(symbol: Symbol) -> None:
    box = symbol.box(AT)
    assert box.w % GRID == box.h % GRID == 0
    assert (box.x, box.y + box.h // 2) == AT
    assert symbol.right_of(AT) == (Point(box.right, AT.y) if symbol.in_line else None)


@pytest.mark.parametrize("symbol", SYMBOLS)
@pytest.mark.parametrize("state", STATES)
def test_leads_go_from_the_connection_points_to_the_body(symbol: Symbol, state: str) -> None:
    leads = strokes(symbol, state)[: 1 + symbol.in_line]
    body = [bounds for stroke in strokes(symbol, state)[len(leads) :] if (bounds := stroke.bounds()) is not None]
    ends = [AT, symbol.right_of(AT)] if symbol.in_line else [AT]
    assert [lead.verb for lead in leads] == ["line"] * len(ends)
    for lead, end in zip(leads, ends, strict=True):
        (inner,) = set(lead.points) - {end}
        assert end in lead.points
        if symbol.starts == symbol.ends and symbol.in_line:
            assert {inner} == {point for other in leads for point in other.points} - set(ends), "the leads do not meet"
            continue
        assert any(b.x <= inner.x <= b.right and b.y <= inner.y <= b.bottom for b in body), "the lead ends in the air"


@pytest.mark.parametrize("symbol", SYMBOLS)
def test_states_differ_by_what_is_drawn(symbol: Symbol) -> None:
    acts, does_not, unknown = (looks(symbol, state) for state in ("on", "off", "unknown"))
    assert (acts != does_not) == symbol.has_states
    assert unknown not in (acts, does_not, looks(symbol))


@pytest.mark.parametrize("symbol", SYMBOLS)
def test_at_rest_it_looks_as_it_does_where_something_or_nothing_acts(symbol: Symbol) -> None:
    """What is closed at rest may look as it does while closed, never as it does while open, and the other way round."""
    if symbol.name.endswith("-open"):
        assert looks(symbol) == looks(symbol, "off")
    elif symbol.name.endswith("-closed"):
        assert looks(symbol) != looks(symbol, "off")


def test_no_symbol_looks_like_another_in_any_state() -> None:
    drawn = [
        (symbol.name, looks(symbol, state))
        for symbol, state in product(all_symbols().values(), STATES)
        if state == "" or symbol.has_states
    ]
    for (one, look), (other, other_look) in combinations(drawn, 2):
        assert one == other or look != other_look, (one, other)


def test_what_sets_two_symbols_apart_is_large_enough_to_be_copied() -> None:
    for one, other in combinations(all_symbols().values(), 2):
        mine, others = looks(one), looks(other)
        apart = [s for s in strokes(one) + strokes(other) if len({repr_of(s)} & (mine ^ others))]
        sizes = [max(bounds.w, bounds.h) for stroke in apart if (bounds := stroke.bounds()) is not None]
        assert sum(sizes) >= INK_APART_LEAST, (one.name, other.name)


def repr_of(stroke: object) -> str:
    return repr(tuple(getattr(stroke, name) for name in ("verb", "points", "box", "radius", "pen", "text")))


@pytest.mark.parametrize("symbol", SYMBOLS)
def test_a_symbol_is_the_same_wherever_it_stands(symbol: Symbol) -> None:
    one, other = strokes(symbol), strokes(symbol, at=Point(AT.x + 36, AT.y - 60))
    for here, there in zip(one, other, strict=True):
        assert [Point(p.x + 36, p.y - 60) for p in here.points] == list(there.points)


@pytest.mark.parametrize("symbol", SYMBOLS)
def test_leads_take_the_pens_that_they_are_given_and_no_state_makes_them_heavy(symbol: Symbol) -> None:
    recorder = Recorder()
    symbol.draw(recorder, AT, left=HEAVY)
    first, *others = list(recorder.drawn("line"))
    assert first.pen == HEAVY
    assert all(lead.pen == THIN for lead in others[: symbol.in_line])
    for state in STATES:
        assert [lead.pen for lead in strokes(symbol, state)[: 1 + symbol.in_line]] == [THIN] * (1 + symbol.in_line)


@pytest.mark.parametrize("symbol", SYMBOLS)
def test_each_is_found_by_its_name_and_says_what_it_means_and_where_it_comes_from(symbol: Symbol) -> None:
    assert symbol_named(symbol.name) is symbol
    assert symbol.meaning
    assert symbol.basis
    assert len({each.meaning for each in all_symbols().values()}) == len(all_symbols())


def test_every_state_of_an_element_can_be_drawn_and_no_other() -> None:
    coil = symbol_named("coil")
    for state in ACTS:
        assert looks(coil, state) == looks(coil, "on" if ACTS[state] else "off")
    with pytest.raises(ValueError, match="no state of an element"):
        coil.draw(Recorder(), AT, "half open")


def test_the_box_of_an_arch_is_on_the_left_of_its_way() -> None:
    recorder = Recorder()
    for start, end in (((0, 0), (10, 0)), ((10, 0), (0, 0)), ((0, 0), (0, 10)), ((0, 10), (0, 0))):
        recorder.arch(Point(*start), Point(*end), THIN)
    boxes = [tuple(bounds) for record in recorder.drawn("arch") if (bounds := record.bounds()) is not None]
    assert boxes == [(0, -5, 10, 5), (0, 0, 10, 5), (0, 0, 5, 10), (-5, 0, 5, 10)]


def test_the_size_is_the_same_for_all() -> None:
    assert {tuple(symbol.box(AT)) for symbol in all_symbols().values()} == {(AT.x, AT.y - HALF, LONG, 2 * HALF)}


def reaches_across(symbol: Symbol, state: str) -> bool:
    """Return whether a line of the body leads from one side to the other: to the far post, or over both bars."""
    bodies = [stroke.points for stroke in strokes(symbol, state)[2:] if stroke.verb == "line"]
    if symbol.name == "contact-closed":
        return any(points[0].x < AT.x + symbol.starts and points[-1].x > AT.x + symbol.ends for points in bodies)
    return any(points[-1].x > AT.x + symbol.ends - 3 and abs(points[-1].y - AT.y) < 5 for points in bodies)


@pytest.mark.parametrize("symbol", [each for each in SYMBOLS if str(each.id).endswith("-closed")])
def test_what_is_closed_at_rest_leads_across_until_it_is_open(symbol: Symbol) -> None:
    assert [reaches_across(symbol, state) for state in ("", "on", "off")] == [True, True, False]


@pytest.mark.parametrize("symbol", [each for each in SYMBOLS if str(each.id).endswith("-open")])
def test_what_is_open_at_rest_leads_across_once_it_is_closed(symbol: Symbol) -> None:
    if symbol.name == "contact-open":
        (block,) = [stroke for stroke in strokes(symbol, "on") if stroke.verb == "shape"]
        assert {point.x - AT.x for point in block.points} == {symbol.starts, symbol.ends}
    else:
        assert [reaches_across(symbol, state) for state in ("", "on", "off")] == [False, True, False]
