"""What the arrays of the circuit hold."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Columns = NDArray[np.complex128]
"""Volts, amps or siemens; mostly a row for each node and a column for each question."""
Flags = NDArray[np.bool_]
Floats = NDArray[np.float64]
Numbers = NDArray[np.int64]
Words = NDArray[np.uint64]
"""Bits, 64 to a word."""
