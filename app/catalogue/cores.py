"""The insulation codes that cables of so many conductors customarily have.

Rules of the file: this only saves typing. What a conductor does never follows from it, and cables with other colours
are as good. Codes are those of IEC 60757; up to eight conductors common practice, no source, ten from memory.
"""

from __future__ import annotations

from collections.abc import Mapping

_ORDER = ("RD", "WH", "GN", "YE", "BU", "OG", "BN", "BK", "PK", "GY")
_COUNTS = (2, 3, 4, 5, 6, 7, 8, 10)

CUSTOMARY_CORES: Mapping[int, tuple[str, ...]] = {count: _ORDER[:count] for count in _COUNTS}
"""By number of conductors, in the order in which they are customarily listed."""
