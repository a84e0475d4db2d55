"""A path in words: what it leads through, one thing after another, where it stops, and what would have to change.

Rules of the file: the list says what the marks on the drawing show, in the same order, so that whoever hears it
follows the same path as whoever sees it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from app.catalogue.called import called_with_sort
from app.catalogue.spoken import plain, upper_first
from app.explain.answer import Step
from app.explain.following import Followed
from app.explain.leg import Leg
from app.explain.phrases import sentence
from app.web.wording.naming import Naming


def followed_words(naming: Naming, followed: Followed) -> dict[str, Any]:
    """Return a followed path as the page draws and says it.

    Keys: ``subject``, ``verdict``, ``title``, ``because``, ``legs`` (``on``, ``from``, ``to``), ``stop`` (``place``
    and ``words``, or None) and ``steps`` in words.
    """
    asked, stop = followed.asked, followed.stop
    words = None if stop is None else f"stops here: {stop.words}"
    return {
        "subject": asked.subject,
        "verdict": asked.verdict,
        "title": asked.words[0],
        "because": _because(followed),
        "legs": [{"on": leg.on, "from": leg.start, "to": leg.end} for leg in followed.legs],
        "stop": None if stop is None else {"place": stop.place, "words": words},
        "steps": [*_steps(naming, followed), *([] if words is None else [sentence(words)])],
    }


def _because(followed: Followed) -> list[str]:
    """Return why it does not run, from what was asked about to what would have to change first."""
    if followed.asked.verdict == "runs":
        return []
    said = [sentence(each.reasons[0].words) for each in followed.chain if each.stop and each.reasons]
    return [words for words in dict.fromkeys(said) if words != followed.asked.words[0]]


def _steps(naming: Naming, followed: Followed) -> Iterator[str]:
    found = followed.path
    if not found.steps:
        yield from (_leg_words(naming, leg) for leg in followed.legs)
        return
    for step in found.steps if found.stops_at is None else found.steps[: found.stops_at]:
        yield _step_words(naming, step)


def _leg_words(naming: Naming, leg: Leg) -> str:
    sort, _, name = leg.on.partition(":")
    to = naming.terminal(leg.end) if leg.end else "an end that is not landed"
    if sort == "conductor":
        return f"Along {naming.conductor(name)} from {naming.terminal(leg.start)}, to {to}."
    return sentence(f"through {naming.inner_part(name)} to {to}")


def _step_words(naming: Naming, step: Step) -> str:
    sort, _, name = step.subject.partition(":")
    volts = "" if step.to_common is None else f": {step.to_common:.1f} V to common"
    if sort == "conductor":
        return f"Along {naming.conductor(name)} to {naming.terminal(step.reaches)}{volts}."
    if "." not in name:
        return sentence(f"a short{volts}")
    part, inner = name.split(".", 1)
    stands = "" if step.state == "live" else f", {plain(step.state)}"
    return sentence(
        f"{upper_first(called_with_sort(naming.kind(part), inner))} of {naming.inner_part(part)}{stands}{volts}"
    )
