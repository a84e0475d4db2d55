"""Coils that are not sure to pull in, and what their run would have to be."""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.catalogue.catalogue import figure
from app.checks.context import CheckContext
from app.checks.facts.demand import overloaded_names
from app.checks.facts.fed import Fed, rated_coil_volts, weakest
from app.checks.facts.runs import PullIn, Run, length_words, most_run_ohms, pull_in_of, run_of
from app.checks.facts.secondary import wrongly_tapped
from app.circuit.operating_point import OperatingPoint

SLACK = 1e-9
LOW_PERCENT = 88.0
"""The lowest supply: 106 V of 120 V, range B of utilisation (ANSI C84.1, from memory)."""
NEARLY = 0.95
"""At the lowest supply a coil that has this share of the volts that make it sure is let pass: coils scatter by more,
and an ordinary house would be told of. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Weak:
    """A coil that is not sure to pull in.

    ``shown`` is the point that shows it, at the rated supply or at the lowest; ``pulls_in`` whether it does there.
    ``beside`` are other coils of the same source that are weak over the same wires.
    """

    fed: Fed
    run: Run
    pull_in: PullIn
    least_volts: float
    shown: OperatingPoint
    pulls_in: bool
    only_unsure: bool
    beside: tuple[Fed, ...] = ()

    def at_low_supply(self) -> bool:
        """Return whether it takes the lowest supply to show it."""
        return self.shown is not self.fed.point


def weak_coils(context: CheckContext) -> tuple[Weak, ...]:
    """Return the coils that are not sure to pull in, at the rated supply or else at the lowest, by name.

    Coils that are weak over the same wires are told with the weakest of them. Where a source is on
    the wrong tap, or overloaded so that no run would do, the source is told and its coils are not.
    """
    found = [_weak(context, fed) for _, fed in sorted(context.once(weakest).items())]
    told = [weak for weak in found if weak is not None and not _is_told_of_source(context, weak)]
    mains: list[Weak] = []
    for weak in sorted(told, key=lambda each: (each.pulls_in, each.pull_in.volts / each.least_volts)):
        main = next((place for place, each in enumerate(mains) if _share_wires(each, weak)), None)
        if main is None:
            mains.append(weak)
        elif weak.fed.device.name != mains[main].fed.device.name:
            mains[main] = replace(mains[main], beside=(*mains[main].beside, weak.fed))
    return tuple(mains)


def _share_wires(main: Weak, weak: Weak) -> bool:
    same = main.fed.winding.name == weak.fed.winding.name
    return same and bool(set(main.run.names()) & set(weak.run.names()) or not (main.run.wires or weak.run.wires))


def run_cure_words(context: CheckContext, run: Run, ohms: float) -> str:
    """Return what would bring a run down to ``ohms``: ``18 AWG would do, or w5 with at most 62 ft``."""
    if ohms <= run.other_ohms or not run.wires:
        return "no wire would do, the transformer itself sags too far"
    name, length_m, size_awg = run.wires[0]
    now = f"{context.conductor_called(name)} has {length_words(context, length_m)} of {size_awg} AWG"
    shorter = f"{length_words(context, run.longest_for(ohms))} of it would do"
    gauge = run.gauge_for(ohms)
    return f"{now}; {shorter}" + (f", or {gauge} AWG" if gauge is not None and gauge < size_awg else "")


def _weak(context: CheckContext, fed: Fed) -> Weak | None:
    values = context.wiring.settings[fed.device.part]
    rated = rated_coil_volts(context, fed)
    least = figure(fed.coil.pull_in_guaranteed, values) * rated
    if fed.pulled_in and _is_surely_enough(context, fed, least):
        return None
    run = run_of(context, fed)
    if run is None:
        return None
    # What is said to do has to do at the lowest supply as well, or the next check would ask for more.
    enough_when_low = NEARLY * least
    pull_in = pull_in_of(context, fed, run.ohms(), enough_when_low * 100 / LOW_PERCENT)
    if not fed.pulled_in or pull_in.volts < least * (1 - SLACK):
        return Weak(fed, run, pull_in, least, fed.point, fed.pulled_in, only_unsure=False)
    if pull_in.volts * LOW_PERCENT / 100 >= enough_when_low * (1 - SLACK):
        return None
    low, shown = _at_low_supply(context, fed)
    pull_in = pull_in_of(context, low, run.ohms(), enough_when_low)
    typical = figure(fed.coil.pull_in, values) * rated
    unsure = low.pulled_in and pull_in.volts >= typical
    return Weak(fed, run, pull_in, least, shown, low.pulled_in, unsure)


def _is_surely_enough(context: CheckContext, fed: Fed, least: float) -> bool:
    """Return whether a coil has enough even if its own amps lost all that is lost on the way; no path is needed."""
    source_volts = fed.point.elements[fed.winding.name].volts
    if source_volts is None:
        return False
    ohms = 1.05 * max(0.0, most_run_ohms(context, fed, source_volts))
    return pull_in_of(context, fed, ohms, least).volts * LOW_PERCENT / 100 >= NEARLY * least


def _at_low_supply(context: CheckContext, fed: Fed) -> tuple[Fed, OperatingPoint]:
    place = next(place for place, point in enumerate(context.points) if point is fed.point)
    point = context.at_supply(LOW_PERCENT)[place]
    state = point.elements[fed.device.name]
    return replace(fed, volts=state.volts or 0.0, pulled_in=state.state == "pulled-in"), point


def _is_told_of_source(context: CheckContext, weak: Weak) -> bool:
    if weak.fed.winding.name in context.once(wrongly_tapped):
        return True
    return weak.pull_in.ohms_for <= weak.run.other_ohms and weak.fed.winding.name in context.once(overloaded_names)
