"""A source is not protected as it must be

What it checks
A source that does not limit its own current needs a fuse or breaker ahead of all that it feeds, of at most 100 divided
by its highest volts: 4.2 A at 24.0 V, 3.8 A at 26.4 V. Where nobody knows what limits a source it is taken as one that
does not. Besides, every fuse that carries more than its rating and still holds is told, and every fuse that a source
which limits itself is led around: by a wire across it, or by a supply that is landed behind the fuse of a board.

Why it matters
A winding that does not limit itself gives a short enough to burn insulation. NEC chapter 9 table 11(A) lets it be
Class 2 only behind an overcurrent device at the point of supply (seen in the introduction to the table) of no more
than 100/Vmax above 20 V and 5 A below (from memory). So a 5 A fuse is too large at 24 V. A fuse between 1 and 1.35
times its rating may hold for hours and open on a hot day (common practice, no source). With the fuse of a board out of
the way a short opens nothing: a source that limits itself is no danger then, but its winding runs hot until somebody
looks for the fault (common practice, no source).

What to do
Put the right fuse into R straight behind the transformer, in a holder that takes no larger one, or fit a transformer
that limits itself. A larger fuse is never the cure for one that opens. If a fuse carries too much, take load off it.
Land the transformer ahead of the fuse of a board, and take off what lies across a fuse.

Limits
What limits a source is what the job says; the marking on the transformer counts. Fuses in common are not counted. How
a fuse behaves on a short is not computed.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.gone_around import GoneAround, fuses_gone_around
from app.checks.facts.joins import Join
from app.checks.facts.probes import call_text, measured
from app.checks.facts.protection import Protection, fuse_rating, fuse_that_does, protections, strained_fuses
from app.checks.facts.secondary import ends_of, limiting_of, most_amps, open_volts
from app.checks.facts.spoken import when_words
from app.checks.finding import Evidence, Finding, Severity
from app.checks.fixes import Fix, choose, has_room, land, undo_join
from app.checks.rule import Bad, Good
from app.checks.samples import Parts, boiler_zone, gas_and_cooling
from app.job.names import part_of

NAME = "overcurrent-protection"
SEVERITY: Severity = "warning"
WHY = "A short behind it is fed with more than the wire is meant to bear."


def _limited_by(what: str, fuse_amps: int = 3) -> Parts:
    return {
        "xf": {"kind": "control-transformer", "settings": {"limiting": what}},
        "fb": {"kind": "furnace-board", "settings": {"fuse_amps": fuse_amps}},
    }


GOOD = (
    Good("three-amps-on-the-board", gas_and_cooling(parts=_limited_by("device")), near_miss=True),
    Good("five-amps-behind-one-that-limits-itself", gas_and_cooling(parts=_limited_by("inherent", 5)), near_miss=True),
    Good(
        "fuse-in-the-lead",
        boiler_zone({"w1": "xf.R fu.A", "w6": "fu.B tc.R"}, {"fu": "inline-fuse", "xf": _limited_by("device")["xf"]}),
    ),
    Good(
        "fuse-in-the-lead-in-place-of-that-of-the-board",
        gas_and_cooling({"w1": "xf.R fu.A", "w9": "fu.B fb.R"}, {"fu": "inline-fuse"}),
        near_miss=True,
    ),
    Good(
        "fuse-in-the-lead-landed-at-one-side",
        boiler_zone({"w9": "tc.R fu.A"}, {"fu": "inline-fuse"}),
        near_miss=True,
    ),
)
BAD = (
    Bad(
        "five-amps-are-too-many",
        gas_and_cooling(parts=_limited_by("device", 5)),
        finds=(("element:fb.fuse", "element:xf.secondary"),),
        mended=gas_and_cooling(parts=_limited_by("device")),
    ),
    Bad(
        "nothing-between-source-and-thermostat",
        boiler_zone(parts={"xf": _limited_by("device")["xf"]}),
        finds=(("element:xf.secondary", "terminal:tc.R"),),
    ),
    Bad(
        "around-the-fuse-and-nobody-knows-what-limits-it",
        gas_and_cooling({"w3": "xf.R tc.R"}, _limited_by("unknown")),
        finds=(("element:xf.secondary", "terminal:tc.R"),),
    ),
    Bad(
        "transformer-landed-behind-the-fuse-of-the-board",
        gas_and_cooling({"w1": "xf.R fb.R"}),
        finds=(("element:fb.fuse", "conductor:w1"),),
        mended=gas_and_cooling(),
    ),
    Bad(
        "wire-across-the-fuse",
        gas_and_cooling({"w9": "fb.XF fb.R"}),
        finds=(("element:fb.fuse", "conductor:w9"),),
        mended=gas_and_cooling(),
    ),
    Bad(
        "thermostat-fed-ahead-of-the-fuse-and-from-behind-it",
        gas_and_cooling({"w9": "xf.R tc.R"}),
        finds=(("element:fb.fuse", "conductor:w9"),),
        mended=gas_and_cooling(),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for protection in context.once(protections):
        most = most_amps(open_volts(context, protection.winding))
        if protection.bare:
            yield _without(context, protection, most)
        for fuse in protection.fuses:
            if fuse_rating(context, fuse) > most * (1 + 1e-9):
                yield _too_large(context, protection, fuse, most)
    for way in context.once(fuses_gone_around):
        yield _gone_around(context, way)
    for strained in context.once(strained_fuses):
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(strained.fuse.by,),
            message=(
                f"The {strained.rating:g} A fuse of {context.label_of(strained.fuse.part)} carries "
                f"{strained.amps:.1f} A {when_words(context, strained.point)}; it holds for now."
            ),
            why="Between its rating and a third more a fuse runs hot, and opens some day without a fault.",
            situation=strained.point.situation,
            evidence=Evidence(call=call_text(strained.point), more={"amps": strained.amps}),
        )


def _without(context: CheckContext, protection: Protection, most: float) -> Finding:
    named = " and ".join(context.name_of(node) for node in protection.bare[:2] if node in context.terminals)
    subjects = [f"terminal:{node}" for node in protection.bare if node in context.terminals]
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"element:{protection.winding.name}", *subjects),
        message=(
            f"{_source(context, protection)} and feeds {named or 'what hangs on it'} without a fuse: "
            f"it needs one of at most {most:.1f} A straight behind it."
        ),
        why=WHY,
        situation=context.idle.situation,
        assumes=_assumed(context, protection),
        evidence=_evidence(context, protection, most),
    )


def _too_large(context: CheckContext, protection: Protection, fuse: Join, most: float) -> Finding:
    amps, smaller = fuse_rating(context, fuse), fuse_that_does(context, fuse, most)
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(fuse.by, f"element:{protection.winding.name}"),
        message=(
            f"{_source(context, protection)}: the {amps:g} A fuse of {context.label_of(fuse.part)} is too large, "
            f"{most:.1f} A are the most."
        ),
        why=WHY,
        situation=context.idle.situation,
        assumes=_assumed(context, protection),
        evidence=_evidence(context, protection, most, fuse_amps=amps),
        fix=None if smaller is None else choose(context, fuse.part, *smaller),
    )


def _gone_around(context: CheckContext, way: GoneAround) -> Finding:
    label, figures = context.label_of(way.fuse.part), {"fuse_amps": fuse_rating(context, way.fuse)}
    fuse = f"{figures['fuse_amps']:g} A fuse"
    if way.ahead is not None:
        does = f"feeds {label} behind its {fuse}"
    else:
        does = f"{'goes' if len(way.by) == 1 else 'go'} around the {fuse} of {label}"
    ends = ends_of(context, way.winding)
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(way.fuse.by, *(join.by for join in way.by)),
        message=f"{' and '.join(_called(context, join) for join in way.by)} {does}: on a short nothing opens.",
        why="The winding limits itself, but runs hot until somebody looks for the fault.",
        situation=context.idle.situation,
        evidence=measured(context, context.idle, *ends, figures) if ends else Evidence(more=figures),
        fix=_led_through(context, way) if len(way.by) == 1 else None,
    )


def _called(context: CheckContext, join: Join) -> str:
    if join.sort == "jumper":
        return f"A jumper of {context.label_of(join.part)}"
    return context.conductor_called(join.by.partition(":")[2])


def _led_through(context: CheckContext, way: GoneAround) -> Fix | None:
    """Take off what lies across, or land the supply of a part ahead of its fuse."""
    (join,) = way.by
    if way.ahead is None:
        return undo_join(context, join)
    if join.sort != "conductor" or way.ahead not in context.terminals or not has_room(context, way.ahead):
        return None
    name = join.by.partition(":")[2]
    ends = context.layout.conductors[name].ends
    own = [index for index, end in enumerate(ends) if isinstance(end, str) and part_of(end) == way.fuse.part]
    return land(context, name, own[0], way.ahead) if len(own) == 1 else None


def _source(context: CheckContext, protection: Protection) -> str:
    return f"{context.label_of(protection.winding.part)} does not limit its own current"


def _assumed(context: CheckContext, protection: Protection) -> tuple[str, ...]:
    if limiting_of(context, protection.winding) != "unknown":
        return ()
    return (f"What limits {context.label_of(protection.winding.part)} is not known: taken as not limiting itself",)


def _evidence(context: CheckContext, protection: Protection, most: float, **more: float) -> Evidence:
    figures = {"fuse_amps_most": most, "volts_open": open_volts(context, protection.winding), **more}
    ends = ends_of(context, protection.winding)
    return measured(context, context.idle, *ends, figures) if ends else Evidence(more=figures)
