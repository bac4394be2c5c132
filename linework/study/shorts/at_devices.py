"""Study: what batteries drive through a device when a short lies at its own terminals.

Where plus and minus are separate conductors no terminal of the device shows the minus, and no
other fault lies so near. The minus is taken to be as far away as the plus: with Z from the
terminal back to the battery's minus and Z0 across the battery's own posts, the short has
Z + (Z - Z0).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from linework.circuit.network import NotSolved
from linework.study.once import once
from linework.study.shorts.faults import Outcome, Point, strongest, weakest
from linework.study.situation import Situation


@dataclass(frozen=True)
class AtDevice:
    """The largest current of one device, ampere, at ``volts`` before it; ``fault`` the short
    without the way back."""

    device: int
    amps: float
    volts: float
    fault: Outcome


@once
def at_devices(situation: Situation) -> list[AtDevice]:
    """For each device that batteries feed, the shorts at its terminals; none where the network was
    not solved."""
    asked = list(_asked(situation))
    try:
        found = strongest(situation, [point for _, *both in asked for point in both])
    except NotSolved:
        return []
    here = zip(asked, found[::2], found[1::2], strict=True)
    return [_told(device, near, far) for (device, _, _), near, far in here]


def between_poles(situation: Situation, nodes: Iterable[int]) -> dict[int, tuple[float, float]]:
    """The least and most current of a short from each node that batteries feed to their minus, in
    ampere; of none where the network was not solved."""
    asked = [(node, both) for node in sorted({*nodes}) for both in _shorts(situation, node)]
    points = [point for _, both in asked for point in both]
    try:
        outcomes = [solve(situation, points) for solve in (weakest, strongest)]
    except NotSolved:
        return {}
    found: dict[int, tuple[float, float]] = {}
    for at, (node, _) in enumerate(asked):
        least, most = (
            near.current_a * _back(near, far)
            for near, far in (each[2 * at : 2 * at + 2] for each in outcomes)
        )
        low, high = found.get(node, (least, most))
        found[node] = (min(low, least), max(high, most))
    return found


def _asked(situation: Situation) -> Iterator[tuple[int, Point, Point]]:
    """Each device with the short at its terminal and the one across the battery's posts."""
    circuit = situation.circuit
    for index, device in enumerate(circuit.devices):
        contacts = [circuit.branches[i] for i in device.branches if i in situation.closed]
        for node in sorted({node for branch in contacts for node in (branch.a, branch.b)}):
            for near, far in _shorts(situation, node):
                yield index, near, far


def _shorts(situation: Situation, node: int) -> Iterator[tuple[Point, Point]]:
    """From a node to the minus of each battery that feeds it, and across that battery's posts."""
    for system in situation.feeds(node):
        source = situation.circuit.sources[system.source]
        if source.data.group.stores and node not in (source.plus, source.minus):
            yield _point(node, source.minus), _point(source.plus, source.minus)


def _point(node: int, back: int) -> Point:
    return Point("", "", "+", "-", "neutral", node, back, 0.0)


def _told(device: int, near: Outcome, far: Outcome) -> AtDevice:
    return AtDevice(device, near.device_a.get(device, 0.0) * _back(near, far), near.before_v, near)


def _back(near: Outcome, far: Outcome) -> float:
    """What the way back leaves of a current, as a part of it."""
    if near.current_a > 0.0 and far.current_a > 0.0:
        ohm, posts = near.before_v / near.current_a, far.before_v / far.current_a
        return ohm / (ohm + max(ohm - posts, 0.0))
    return 1.0
