"""Study: what batteries drive through a device when a short lies at its own terminals.

Where plus and minus are separate conductors no terminal of the device shows the minus, and no
other fault lies so near. The minus is taken to be as far away as the plus: with Z from the
terminal back to the battery's minus and Z0 across the battery's own posts, the short has
Z + (Z - Z0).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.network import NotSolved
from linework.study.shorts.faults import Outcome, Point, strongest
from linework.study.situation import Situation


@dataclass(frozen=True)
class AtDevice:
    """The largest current of one device, ampere, at ``volts`` before it; ``fault`` the short
    without the way back."""

    device: int
    amps: float
    volts: float
    fault: Outcome


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


def _asked(situation: Situation) -> Iterator[tuple[int, Point, Point]]:
    """Each device with the short at its terminal and the one across the battery's posts."""
    circuit = situation.circuit
    for index, device in enumerate(circuit.devices):
        contacts = [circuit.branches[i] for i in device.branches if i in situation.closed]
        for node in sorted({node for branch in contacts for node in (branch.a, branch.b)}):
            for system in situation.feeds(node):
                source = circuit.sources[system.source]
                if source.data.group.stores and node not in (source.plus, source.minus):
                    posts = (source.plus, source.minus)
                    yield index, _point(node, source.minus), _point(*posts)


def _point(node: int, back: int) -> Point:
    return Point("", "", "+", "-", "neutral", node, back, 0.0)


def _told(device: int, near: Outcome, far: Outcome) -> AtDevice:
    amps = near.device_a.get(device, 0.0)
    if near.current_a > 0.0 and far.current_a > 0.0:
        ohm, posts = near.before_v / near.current_a, far.before_v / far.current_a
        amps *= ohm / (ohm + max(ohm - posts, 0.0))
    return AtDevice(device, amps, near.before_v, near)
