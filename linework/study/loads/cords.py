"""Study: what a flexible cord turns into heat with the drawn loads on."""

from __future__ import annotations

from collections.abc import Collection

from linework.study.loads.loaded import Loaded
from linework.study.situation import Situation

_WIRES = ("run", "cord")


def cord_watts(situation: Situation, loaded: Loaded, owners: Collection[str]) -> dict[str, float]:
    """The heat in watt along the conductors of each run or cord set, hot: the sum of I2 R."""
    branches = situation.circuit.branches
    found = dict.fromkeys(owners, 0.0)
    for i in situation.closed:
        branch = branches[i]
        if branch.owner in found and branch.sort in _WIRES:
            found[branch.owner] += loaded.amps(i) ** 2 * branch.r_hot
    return found
