"""Study: the loop that the current of one short takes, piece by piece.

Of parallel ways the one on which the least of its pieces carries most; so the volts of the pieces
add up to those at the source's terminals, whatever flows beside (Kirchhoff's voltage law).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from heapq import heappop, heappush

import numpy as np

from linework.circuit.network import WEAKEST, Complex, Network
from linework.study.shorts.faults import Fault
from linework.study.shorts.shorted import Shorted
from linework.study.situation import Situation
from linework.study.ways.paths import way


@dataclass(frozen=True)
class Piece:
    """One conductor, contact or joint on the way; or another source of a string (``source``).

    ``owner``: id of the part or run. ``ohm``: amount of its impedance as the weakest fault sees
    it; ``amps`` through it; ``volts`` lost in it, as a phasor in the sense of the current.
    """

    owner: str
    sort: str
    pole: str
    ohm: float
    amps: float
    volts: complex

    @property
    def source(self) -> bool:
        """Whether it drives and loses nothing."""
        return self.sort == "source"


@dataclass(frozen=True)
class Loop:
    """The way of a short's current at its weakest.

    ``source``: id of the part that drives most of it, ``terminal_v`` the phasor between its
    terminals meanwhile. ``out``: from its hot terminal to the fault; ``back``: from the metal
    to its other terminal, None where nothing leads there: then no current flows.
    """

    source: str
    terminal_v: complex
    out: tuple[Piece, ...]
    back: tuple[Piece, ...] | None


def loop_of(situation: Situation, fault: Fault) -> Loop | None:
    """The loop of a short; None where no winding reaches it. NotSolved passes on."""
    point = fault.point
    net = situation.network(point.hertz, WEAKEST)
    shorts = Shorted(net, [point.node], [point.to_node])
    flows = fault.weak.current_a > 0.0
    # what a limited source gives is less than its network lets through, all of it by one share
    scale = fault.weak.current_a / abs(complex(shorts.current[0])) if flows else 1.0
    every = np.arange(net.size)
    volts = shorts.potentials(every, np.zeros(net.size, dtype=np.intp))
    drawn = {i: scale * amps for i, amps in net.source_output(volts).items()} if flows else {}
    volts = scale * volts
    fed = [s.source for s in situation.feeds(point.node) if s.hertz == point.hertz]
    if not fed:
        return None
    index = max(fed, key=lambda i: abs(drawn.get(i, 0j)))
    source = situation.circuit.sources[index]
    flow = _Flow(situation, net, volts, drawn, index)
    out = flow.way(source.plus, point.node)
    back = flow.way(point.to_node, source.minus)
    if out is None:
        return None
    between = complex(volts[source.plus] - volts[source.minus])
    return Loop(source.owner, between, out, back)


class _Flow:
    """Where the current of one short runs."""

    def __init__(
        self,
        situation: Situation,
        net: Network,
        volts: Complex,
        drawn: Mapping[int, complex],
        chosen: int,
    ) -> None:
        self.situation, self.net, self.volts = situation, net, volts
        self.amps = net.branch_currents(volts)
        self.drawn = {i: amps for i, amps in drawn.items() if i != chosen}
        self.at: dict[int, list[tuple[float, int, int]]] = {}
        for i, amps in self.amps.items():
            branch = situation.circuit.branches[i]
            self._add(i, abs(amps), branch.a, branch.b)
        for i, amps in self.drawn.items():
            source = situation.circuit.sources[i]
            self._add(-1 - i, abs(amps), source.plus, source.minus)

    def _add(self, key: int, amps: float, a: int, b: int) -> None:
        self.at.setdefault(a, []).append((amps, key, b))
        self.at.setdefault(b, []).append((amps, key, a))

    def way(self, start: int, goal: int) -> tuple[Piece, ...] | None:
        """The pieces between two nodes; where no current flows those of the shortest way."""
        keys = self._widest(start, goal)
        if keys is None:
            keys = way(self.situation, start, goal, bonds=True)
        return None if keys is None else tuple(self._pieces(start, keys))

    def _widest(self, start: int, goal: int) -> list[int] | None:
        """Of all ways that on which the least current is largest; of these the shortest."""
        found: dict[int, tuple[int, int] | None] = {}
        waiting: list[tuple[float, int, int, tuple[int, int] | None]] = [(-np.inf, 0, start, None)]
        while waiting and goal not in found:
            least, steps, node, last = heappop(waiting)
            if node in found:
                continue
            found[node] = last
            for amps, key, other in self.at.get(node, ()):
                if other not in found and amps > self._noise:
                    # to five digits: pieces of one current differ by rounding
                    width = max(least, -float(f"{amps:.5g}"))
                    heappush(waiting, (width, steps + 1, other, (key, node)))
        if goal not in found:
            return None
        keys: list[int] = []
        last = found[goal]
        while last is not None:
            keys.append(last[0])
            last = found[last[1]]
        return keys[::-1]

    @property
    def _noise(self) -> float:
        """Below it all is leakage and rounding, in ampere."""
        return max(1e-3, 10.0 * self.net.rounding_a(self.volts))

    def _pieces(self, start: int, keys: Iterable[int]) -> Iterable[Piece]:
        circuit, node = self.situation.circuit, start
        for key in keys:
            if key < 0:
                source = circuit.sources[-1 - key]
                after = source.minus if node == source.plus else source.plus
                lost = complex(self.volts[node] - self.volts[after])
                yield Piece(source.owner, "source", "", 0.0, abs(self.drawn[-1 - key]), lost)
            else:
                branch = circuit.branches[key]
                after = branch.b if node == branch.a else branch.a
                lost = complex(self.volts[node] - self.volts[after])
                ohm = abs(1.0 / self.net.branch_y[key]) if key in self.net.branch_y else 0.0
                amps = abs(self.amps.get(key, 0j))
                yield Piece(branch.owner, branch.sort, branch.pole, ohm, amps, lost)
            node = after
