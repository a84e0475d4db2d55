"""``python -m app`` is the same as ``rungwright``."""

from __future__ import annotations

from app.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
