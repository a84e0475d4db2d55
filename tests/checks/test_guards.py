"""The timers between a call and a compressor, where relays lead around."""

from __future__ import annotations

from app.catalogue.builtin import builtin_catalogue
from app.checks.check import context_of
from app.checks.facts.guards import guards_of
from app.checks.samples import gas_and_cooling
from app.job.sketch import sketch_job


def test_relays_that_hold_each_other_are_each_followed_once() -> None:
    delay = {"kind": "time-delay-relay", "settings": {"delay_s": 30}}
    wires = {
        "w7": "fb.Y one.A1",
        "w9": "one.A2 fb.C",
        "w10": "fb.R one.COM",
        "w11": "one.NO two.A1",
        "w12": "two.A2 fb.C",
        "w13": "fb.R two.COM",
        "w14": "two.NO ou.Y",
        # The second keeps the first in, and so each lies on the way to the other.
        "w15": "two.NO one.A1",
    }
    layout = gas_and_cooling(wires, {"one": delay, "two": delay})
    context = context_of(sketch_job(layout), "as-left", builtin_catalogue())
    called = next(each for each in context.called if each.point.runs("compressor"))
    timed = [guard.part for guard in guards_of(context, called, "ou") if guard.seconds == 30]
    assert sorted(timed) == ["one", "two"]
