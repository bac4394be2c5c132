"""All shorts of one network, each alone, from one factorisation.

With ``V`` the potentials before a short and ``w`` those of one ampere sent in at p and taken out at
q, a short of p to q carries ``I = (Vp - Vq) / (wp - wq)`` and moves the potentials by ``-w I``.
The ampere is sent in at p and taken out at q together: sent in alone it would return through soil,
and what differs between p and q be lost in the rounding. Neither w nor the potentials of a short
are ever put down whole: what is asked of them are entries of the inverse
(:mod:`linework.circuit.inverse`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from linework.circuit.inverse import Indices, large_products, products
from linework.circuit.model import LiveSource
from linework.circuit.network import Complex, Network, Reals, emf

LEAST_SHARE = 1e-4
"""What carries less of a fault's current than this neither ends it nor burns in it."""

_FEW = 200_000
"""So many shares of branches in shorts are all put down."""

_TOGETHER = 32
"""So many shorts of like current are checked in one sum."""


@dataclass(frozen=True)
class Carriers:
    """Branches (places in ``net.closed``) that carry ``LEAST_SHARE`` of a short's current, each
    beside that short."""

    places: Indices
    shorts: Indices


class Shorted:
    """The shorts of pairs of nodes (p, q)."""

    def __init__(self, net: Network, p: Sequence[int], q: Sequence[int]) -> None:
        self.net = net
        self.p, self.q = np.array(p, dtype=np.intp), np.array(q, dtype=np.intp)
        self._ampere = net.halves(self.p, self.q)
        loop = np.asarray(self._ampere.multiply(self._ampere).sum(axis=0)).ravel()
        safe = np.where(np.abs(loop) > 0.0, loop, 1.0)
        self.joined = np.array([_one_island(net, *ends) for ends in zip(p, q, strict=True)])
        across = net.open_volts[self.p] - net.open_volts[self.q]
        self.before_v: Reals = np.where(self.joined, np.abs(across), 0.0)
        self.current: Complex = np.where(self.joined, across / safe, 0.0)

    @property
    def count(self) -> int:
        """How many there are."""
        return int(self.p.size)

    def sources(self, chosen: Sequence[int], shorts: Indices) -> Reals:
        """Current of each of some sources (row) in some of the shorts, in ampere."""
        found: list[LiveSource] = [self.net.circuit.sources[i] for i in chosen]
        plus, minus = [s.plus for s in found], [s.minus for s in found]
        volts = self.net.open_volts
        moved = (self.net.halves(plus, minus).T @ self._ampere[:, shorts]).toarray()
        during = (volts[plus] - volts[minus])[:, None] - moved * self.current[shorts]
        e = np.array([emf(s) for s in found], dtype=np.complex128)
        y = np.array([self.net.source_y[i] for i in chosen], dtype=np.complex128)
        amps: Reals = np.abs((e[:, None] - during) * y[:, None])
        return amps

    @cached_property
    def _shares(self) -> Complex | None:
        """The part of each short's current (column) in each of ``net.closed``, where they are few:
        then it costs less to put all down than to look for those asked for."""
        if len(self.net.closed) * self.count > _FEW:
            return None
        found: Complex = (self.net.branch_halves.T @ self._ampere).toarray()
        return found

    def carriers(self) -> Carriers:
        """What carries current in which short."""
        if self._shares is not None:
            large = (np.abs(self._shares) >= LEAST_SHARE) & (np.abs(self.current) > 0.0)
            shorts, places = np.nonzero(large.T)
            return Carriers(places, shorts)
        live = np.flatnonzero(np.abs(self.current) > 0.0)
        found = large_products(self.net.branch_halves, self._ampere[:, live], LEAST_SHARE)
        return Carriers(found[0], live[found[1]])

    def through(self, places: Indices, shorts: Indices) -> Complex:
        """Current of branches (places in ``net.closed``), each in a short, in ampere."""
        net = self.net
        share = (
            products(net.branch_halves, self._ampere, places, shorts)
            if self._shares is None
            else self._shares[places, shorts]
        )
        a, b, y = net.a[places], net.b[places], net.y[places]
        before: Complex = (net.open_volts[a] - net.open_volts[b]) * y
        return before - share * self.current[shorts]

    def potentials(self, nodes: Indices, shorts: Indices) -> Complex:
        """Potentials of nodes, each in a short, in volt."""
        moved = products(self.net.half, self._ampere, self.net.position[nodes], shorts)
        return self.net.open_volts[nodes] - moved * self.current[shorts]

    # checking

    def unbalanced(self) -> int | None:
        """A short in which Kirchhoff does not hold at every node, None where there is none.

        Shorts of like current are added up, each turned by an angle of its own so that no two can
        hide each other, and the potentials of the sum are put down whole.
        """
        order = np.argsort(np.abs(self.current), kind="stable")
        for block in np.array_split(order, 1 + order.size // _TOGETHER):
            if self._unbalanced(block):
                alone = (k for k in block.tolist() if self._unbalanced([k]))
                return next(alone, int(block[-1]))
        return None

    def _unbalanced(self, block: npt.ArrayLike) -> bool:
        net, chosen = self.net, np.array(block, dtype=np.intp)
        turned = np.exp(1j * np.arange(chosen.size) ** 2) * self.current[chosen]
        moved = net.spread(self._ampere[:, chosen] @ turned)
        injected = np.zeros(net.size, dtype=np.complex128)
        np.add.at(injected, self.p[chosen], turned)
        np.subtract.at(injected, self.q[chosen], turned)
        most = float(np.max(np.abs(self.current[chosen]), initial=0.0))
        limit = 1e-9 * most + net.rounding_a(moved) + net.rounding_a(net.open_volts)
        return bool(net.unbalance(moved, injected) > limit)


def _one_island(net: Network, p: int, q: int) -> bool:
    label = net.islands.label
    return label[p] == label[q] and net.islands.live(p)
