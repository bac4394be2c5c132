"""Currents in what carries a fault, kept sparsely."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from linework.circuit.inverse import Indices
from linework.circuit.network import Complex, Reals
from linework.study.shorts.shorted import Carriers, Shorted
from linework.study.situation import Situation

if TYPE_CHECKING:
    from scipy.sparse import csr_matrix


class Flows(Mapping[int, float]):
    """Currents of one fault in ampere, by the index of what carries it; ``keys`` ascending."""

    __slots__ = ("_amps", "_keys")

    def __init__(self, keys: Indices, amps: Reals) -> None:
        self._keys, self._amps = keys, amps

    def __getitem__(self, key: int) -> float:
        at = int(np.searchsorted(self._keys, key))
        if at == len(self._keys) or self._keys[at] != key:
            raise KeyError(key)
        return float(self._amps[at])

    def pairs(self) -> Iterator[tuple[int, float]]:
        """Each index with its current; as ``items``, without their cost."""
        return zip(self._keys.tolist(), self._amps.tolist(), strict=True)

    def __iter__(self) -> Iterator[int]:
        return iter(self._keys.tolist())

    def __len__(self) -> int:
        return len(self._keys)


def flows_of(
    situation: Situation, shorts: Shorted, carriers: Carriers, scale: Reals
) -> tuple[list[Flows], list[Flows], list[Flows]]:
    """For each short the currents of what carries it, ``scale`` times those of the network.

    Of each run, bond, contact of a device and sensed conductor, by branch; the largest in the
    contacts of each device; the residual current of each ground-fault device.
    """
    circuit = situation.circuit
    sensed = {i for sensor in circuit.sensors for i in sensor.senses}
    watched: list[Sequence[int]] = [
        (i,) if b.sort in ("run", "bond") or i in circuit.device_of or i in sensed else ()
        for i, b in enumerate(circuit.branches)
    ]

    def told(groups: Sequence[Sequence[int]], join: Callable[[Complex, Indices], Reals]) -> _Told:
        return _grouped(shorts, carriers, groups, scale, join)

    return (
        told(watched, _largest),
        told([device.branches for device in circuit.devices], _largest),
        told([sensor.senses for sensor in circuit.sensors], _residual),
    )


_Told = list[Flows]


def _largest(amps: Complex, begins: Indices) -> Reals:
    return np.maximum.reduceat(np.abs(amps), begins)


def _residual(amps: Complex, begins: Indices) -> Reals:
    return np.abs(np.add.reduceat(amps, begins))


def _grouped(
    shorts: Shorted,
    carriers: Carriers,
    groups: Sequence[Sequence[int]],
    scale: Reals,
    join: Callable[[Complex, Indices], Reals],
) -> _Told:
    """For each short the groups of branches of which one carries it, with what ``join`` makes of
    the currents of all in the group."""
    members = _members(shorts.net.closed, groups)
    of_short, group = _carrying(members, carriers, shorts.count)
    branches = members[group]
    places, counts = branches.indices.astype(np.intp), np.diff(branches.indptr)
    amps = np.zeros(0)
    if group.size:
        through = shorts.through(places, np.repeat(of_short, counts))
        amps = join(through, branches.indptr[:-1].astype(np.intp)) * scale[of_short]
    ends = np.searchsorted(of_short, np.arange(shorts.count + 1)).tolist()
    return [Flows(group[begin:end], amps[begin:end]) for begin, end in pairwise(ends)]


def _members(closed: Sequence[int], groups: Sequence[Sequence[int]]) -> csr_matrix:
    """For each group (row) the places in ``closed`` of its branches."""
    from scipy.sparse import csr_matrix

    place = {branch: at for at, branch in enumerate(closed)}
    rows = [[place[i] for i in group if i in place] for group in groups]
    indptr = np.cumsum([0, *map(len, rows)])
    flat = [at for row in rows for at in row]
    return csr_matrix((np.ones(len(flat)), flat, indptr), shape=(len(groups), len(closed)))


def _carrying(members: csr_matrix, carriers: Carriers, count: int) -> tuple[Indices, Indices]:
    """Shorts, and beside each a group of which some branch carries it, in order."""
    from scipy.sparse import csr_matrix

    marks = np.ones(carriers.places.size)
    shape = (count, members.shape[1])
    found = (
        csr_matrix((marks, (carriers.shorts, carriers.places)), shape=shape) @ members.T
    ).tocsr()
    found.sort_indices()
    return np.repeat(np.arange(count), np.diff(found.indptr)), found.indices.astype(np.intp)
