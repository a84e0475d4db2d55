"""Do the timers of a kind stand where time can find them, with amounts that can be?

Rules of the file: only a state remembers. What closes contacts and what has an effect asks the state by its name, so
that whatever runs out in a sequence has a part and a state to be named by.
"""

from __future__ import annotations

from app.catalogue.kind import Choice, Kind, Setting
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Counted, Latched, Timed, timers_in
from app.job.names import pointer
from app.job.refusal import Refused

MOST_AMOUNT = 1e6
"""Seconds (eleven days) or times: far beyond anything in the trade, so that sums of them stay exact."""


def check_timers(kind: Kind) -> None:
    """Refuse a timer outside the states, and one of which the amount is no number of 0 or more.

    Raises:
        Refused: ``misplaced-timer``, ``unknown-setting`` or ``bad-amount``; the pointer is within the kind.
    """
    for effect, text in kind.effects.items():
        _check_timeless(text, pointer("effects", effect))
    for call, said in kind.calls.items():
        _check_timeless(said.when, pointer("calls", call, "when"))
        for contact, text in said.closes.items():
            _check_timeless(text, pointer("calls", call, "closes", contact))
    for state, text in kind.states.items():
        for timer in timers_in(parse_term(text)):
            match timer:
                case Timed(_, _, amount) | Counted(_, _, amount, _):
                    _check_amount(kind, amount, pointer("states", state))
                case Latched():
                    continue


def _check_timeless(text: str, at: str) -> None:
    if any(True for _ in timers_in(parse_term(text))):
        raise Refused(
            "misplaced-timer",
            "What remembers or takes time stands in states only, where a sequence can name it.",
            pointer=at,
            would_be_right="the name of a state that has this timer, or the timer taken out",
        )


def _check_amount(kind: Kind, amount: float | str, at: str) -> None:
    if isinstance(amount, float):
        if amount > MOST_AMOUNT:
            raise Refused(
                "bad-amount", f"{amount:g} is too much.", pointer=at, would_be_right=f"at most {MOST_AMOUNT:g}"
            )
        return
    setting = kind.settings.get(amount)
    if setting is None:
        raise Refused(
            "unknown-setting",
            f"The timer takes its amount from {amount}, which is no setting of this kind.",
            pointer=at,
            would_be_right="a number, or one of " + (", ".join(sorted(kind.settings)) or "no setting at all"),
        )
    if not all(_is_amount(value) for value in _values(setting)):
        raise Refused(
            "bad-amount",
            f"The setting {amount} may have a value that is no number from 0 to {MOST_AMOUNT:g}.",
            pointer=at,
            would_be_right="choices that are all such numbers, or a least and a most that are",
        )


def _values(setting: Setting) -> tuple[Choice | None, ...]:
    """Return what a setting may be at its ends; a range without an end has none."""
    return setting.choices or (setting.default, setting.least, setting.most)


def _is_amount(value: Choice | None) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value <= MOST_AMOUNT
