"""Calls that fall short, put together by what they have in common, so that one cause is told once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from app.checks.context import CheckContext
from app.checks.facts.air import stranded_compressors
from app.checks.facts.calls import AIR_ONLY, ALWAYS_ALLOWED, unasked
from app.checks.facts.silence import Silent, falling_short
from app.job.names import part_of


def silent_by_cause(context: CheckContext) -> Iterable[list[Silent]]:
    """Calls that have one cause are told together: nothing landed, heat and cooling crossed, or one output to blame."""
    told = [each for each in context.once(falling_short) if not _is_told_elsewhere(context, each)]
    crossed = {each.called.control for each in told if _cause(context, each)[0] == "crossed"}
    groups: dict[tuple[str, ...], list[Silent]] = {}
    for each in sorted(told, key=lambda each: len(each.outputs)):
        if each.below is not None and each.called.control in crossed:
            continue
        key = _cause(context, each)
        within = next((other for other in groups if set(other) <= set(key)), key)
        groups.setdefault(within, []).append(each)
    return groups.values()


def _is_told_elsewhere(context: CheckContext, silent: Silent) -> bool:
    """A call for air that moves none is told of the compressor that lacks it, or of what runs in its stead."""
    if silent.called.call not in AIR_ONLY:
        return False
    fanless = {called.control for called, _, _ in context.once(stranded_compressors)}
    return silent.called.control in fanless or bool(unasked(silent.called.call, silent.brings))


def _cause(context: CheckContext, silent: Silent) -> tuple[str, ...]:
    if not any(context.wiring.landed_on(output) for output in silent.outputs):
        return ("bare", part_of(silent.outputs[0]) if silent.outputs else silent.called.control)
    if silent.brings - ALWAYS_ALLOWED and silent.below is None:
        return ("crossed", silent.called.control)
    return ("output", *silent.outputs)


def outputs_to_name(context: CheckContext, several: Sequence[Silent]) -> list[str]:
    """Return the outputs of all; where one output is to blame, the one that the fewest calls have besides."""
    if _cause(context, several[0])[0] == "output":
        return sorted(several[0].outputs)
    return sorted({output for each in several for output in each.outputs})
