"""The voltage that a short puts on touchable metal."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from linework.circuit.inverse import Indices
from linework.circuit.network import Reals
from linework.study.shorts.shorted import Carriers, Shorted
from linework.study.situation import Situation

_FEW = 100_000
"""So many pairs of metal and short are all worked out."""


def metal_volts(
    situation: Situation,
    shorts: Shorted,
    carriers: Carriers,
    scale: Reals,
    asked: Sequence[bool],
) -> Reals:
    """The largest voltage of touchable metal against the reference in the shorts ``asked``,
    ``scale`` times that of the network.

    Metal whose island has no path to the reference is not defined there (NaN). What only
    capacitance joins to the fault is left out: a hand takes its voltage away. Metal beside the way
    of the current takes the voltage of where it hangs, but for what leaks lose in its own ground
    wire: where there is much, the nearest stands for all at one point.
    """
    net, label = shorts.net, np.array(shorts.net.islands.label)
    defined = np.abs(shorts.current) * scale > net.rounding_a(net.open_volts)
    volts = np.where(np.array(asked, dtype=bool) & ~defined, np.nan, 0.0)
    nodes, columns = _candidates(situation, shorts, carriers)
    to = shorts.q[columns]
    joined = np.array(situation.conductive)
    reference = np.array([net.islands.reference.get(key, -1) for key in label[to].tolist()])
    near = (joined[nodes] == joined[to]) | (joined[nodes] == joined[reference])
    kept = (nodes == to) | ((label[nodes] == label[to]) & near)
    kept &= (np.array(asked, dtype=bool) & defined)[columns]
    np.maximum.at(volts, columns[kept], np.abs(shorts.potentials(nodes[kept], columns[kept])))
    return volts * scale


def _candidates(
    situation: Situation, shorts: Shorted, carriers: Carriers
) -> tuple[Indices, Indices]:
    """Pieces of metal (nodes), each beside a short: all in all shorts while these are few, else
    those on the way of the current, each once."""
    net, every = shorts.net, np.arange(shorts.count)
    metals = np.array(sorted({m.node for m in situation.circuit.metals}), dtype=np.intp)
    if metals.size * shorts.count <= _FEW:
        nodes = np.concatenate([shorts.q, np.tile(metals, shorts.count)])
        return nodes, np.concatenate([every, np.repeat(every, metals.size)])
    nearest = _nearest_metal(situation)
    ends = np.concatenate([net.a[carriers.places], net.b[carriers.places]])
    nodes = np.concatenate([shorts.q, nearest[ends]])
    columns = np.concatenate([every, np.tile(carriers.shorts, 2)])
    there = np.unique(columns[nodes >= 0] * net.size + nodes[nodes >= 0])
    return there % net.size, there // net.size


def _nearest_metal(situation: Situation) -> Indices:
    """For each node the nearest touchable metal that conductors join to it, -1 for none."""
    circuit, wires = situation.circuit, situation.wires(bonds=True)
    found: npt.NDArray[np.intp] = np.full(len(circuit.spots), -1, dtype=np.intp)
    queue = deque(sorted({metal.node for metal in circuit.metals}))
    found[list(queue)] = list(queue)
    while queue:
        node = queue.popleft()
        for _, other in wires.get(node, ()):
            if found[other] < 0:
                found[other] = found[node]
                queue.append(other)
    return found
