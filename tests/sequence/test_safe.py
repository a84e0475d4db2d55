"""What must never happen in a run, whatever is wired, called, switched and broken outside the equipment.

The compressor is guarded inside the heat pump, and the gas chain lies inside the furnace board: no wire leads around
them, so that both hold in every layout. Faults inside the equipment are another matter and are left out here.
"""

from __future__ import annotations

from random import Random

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.catalogue import Catalogue, settings_of
from app.circuit.network import build_circuit
from app.job.model import Layout
from app.sequence.run import Run
from tests.checks.chance import layout_by_chance
from tests.sequence.playing import DEMOS, demo_circuit, play, replayed, script, times_of

FURNACES = ("furnace-board", "furnace-board-2-stage")
HEAT_PUMP = "heat-pump-unit"


def parts_of(layout: Layout, *kinds: str) -> list[str]:
    """Return the parts of some kinds."""
    return [part for part, found in layout.parts.items() if found.kind in kinds]


def no_compressor_restarts_too_soon(run: Run, layout: Layout, catalogue: Catalogue) -> int:
    """Return how many starts were looked at."""
    looked_at = 0
    for part in parts_of(layout, HEAT_PUMP):
        off_s = settings_of(catalogue.kind(HEAT_PUMP), layout.parts[part])["minimum_off_s"]
        stopped = None
        for at_s, now in times_of(run, f"element:{part}.contactor"):
            if now == "released":
                stopped = at_s
            elif now == "pulled-in" and stopped is not None:
                looked_at += 1
                assert at_s - stopped >= float(off_s), (part, stopped, at_s)
    return looked_at


def no_gas_without_draft_and_flame_or_trial(run: Run, layout: Layout, catalogue: Catalogue) -> int:
    """Return at how many instants gas flowed.

    Where gas flows, the chain is closed and the inducer runs; gas has been flowing for no longer than a trial, or the
    flame is proved and heats; before it began to flow, the inducer had drawn for the pre-purge and the warm-up.
    """
    looked_at = 0
    for part in parts_of(layout, *FURNACES):
        values = settings_of(catalogue.kind(layout.parts[part].kind), layout.parts[part])
        times = {name: float(values[name]) for name in ("trial_s", "pre_purge_s", "warm_up_s")}
        flowing_since = drawing_since = None
        instants = list(replayed(run))
        for (at_s, shown), until in zip(instants, [*(at for at, _ in instants[1:]), run.until_s], strict=True):
            draws = shown.get(f"element:{part}.pressure_seen") == "on"
            drawing_since = None if not draws else at_s if drawing_since is None else drawing_since
            if shown.get(f"element:{part}.gas_valve") != "pulled-in":
                flowing_since = None
                continue
            looked_at += 1
            for contact in ("limit_c", "rollout_c", "pressure_c", "inducer_c"):
                assert shown[f"element:{part}.{contact}"] == "closed", (part, at_s, contact)
            assert shown[f"element:{part}.inducer_relay"] == "pulled-in", (part, at_s)
            if flowing_since is None:
                flowing_since = at_s
                assert drawing_since is not None, (part, at_s)
                if at_s >= 0:
                    assert at_s - drawing_since >= times["pre_purge_s"] + times["warm_up_s"], (part, at_s)
            if shown.get(f"effect:{part}:furnace-heat") != "on":
                assert until - flowing_since <= times["trial_s"], (part, at_s, until)
    return looked_at


def no_start_before_the_pressure_switch_was_seen_open(run: Run, layout: Layout, catalogue: Catalogue) -> int:
    """Return how many starts were looked at: each has the switch open at its instant, or since the last start."""
    looked_at = 0
    for part in parts_of(layout, *FURNACES):
        seen = "off"
        for event in run.events:
            if event.what == f"element:{part}.pressure_seen":
                seen = event.now
            if event.what == f"state:{part}.started" and event.now == "on":
                looked_at += 1
                assert seen == "off", (part, event)
    return looked_at


NEVER = (
    no_compressor_restarts_too_soon,
    no_gas_without_draft_and_flame_or_trial,
    no_start_before_the_pressure_switch_was_seen_open,
)


def with_equipment(name: str) -> bool:
    return bool(parts_of(DEMOS[name][0], HEAT_PUMP, *FURNACES))


def nothing_unsafe(layout: Layout, catalogue: Catalogue, run: Run) -> list[int]:
    return [check(run, layout, catalogue) for check in NEVER]


@pytest.mark.parametrize("name", [name for name in DEMOS if with_equipment(name) and "school" not in name])
def test_demos_by_chance(name: str) -> None:
    layout, catalogue = DEMOS[name]
    chance = Random(f"safe {name}")
    for _ in range(6):
        nothing_unsafe(layout, catalogue, play(demo_circuit(name), *script(chance, layout, catalogue, 12)))


def test_the_demos_do_start_and_burn() -> None:
    """What is never seen cannot go wrong: the scripts do light furnaces and restart compressors."""
    total = [0, 0, 0]
    for name in ("post-office-dual-fuel:as-left", "bakery-flat-heat-pump:as-left", "bell-loft-heat-only:as-left"):
        layout, catalogue = DEMOS[name]
        chance = Random(f"burns {name}")
        for _ in range(8):
            run = play(demo_circuit(name), *script(chance, layout, catalogue, 14, faults=False))
            total = [a + b for a, b in zip(total, nothing_unsafe(layout, catalogue, run), strict=True)]
    assert min(total) >= 3, total


def by_chance(seed: int) -> None:
    chance = Random(seed)
    catalogue = builtin_catalogue()
    layout = layout_by_chance(chance, catalogue)
    run = play(build_circuit(layout, catalogue), *script(chance, layout, catalogue))
    nothing_unsafe(layout, catalogue, run)


def test_layouts_by_chance() -> None:
    for seed in range(60):
        by_chance(7_000_000 + seed)


@pytest.mark.slow
@pytest.mark.parametrize("block", range(5), ids=lambda block: f"block-{chr(97 + block)}")
def test_many_layouts_by_chance(block: int) -> None:
    for seed in range(1000):
        by_chance(8_000_000 + 1000 * block + seed)
