"""Scripts and styles as they are served: without comments and without space that only people need.

A third of what a browser would fetch is said to whoever reads the source. Names stay as they are written, so that what
a browser says of a fault can be found in the source. Held by ``tests/web/test_slimming.py``: the text of each script
and what each string holds are the same before and after.
"""

from __future__ import annotations

from functools import lru_cache

from rcssmin import cssmin
from rjsmin import jsmin

KEPT = 300
SCRIPTS = frozenset({"text/javascript", "application/javascript"})
STYLES = frozenset({"text/css"})


def is_slimmed(media_type: str) -> bool:
    """Return whether files of this sort are served without what only people need."""
    return media_type in SCRIPTS | STYLES


@lru_cache(maxsize=KEPT)
def slim(data: bytes, media_type: str) -> bytes:
    """Return a script or a style sheet without comments and needless space; anything else as it is."""
    if not is_slimmed(media_type):
        return data
    words = data.decode()
    return str(jsmin(words) if media_type in SCRIPTS else cssmin(words)).encode()
