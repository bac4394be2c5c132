"""Batteries in series: the plus of one is the minus of the next."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from linework.circuit.incircuit import InCircuit
from linework.wiring import Source


def ways_back(here: InCircuit, source: int, label: Sequence[int]) -> dict[int, tuple[int, ...]]:
    """From where the current of a source comes back: label -> the sources passed, itself first.

    ``label`` of each node, as of :meth:`InCircuit.labels`. Its own return comes first; on direct
    current also the far end of every string of sources whose first it is.
    """
    sources = here.circuit.sources
    start = label[sources[source].minus]
    found: dict[int, tuple[int, ...]] = {start: (source,)}
    direct = [(i, s) for i, s in here.active if s.data.hertz == 0.0]
    queue = [start] if sources[source].data.hertz == 0.0 else []
    for node in queue:
        for i, s in direct:
            after = label[s.minus]
            if label[s.plus] == node and after not in found:
                found[after] = (*found[node], i)
                queue.append(after)
    return found


def string_v(here: InCircuit, source: int, label: Sequence[int]) -> float:
    """Voltage of the longest string of sources in which a source lies, in volt; its own if none."""
    return max(_sums_v(here, source, label, lambda data: data.volts))


def charged_v(here: InCircuit, source: int, label: Sequence[int]) -> float:
    """The same while its stores are charged to the end."""
    return max(_sums_v(here, source, label, lambda data: data.most_v))


def _sums_v(
    here: InCircuit, source: int, label: Sequence[int], volts: Callable[[Source], float]
) -> Iterator[float]:
    """Of the source itself and of each string of its like in which it lies: an array that is
    turned round behind a battery makes no string with it."""
    sources, group = here.circuit.sources, here.circuit.sources[source].data.group
    yield volts(sources[source].data)
    for i, s in here.active:
        if s.data.hertz == sources[source].data.hertz:
            for passed in ways_back(here, i, label).values():
                if source in passed and all(sources[k].data.group is group for k in passed):
                    yield sum(volts(sources[k].data) for k in passed)
