"""Why a coil, a load or an effect runs or does not, in one situation.

The answer is the path from hot through each way to common, with the state and the volts of each; or the same path up
to the first place where it stops, and why it stops there. What switches on the path is explained by what moves it, so
that a chain over several parts is followed to its beginning.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.catalogue.catalogue import figure
from app.catalogue.kind import Coil, EffectName, Input, Kind, Load
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import holds
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.explain.answer import Explanation, Reason, Step, Stop, Verdict
from app.explain.bearing import names_under
from app.explain.broken import broken_way
from app.explain.deciding import Leaf
from app.explain.lost_output import lost_output
from app.explain.names import Names
from app.explain.paths import Path, Paths
from app.explain.phrases import (
    effect_stands,
    joined,
    leaf_words,
    sentence,
    state_words,
    volts_words,
    way_words,
    ways_words,
)
from app.explain.reasons import Reasons
from app.explain.standing import Standing
from app.explain.steps import steps_of
from app.explain.ways import DEVICES, Way
from app.job.names import part_of
from app.job.refusal import Refused
from app.job.temperatures import Units

MOST_DEEP = 8
"""So many parts one after another are followed; longer chains are told up to there."""


def why(circuit: Circuit, point: OperatingPoint, subject: str, units: Units = "si") -> tuple[Explanation, ...]:
    """Return why things run or do not.

    Args:
        circuit: the layout without the faults of the point's situation.
        point: what the circuit does.
        subject: ``element:ou.contactor``, an effect as ``effect:ou:compressor`` or ``ou:compressor``, or ``part:ou``
            for all that the part does.
        units: those in which temperatures are told.

    Raises:
        Refused: code ``unknown-subject``.
    """
    explainer = Explainer(circuit, point, units)
    sort, _, name = subject.partition(":")
    if sort == "element" and name in explainer.ways:
        return (explainer.element(name),)
    if sort == "part" and name in circuit.layout.parts:
        return explainer.part(name)
    part, _, effect = subject.removeprefix("effect:").partition(":")
    kind = explainer.standing.kind(part) if part in circuit.layout.parts else None
    for known in kind.effects if kind is not None else ():
        if known == effect:
            return (explainer.effect(part, known),)
    raise _unknown_subject(subject, circuit)


class Explainer:
    """Explains one operating point."""

    def __init__(self, circuit: Circuit, point: OperatingPoint, units: Units) -> None:
        self.point = point
        self.standing = Standing(circuit, point)
        self.names = Names(circuit.layout, circuit.catalogue, units)
        self.paths = Paths(self.standing)
        self.reasons = Reasons(self.standing, self.names, self._deeper)
        self.ways = {way.name: way for way in self.standing.ways.ways if way.element is not None}

    def part(self, part: str) -> tuple[Explanation, ...]:
        """Return the explanation of every effect of a part; of its coils and loads where it has none."""
        kind = self.standing.kind(part)
        if kind is None:
            return (_unknown(f"part:{part}", f"nobody knows what kind of part {self.names.part(part)} is"),)
        if kind.effects:
            return tuple(self.effect(part, effect) for effect in kind.effects)
        return tuple(self.element(way.name) for way in self.ways.values() if way.part == part and way.sort in DEVICES)

    def effect(self, part: str, effect: EffectName) -> Explanation:
        """Return why an effect of a part holds or does not."""
        subject = f"effect:{part}:{effect}"
        kind = self.standing.kind(part)
        assert kind is not None
        if (part, effect) in self.point.effects_in_doubt:
            return _unknown(subject, f"{self.names.effect(part, effect)}: {self._doubt_words(part, kind, effect)}")
        runs = (part, effect) in self.point.effects
        verdict: Verdict = "runs" if runs else "does-not-run"
        tree = parse_term(kind.effects[effect])
        leaves = self.reasons.leaves(part, tree, frozenset(), absent=True)
        said = joined([leaf_words(self.standing, self.names, part, leaf) for leaf in leaves])
        stands = effect_stands(self.names, part, effect, runs)
        if holds(tree, lambda name: self.standing.value(part, name)) != runs:
            words = sentence(f"{stands}: {self.reasons.timer_words(part, waits=not runs)}")
            return Explanation(subject, verdict, "timer", (), None, (Reason("timer", subject, words),), 0, (words,))
        told = self._told(part, kind, leaves, frozenset({subject}))
        first = sentence(f"{stands}: {said}")
        reasons = tuple(Reason(each.stop or "logic", each.subject, each.words[0], each) for each in told)
        lines = _once([first, *(line for each in (told if runs else told[:1]) for line in each.words)])
        if not told:
            reasons = (Reason("logic", subject, first),)
            return Explanation(subject, verdict, "" if runs else "logic", (), None, reasons, 0, lines)
        main = told[0]
        if not runs and main.verdict in ("unknown", "unsettled"):
            return Explanation(subject, main.verdict, main.stop, (), None, reasons, 0, main.words)
        stop: Stop = "" if runs else main.stop or "logic"
        return Explanation(subject, verdict, stop, main.steps, main.stops_at, reasons, main.others, lines)

    def _told(self, part: str, kind: Kind, leaves: tuple[Leaf, ...], above: frozenset[str]) -> tuple[Explanation, ...]:
        """Return the explanations of the coils and inputs that decide, first the one that tells most."""
        main = self.reasons.deepest(part, leaves, above)
        named = [leaf.name for leaf in leaves if isinstance(kind.elements.get(leaf.name), Coil | Input)]
        rest = [self.element(f"{part}.{name}") for name in named]
        return (*([main] if main else []), *(each for each in rest if main is None or each.subject != main.subject))

    def element(self, name: str, above: frozenset[str] = frozenset()) -> Explanation:
        """Return why an element stands as it does."""
        way = self.ways[name]
        above = above | {f"element:{name}"}
        if way.sort not in DEVICES:
            return self._switch(way, above)
        if self.standing.state(name) == "unknown":
            if self.point.unsettled is not None:
                return self._unsettled(way)
            return _unknown(way.subject, f"{self.names.element(name)}: {self._why_unknown(way)}")
        return self._running(way, above) if self._is_on(way) else self._idle(way, above)

    def _deeper(self, name: str, above: frozenset[str]) -> Explanation | None:
        if f"element:{name}" in above or len(above) > MOST_DEEP:
            return None
        return self.element(name, above)

    def _is_on(self, way: Way) -> bool:
        """A load that nothing is judged by runs from half of its rated volts."""
        state = self.point.elements[way.name]
        if state.state or not isinstance(way.element, Load):
            return self.standing.is_on(way.name)
        return (state.volts or 0.0) >= 0.5 * figure(way.element.volts, self.standing.values(way.part))

    def _switch(self, way: Way, above: frozenset[str]) -> Explanation:
        reason = self.reasons.of(way, above)
        on = self.standing.is_on(way.name) or way.sort == "trace"
        words = reason.words if reason else f"{self.names.element(way.name)} {'conducts' if on else 'does not conduct'}"
        stop: Stop = "" if on or reason is None else reason.sort
        lines = _once([sentence(words), *(line for line in _lines(reason.behind if reason else None))])
        return Explanation(
            way.subject, "runs" if on else "does-not-run", stop, (), None, (reason,) if reason else (), 0, lines
        )

    def _running(self, way: Way, above: frozenset[str]) -> Explanation:
        path = self.paths.running(way)
        state = self.point.elements[way.name]
        first = state_words(self.names, way.element, way.name, state.state) if way.element else ""
        volts = "" if state.volts is None else f": {volts_words(state.volts)} across it, {state.amps:.2f} A"
        if path is None:
            return Explanation(way.subject, "runs", "", (), None, (), 0, (sentence(first + volts),))
        found = [self.reasons.of(hop.way, above) for hop in path.hops if self._switches(hop.way)]
        reasons = tuple(reason for reason in found if reason is not None)
        others = self.paths.others(way, path)
        stop: Stop = "power-through" if path.cost[1] else ""
        lines = [sentence(first + volts), self._way_there(path), *(sentence(reason.words) for reason in reasons)]
        if others:
            lines.append(f"{'One more path brings' if others == 1 else f'{others} more paths bring'} it the same.")
        lines += [line for reason in reasons for line in _lines(reason.behind)]
        return Explanation(
            way.subject, "runs", stop, steps_of(self.standing, way, path), None, reasons, others, _once(lines)
        )

    def _switches(self, way: Way) -> bool:
        return way.sort == "contact"

    def _way_there(self, path: Path) -> str:
        """Return the path in one sentence."""
        there = ways_words(self.names, [hop.way for hop in path.to_device if hop.way.sort != "trace"])
        back = ways_words(self.names, [hop.way for hop in path.to_common if hop.way.sort != "trace"])
        source = self.names.part(path.source.part)
        by = f" by {there}" if there else ""
        return sentence(f"its 24 V comes from {source}{by}" + (f"; and goes back by {back}" if back else ""))

    def _idle(self, way: Way, above: frozenset[str]) -> Explanation:
        path = self.paths.lacking(way)
        if path is None:
            return broken_way(self.standing, self.names, self.paths, way, self._lack_words(way))
        gaps = [at for at, hop in enumerate(path.hops) if not self.standing.conducts(hop.way)]
        lost = lost_output(self.standing, self.names, way, [path.hops[at].way for at in gaps])
        if lost is not None:
            said = (self._lack_words(way), sentence(lost.words))
            return Explanation(way.subject, "does-not-run", lost.sort, (), None, (lost,), 0, said)
        steps = steps_of(self.standing, way, path)
        if not self.standing.is_on(path.source.name) or not self.point.situation.supply_percent:
            return self._without_source(way, path, steps)
        if not gaps:
            return self._too_little(way, path, steps)
        reasons = [reason for at in gaps if (reason := self.reasons.of(path.hops[at].way, above)) is not None]
        first = path.hops[gaps[0]]
        stops_at = 1 + gaps[0] + (gaps[0] >= len(path.to_device))
        lines = [self._lack_words(way), self._stop_words(path, first.way, gaps[0])]
        lines += [sentence(reason.words) for reason in reasons]
        lines += _lines(reasons[0].behind) if reasons else ()
        stop: Stop = reasons[0].sort if reasons else "broken"
        verdict: Verdict = "unknown" if stop == "unknown" else "does-not-run"
        others = self.paths.lacking(way, frozenset({first.way.subject}))
        also = int(others is not None and others.cost[0] <= path.cost[0] + 1)
        return Explanation(way.subject, verdict, stop, steps, stops_at, tuple(reasons), also, _once(lines))

    def _lack_words(self, way: Way) -> str:
        state = self.point.elements[way.name]
        stands = state_words(self.names, way.element, way.name, state.state or "off") if way.element else ""
        volts = "no volts" if state.volts is None else volts_words(state.volts)
        return sentence(f"{stands}: {volts} across it, and it {self._needs(way)}")

    def _needs(self, way: Way) -> str:
        values = self.standing.values(way.part)
        match way.element:
            case Coil():
                return f"pulls in from {figure(way.element.pull_in, values) * figure(way.element.volts, values):.1f} V"
            case Input():
                return f"is on from {figure(way.element.threshold_volts, values):.1f} V"
            case Load(powers_above=float() | int() | str() as above):
                return f"needs {figure(above, values):.1f} V"
            case _:
                return "needs its volts"

    def _stop_words(self, path: Path, way: Way, at: int) -> str:
        before = path.hops[:at]
        reached = before[-1].reaches if before else path.source.a
        terminals = [hop.reaches for hop in before if hop.reaches in self.point.terminals]
        where = self.names.terminal(terminals[-1]) if terminals else self.names.part(part_of(reached))
        source = self.names.part(path.source.part)
        stands = "is open" if way.sort in ("contact", "fuse") else "is out" if way.sort == "jumper" else "is broken"
        meter = self._meter_across(way)
        stops = f"stops at {way_words(self.names, way)}, which {stands}{meter}"
        if at >= len(path.to_device):
            return sentence(f"24 V from {source} reaches it, but its way back {stops}")
        return sentence(f"the way from {source} is live as far as {where} and {stops}")

    def _meter_across(self, way: Way) -> str:
        if way.sort == "conductor":
            volts = self.point.volts_between(way.a, way.b)
        else:
            volts = self.point.elements[way.name].volts
        return "" if volts is None or volts < 0.05 else f" ({volts_words(volts)} across it)"

    def _without_source(self, way: Way, path: Path, steps: tuple[Step, ...]) -> Explanation:
        source = self.names.part(path.source.part)
        words = f"{source}, from which its 24 V comes, gives nothing: its mains are off or it is dead"
        reason = Reason("mains", path.source.subject, words)
        return Explanation(
            way.subject, "does-not-run", "mains", steps, 0, (reason,), 0, (self._lack_words(way), sentence(words))
        )

    def _too_little(self, way: Way, path: Path, steps: tuple[Step, ...]) -> Explanation:
        state = self.point.elements[way.name]
        dead = [
            f for f in self.point.situation.faults if f.is_ in ("coil-open", "coil-shorted") and f.at == way.subject
        ]
        if dead:
            words = (
                f"its coil is {'open' if dead[0].is_ == 'coil-open' else 'shorted'}: volts reach it and it does nothing"
            )
            reason = Reason("coil-fault", way.subject, words)
        else:
            source = self._source_words(path)
            words = f"nothing on its way is open, but too little reaches it: the source stands at {source}"
            reason = Reason("low-volts", way.subject, words)
        lines = (self._lack_words(way), sentence(reason.words))
        at = len(path.to_device) + 1
        return Explanation(
            way.subject, "does-not-run", reason.sort, steps, at if state.volts else None, (reason,), 0, lines
        )

    def _source_words(self, path: Path) -> str:
        volts = self.point.elements[path.source.name].volts
        return "no volts" if volts is None else volts_words(volts)

    def _unsettled(self, way: Way) -> Explanation:
        found = self.point.unsettled
        assert found is not None
        others = joined([self.names.element(name) for name in found.elements])
        turns = "goes on and off in turn" if len(found.elements) == 1 else "go on and off in turn"
        how = {"chatter": f"{others} {turns}", "race": f"who moves first decides among {others}"}
        words = sentence(f"the circuit does not settle: {how.get(found.why, 'no settled state was found')}")
        reason = Reason("unsettled", way.subject, words)
        return Explanation(way.subject, "unsettled", "unsettled", (), None, (reason,), 0, (words,))

    def _doubt_words(self, part: str, kind: Kind, effect: EffectName) -> str:
        """Return what it hangs on that nobody knows: the first coil or input of which nothing could be computed."""
        for name in sorted(names_under(kind, kind.effects[effect])):
            way = self.ways.get(f"{part}.{name}")
            if way is not None and way.sort in DEVICES and self.standing.state(way.name) == "unknown":
                return f"it hangs on {self.names.inner(part, name)}, and {self._why_unknown(way)}"
        return "it hangs on something that nobody knows"

    def _why_unknown(self, way: Way) -> str:
        states = [self.point.terminals[name] for name in sorted(self.point.terminals) if part_of(name) == way.part]
        return next((state.why for state in states if state.unknown), "it hangs on something that nobody knows")


def _unknown(subject: str, words: str) -> Explanation:
    line = sentence(words)
    return Explanation(subject, "unknown", "unknown", (), None, (Reason("unknown", subject, line),), 0, (line,))


def _lines(behind: Explanation | None) -> tuple[str, ...]:
    return () if behind is None else behind.words


def _once(lines: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(lines))


def _unknown_subject(subject: str, circuit: Circuit) -> Refused:
    parts = circuit.layout.parts
    kinds = {part: circuit.catalogue.kind_of(found) for part, found in sorted(parts.items())}
    effects = [f"{part}:{effect}" for part, kind in kinds.items() if kind is not None for effect in kind.effects]
    return Refused(
        "unknown-subject",
        f"There is nothing called {subject[:80]} to explain.",
        would_be_right="part:ID, element:PART.NAME, conductor:ID, or an effect: " + (", ".join(effects) or "none here"),
    )
