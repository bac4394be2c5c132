"""What sits in what: never in a ring, and not without end."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import networkx as nx

from linework.words import say

DEEPEST = 30
"""So many parts may sit one in the other: no real chain of cords and adapters is half as long."""


def nesting_faults(seats: Sequence[tuple[str, str]], name: Callable[[str], str]) -> dict[int, str]:
    """Number of a seat (part id, host id) -> why it cannot be among these seats.

    ``name``: the designation of a part. Who follows seats from host to host comes to an end,
    after at most ``DEEPEST`` steps, where there is no fault.
    """
    graph = nx.DiGraph(seats)
    rings = [ring for ring in nx.strongly_connected_components(graph) if len(ring) > 1]
    ring_of = {part: number for number, ring in enumerate(rings) for part in ring}
    found: dict[int, str] = {}
    for number, (part, host) in enumerate(seats):
        if part == host or (part in ring_of and ring_of[part] == ring_of.get(host)):
            found[number] = _in_a_ring(name(part), name(host))
    if found:
        return found
    depth = _depths(graph)
    deep = [number for number, (part, _) in enumerate(seats) if depth[part] > DEEPEST]
    return {number: _too_deep(name(seats[number][0])) for number in deep}


def _depths(graph: nx.DiGraph[str]) -> dict[str, int]:
    """In how many parts, one in the other, each part sits. The graph has no ring."""
    depth: dict[str, int] = {}
    for part in reversed(list(nx.topological_sort(graph))):
        depth[part] = 1 + max((depth[host] for host in graph.successors(part)), default=-1)
    return depth


def _in_a_ring(part: str, host: str) -> str:
    if part == host:
        return say("{what} cannot sit in itself", what=part)
    return say("{what} cannot sit in {host}, which sits in {what} itself", what=part, host=host)


def _too_deep(part: str) -> str:
    return say(
        "{what} would sit in more than {most} parts, one in the other", what=part, most=DEEPEST
    )
