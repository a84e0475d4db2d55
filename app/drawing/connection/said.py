"""What a view says on a connection diagram besides what the layout itself says.

Rules of the file: words change how long landings become and what stands in them, never which conductor goes where.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from app.drawing.connection.part_box import LANDING_MOST

LABEL_CLEAR = 8
"""Between a label and the port of its landing."""


@dataclass(frozen=True)
class Said:
    """The words of a view. What it does not mention is written as the layout has it.

    Attributes:
        called: what a conductor is called at its ends, by its id in the layout that is drawn.
        after: what comes after that at an end, by conductor and number of the end, in place of the insulation code.
        loose: what stands beyond an end that is landed nowhere.
        landing_most: how long a landing may become in u, where these words ask for more than usual.
        clear: what stays free between a label and the port of its landing, in u.
    """

    called: Mapping[str, str] = field(default_factory=dict)
    after: Mapping[tuple[str, int], str] = field(default_factory=dict)
    loose: Mapping[tuple[str, int], str] = field(default_factory=dict)
    landing_most: int = LANDING_MOST
    clear: int = LABEL_CLEAR


NOTHING_SAID = Said()
