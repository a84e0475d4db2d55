"""What a run leaves for its coil, and how long it may be, against figures worked out by hand from published ohms."""

from __future__ import annotations

import pytest

from app.checks.facts.fed import weakest
from app.checks.facts.runs import Run, pull_in_of, run_of
from app.checks.samples import Parts, with_wires
from app.job.sketch import sketch
from tests.checks.bench import COIL, context

FEET = 0.3048


@pytest.mark.parametrize(
    ("lengths_ft", "ohms", "feet"),
    [((200.0,), 0.5, 70.5), ((200.0, 200.0), 0.5, 35.2), ((200.0, 100.0), 0.5, 47.0), ((200.0,), 1.5, 227.1)],
    ids=["one", "out-and-back", "shortened-alike", "longer-than-it-is"],
)
def test_the_longest_run_follows_from_the_ohms_of_a_thousand_feet(
    lengths_ft: tuple[float, ...], ohms: float, feet: float
) -> None:
    # 18 AWG has 6.385 ohm in 1,000 ft; a contact and a fuse take 0.05 ohm of what the run may have.
    run = Run(tuple((f"w{at}", length * FEET, 18) for at, length in enumerate(lengths_ft)), 0.05)
    assert run.longest_for(ohms) == pytest.approx(feet * FEET, rel=0.005)


def test_no_length_will_do_where_contacts_alone_have_too_many_ohms() -> None:
    assert Run((("w1", 30.0, 18),), 0.05).longest_for(0.04) == 0


def test_of_a_coil_that_does_not_pull_in_the_volts_of_its_source_are_told() -> None:
    # 200 ft of 24 AWG out and back, 25.67 ohm in 1,000 ft: 10.27 ohm. The coil keeps taking its inrush of 40 VA at
    # 24 V, that is 14.4 ohm, from 26.4 V behind the 1.44 ohm of a winding of 40 VA and 10 %.
    parts: Parts = {"xf": "control-transformer", "k": "coil"}
    layout = with_wires(sketch(parts, "xf.R k.A", "k.B xf.C"), "w1 w2", length_m=200 * FEET, size_awg=24)
    asking = context(layout, coil=COIL)
    (fed,) = asking.once(weakest).values()
    run = run_of(asking, fed)
    assert run is not None
    assert not fed.pulled_in
    pull_in = pull_in_of(asking, fed, run.ohms(), 20.4)
    assert run.ohms() == pytest.approx(10.27, rel=0.005)
    assert pull_in.volts == pytest.approx(26.4 * 14.4 / 26.11, abs=0.05)
    assert pull_in.source_volts == pytest.approx(26.4 * 24.67 / 26.11, abs=0.05)
    # From the rated 24 V, 14.4 ohm keep 20.4 V behind 2.54 ohm.
    assert pull_in.ohms_for == pytest.approx(24 * 14.4 / 20.4 - 14.4, abs=0.01)
