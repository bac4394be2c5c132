"""Loads that no source feeds by wires, and that still get a voltage: through other loads."""

from __future__ import annotations

from collections.abc import Iterator

from linework.study.loads.loaded import Loaded
from linework.study.studies import Studies

_FELT = 0.1
"""From this share of its rated voltage on a load is counted as getting some (practice)."""


def through_others(studies: Studies, loaded: Loaded) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Each such load with the sources that reach one of its ends.

    One that hangs on a hot conductor alone gets what capacitance drives, next to nothing.
    """
    situation, fed = studies.situation, studies.energised.fed
    for index, load in situation.loads:
        felt = loaded.load_v.get(index, 0.0) > _FELT * load.data.volts
        if load.data.own and index not in fed and felt:
            ends = (load.a, load.b)
            owners = {s.owner for node in ends for s in situation.feeds(node)}
            if owners:
                yield index, tuple(sorted(owners))
