"""Loop ohms and drops of runs of control cable, worked out by hand."""

from __future__ import annotations

from functools import partial

from tests.outside.asked import FOOT_M, conductor_ohms
from tests.outside.record import Check, Near, Source

RUNS = (
    (50, 18, 0.639, 0.27, 0.53),
    (100, 18, 1.277, 0.53, 1.06),
    (100, 20, 2.030, 0.85, 1.69),
    (100, 22, 3.228, 1.35, 2.69),
    (200, 18, 2.554, 1.06, 2.13),
    (200, 22, 6.456, 2.69, 5.38),
)
"""(feet one way, AWG, loop ohms, drop at 10 VA, drop at 20 VA): handbook 3.4."""


def loop_ohms(feet: int, size_awg: int) -> float:
    """Return the ohms of both conductors of a run."""
    return 2 * conductor_ohms(feet * FOOT_M, size_awg)


def drop(feet: int, size_awg: int, va: float) -> float:
    """Return the drop of a run at the amps that a load takes at 24 V."""
    return loop_ohms(feet, size_awg) * va / 24


SOURCE = Source(
    title="Voltage drop of control cable at 20 °C, there and back",
    status="calculated",
    how="the volts along both conductors of the run over their amps; for the drop, times the amps at 24 V",
    checks=(
        *(
            Check(f"loop of {feet} ft of {size} AWG", Near(loop, "Ω", 0.001), partial(loop_ohms, feet, size))
            for feet, size, loop, _, _ in RUNS
        ),
        *(
            Check(
                f"drop of {va} VA over {feet} ft of {size} AWG",
                Near(figure, "V", absolute=0.006),
                partial(drop, feet, size, va),
            )
            for feet, size, _, *drops in RUNS
            for va, figure in zip((10, 20), drops, strict=True)
        ),
    ),
)
