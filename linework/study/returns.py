"""Study: how much current devices let through a return conductor that runs by itself.

A neutral or minus beside its hot conductor is protected with it. One in a run of its own, or of a
size of its own, carries what the devices before all loads behind it let pass.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from linework.circuit.incircuit import LINKS
from linework.study.protection import Guard, guards
from linework.study.situation import Situation, System
from linework.wiring import Pole, is_ungrounded


@dataclass(frozen=True)
class Return:
    """A return conductor (branch index) and the most that a source drives through it for good.

    ``device``: index of the device that sets ``limit_a``, or of the largest of several that do
    together.
    """

    branch: int
    system: System
    device: int
    limit_a: float


def returns(situation: Situation, wanted: Collection[int]) -> Iterator[Return]:
    """For each of these branches and each source winding whose current comes back through it.

    What some way reaches without a device has no limit here; it is unprotected already.
    """
    for system in situation.systems:
        ahead: dict[int, Guard] | None = None
        for branch in sorted(wanted):
            hot = _hot_behind(situation, system, branch)
            if not hot:
                continue
            if ahead is None:
                ahead = guards(situation, system)
            devices = {ahead[node].device for node in hot if node in ahead}
            found = _limit(situation, system, hot, {d for d in devices if d is not None})
            if found is not None and None not in devices:
                yield Return(branch, system, *found)


def _hot_behind(situation: Situation, system: System, branch: int) -> set[int]:
    """Hot nodes of the loads and outlets that a source feeds and that lose their way back to it
    when a branch is opened."""
    cluster = situation.labels_without(frozenset({branch}), LINKS)
    home = cluster[situation.circuit.sources[system.source].minus]
    pairs = [(a, b) for _, x in situation.loads for a, b in ((x.a, x.b), (x.b, x.a))]
    for face in situation.circuit.faces:
        lines = [n for pole, n in face.nodes.items() if is_ungrounded(Pole(pole))]
        backs = [n for pole, n in face.nodes.items() if pole in (Pole.N, Pole.NEG)]
        pairs += [(a, b) for a in lines for b in backs]
    whole = situation.clusters
    return {
        a
        for a, b in pairs
        if whole[a] == system.hot and whole[b] == system.back and cluster[b] != home
    }


def _limit(
    situation: Situation, system: System, hot: set[int], devices: set[int]
) -> tuple[int, float] | None:
    """All their devices together, or one before all of them."""
    if not devices:
        return None
    rated = {i: situation.circuit.devices[i].data.rating_a for i in devices}
    best = max(rated, key=lambda i: rated[i]), sum(rated.values())
    for index, device in enumerate(situation.circuit.devices):
        opened = frozenset(device.branches) & situation.closed
        if device.data.rating_a < best[1] and opened:
            cluster = situation.labels_without(opened, LINKS)
            plus = cluster[situation.circuit.sources[system.source].plus]
            if all(cluster[node] != plus for node in hot):
                best = index, device.data.rating_a
    return best
