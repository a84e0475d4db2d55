"""What tells two settled networks apart, apart from the supply and from the calls and positions that led there."""

from __future__ import annotations

from collections.abc import Hashable

from app.circuit.settle import Settled, Snapshot


def end_of(settled: Settled) -> Hashable:
    """Return a key that is equal for two ends of one network exactly when they differ in nothing that can be read."""
    unsettled = settled.unsettled
    why = None if unsettled is None else (unsettled.why, unsettled.elements, tuple(unsettled.outcomes.items()))
    return tuple(map(_key_of, settled.snapshots)), why, tuple(settled.blown)


def _key_of(snapshot: Snapshot) -> Hashable:
    scene, state, doubt = snapshot.scene, snapshot.state, snapshot.doubt
    effects = scene.cast.effects(state.held, state.opened, state.memory, doubt.judged, doubt.fuses)
    return id(scene.figures), snapshot.on, scene.extras, scene.joins, state.held, state.opened, doubt, effects
