"""One branch that a fault adds between two nodes, answered from the network without it.

Let z be the volts between the two nodes for 1 A that is sent from one to the other, and v those that stand there
already: the branch then carries v / (z + its ohms). Where the two nodes lie in different components it carries
nothing, and makes one component of them. (Sherman and Morrison's formula; v and z are taken by elimination, in which
nothing is subtracted.)
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from app.circuit.batch.elimination import Columns, Roots, Solved, substitute
from app.circuit.batch.levels import Levels, Whole


def with_shorts(
    levels: Levels, base: Solved, columns: Whole, a: Whole, b: Whole, ohms: NDArray[np.float64]
) -> tuple[Columns, Roots]:
    """Return (volts, root) with one branch added to each column.

    Args:
        levels: of the plan with which ``base`` was solved.
        base: the networks without the added branches.
        columns: for each answer the column of ``base`` that it starts from.
        a, b, ohms: for each answer the added branch.
    """
    each = np.arange(len(columns))
    volts, root = base.volts[:, columns], base.root[:, columns]
    across = volts[a, each] - volts[b, each]
    from_root, to_root = root[b, each], root[a, each]
    loop = np.flatnonzero(from_root == to_root)
    if len(loop):
        injected = np.zeros((base.volts.shape[0], len(loop)), dtype=complex)
        injected[a[loop], np.arange(len(loop))] = 1
        injected[b[loop], np.arange(len(loop))] = -1
        per_amp = substitute(levels, base.entries[:, columns[loop]], base.inverse[:, columns[loop]], injected)
        z = per_amp[a[loop], np.arange(len(loop))] - per_amp[b[loop], np.arange(len(loop))]
        volts[:, loop] -= per_amp * (across[loop] / (z + ohms[loop]))
    if len(loop) < len(columns):
        moving = (root == from_root) & (from_root != to_root)
        volts += np.where(moving, across, 0)
        root = np.where(moving, to_root, root)
    return volts, root
