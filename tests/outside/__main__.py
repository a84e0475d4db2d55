"""Prints the page of all checks against the outside world."""

from __future__ import annotations

import sys

from tests.outside.page import page

sys.stdout.write(page())
