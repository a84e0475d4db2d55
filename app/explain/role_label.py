"""What a conductor is for, as short as it can stand beside a line on a sheet.

Rules of the file: a short form never says less than half of the truth: what else a conductor carries is named or
counted, and the mode of a reversing valve stays.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from app.explain.role import Role, RoleName

SHORT: Mapping[RoleName, tuple[str, ...]] = {
    "supply": ("supply",),
    "common": ("common",),
    "ground": ("ground",),
    "compressor": ("compressor",),
    "compressor-2": ("compressor stage 2", "compressor 2"),
    "reversing-valve": ("reversing valve", "rev. valve"),
    "furnace-heat": ("furnace heat",),
    "furnace-heat-2": ("furnace heat stage 2", "furnace heat 2"),
    "auxiliary-heat": ("auxiliary heat", "aux. heat"),
    "emergency-heat": ("emergency heat",),
    "electric-heat": ("electric heat",),
    "boiler-heat": ("boiler heat",),
    "defrost-output": ("defrost output", "defrost"),
    "pump": ("pump",),
    "humidifier": ("humidifier",),
    "zone-open": ("zone open",),
    "zone-close": ("zone close",),
    "ventilation": ("fresh air",),
    "dehumidifier": ("drying",),
    "indoor-fan": ("indoor fan",),
    "outdoor-fan": ("outdoor fan",),
    "signal": ("signal",),
    "sensor": ("sensor",),
    "bus": ("data",),
    "millivolt": ("millivolts",),
    "line": ("line voltage",),
    "spare": ("spare",),
    "unknown": ("not known",),
    "no-effect": ("no effect",),
}
"""The words for each role, the fuller ones first."""


@lru_cache(maxsize=1024)
def role_labels(role: Role) -> tuple[str, ...]:
    """Return the forms in which a role may stand beside a conductor, the fullest first."""
    mode = f", {role.mode}" if role.mode else ""
    names = [words + mode for words in SHORT[role.name]]
    if not role.also:
        return tuple(names)
    others = " + ".join(SHORT[name][-1] for name in role.also)
    return *(f"{name} + {others}" for name in names), f"{names[-1]} + {len(role.also)} more"
