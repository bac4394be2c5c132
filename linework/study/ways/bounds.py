"""Study: the most that devices further on let through a conductor that none protects itself.

A neutral or minus beside its hot conductor is protected with it. One in a run of its own, or of a
size of its own, carries what the devices before all loads behind it let pass; so does what links
the batteries of a string.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from linework.circuit.incircuit import LINKS
from linework.circuit.series import ways_back
from linework.study.situation import Situation, System
from linework.study.ways.protection import Guard, guards
from linework.wiring import Pole, is_ungrounded

_Across = tuple[int, int]
"""Hot and return node of a load or outlet."""


@dataclass(frozen=True)
class Bound:
    """A conductor (branch index) and the most that a source drives through it for good.

    ``device``: index of the device that sets ``limit_a``, or of the largest of several that do
    together.
    """

    branch: int
    system: System
    device: int
    limit_a: float


def bounds(situation: Situation, wanted: Collection[int]) -> Iterator[Bound]:
    """For each of these branches and each source winding whose current passes it.

    What some way reaches without a device has no bound; it is unprotected already.
    """
    for system in situation.systems:
        fed = _fed(situation, system, situation.clusters, _across(situation))
        if not fed:
            continue
        ahead: dict[int, Guard] = {}
        for branch in sorted(wanted):
            cluster = situation.labels_without(frozenset({branch}), LINKS)
            hot = {a for a, _ in set(fed) - set(_fed(situation, system, cluster, fed))}
            if not hot:
                continue
            ahead = ahead or guards(situation, system)
            devices = {ahead[node].device for node in hot if node in ahead}
            found = _limit(situation, system, hot, {d for d in devices if d is not None})
            if found is not None and None not in devices:
                yield Bound(branch, system, *found)


def _across(situation: Situation) -> list[_Across]:
    """What may draw current: loads, either way round, and the contacts of outlets."""
    pairs = [(a, b) for _, x in situation.loads for a, b in ((x.a, x.b), (x.b, x.a))]
    for face in situation.circuit.faces:
        lines = [n for pole, n in face.nodes.items() if is_ungrounded(Pole(pole))]
        backs = [n for pole, n in face.nodes.items() if pole in (Pole.N, Pole.NEG)]
        pairs += [(a, b) for a in lines for b in backs]
    return pairs


def _fed(
    situation: Situation, system: System, label: Sequence[int], pairs: Collection[_Across]
) -> list[_Across]:
    """Those that a source reaches and comes back from, through its string where it has one."""
    plus = label[situation.circuit.sources[system.source].plus]
    back = ways_back(situation, system.source, label)
    return [(a, b) for a, b in pairs if label[a] == plus and label[b] in back]


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
