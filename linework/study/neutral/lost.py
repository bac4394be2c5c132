"""Study: what happens at the loads when the neutral of both legs opens.

One conductor taken out of a solved network: with w the potentials of one ampere sent in at its
one end and taken out at the other, y its admittance and v the voltage along it, the potentials
move by w y v / (1 - y (w_a - w_b)) (J. Sherman and W. Morrison 1950).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from linework.circuit.network import IN_USE, Complex, Network
from linework.study.neutral.neutrals import Taker, balanced_neutrals
from linework.study.situation import Situation


@dataclass(frozen=True)
class Lost:
    """One conductor (``branch``) that returns both legs, opened.

    ``load_v``: voltage then at each load that is in circuit; ``takers`` hang on it. ``metal_v``:
    of each piece of touchable metal to earth or a body, where such is drawn and joined.
    """

    branch: int
    takers: tuple[Taker, ...]
    load_v: dict[int, float]
    metal_v: dict[int, float]


def lost_neutrals(situation: Situation) -> list[Lost]:
    """Each in turn, loads as impedances. NotSolved where the network is singular."""
    found = []
    for branch, takers in balanced_neutrals(situation).items():
        net = situation.network(takers[0].system.hertz, IN_USE)
        volts = _without(net, branch)
        load_v = {
            i: float(abs(complex(volts[load.a] - volts[load.b])))
            for i, load in situation.loads
            if i in net.load_y
        }
        found.append(Lost(branch, takers, load_v, _metal_v(situation, net, volts)))
    return found


def _metal_v(situation: Situation, net: Network, volts: Complex) -> dict[int, float]:
    """By the index of the metal."""
    circuit, label = situation.circuit, net.islands.label
    found: dict[int, float] = {}
    for i, metal in enumerate(circuit.metals):
        grounds = [n for n in circuit.anchors if label[n] == label[metal.node]]
        if grounds and net.islands.live(metal.node):
            found[i] = max(float(abs(complex(volts[metal.node] - volts[n]))) for n in grounds)
    return found


def _without(net: Network, branch: int) -> Complex:
    """The potentials once a branch is open."""
    opened = net.circuit.branches[branch]
    one = np.zeros(net.size, dtype=np.complex128)
    one[opened.a], one[opened.b] = 1.0, -1.0
    w, y = net.solve(one), net.branch_y[branch]
    along = net.open_volts[opened.a] - net.open_volts[opened.b]
    left = 1.0 - y * (w[opened.a] - w[opened.b])
    if abs(left) <= 1e-12:  # nothing but this conductor held its far end
        return net.open_volts
    moved: Complex = net.open_volts + w * (y * along / left)
    return moved
