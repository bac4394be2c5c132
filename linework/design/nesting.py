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
    rings = nx.strongly_connected_components(nx.DiGraph(seats))
    ring_of = {part: n for n, ring in enumerate(rings) if len(ring) > 1 for part in ring}
    found: dict[int, str] = {}
    for number, (part, host) in enumerate(seats):
        if part == host or (part in ring_of and ring_of[part] == ring_of.get(host)):
            found[number] = _in_a_ring(name(part), name(host))
    if found:
        return found
    deep = _too_deep(seats)
    return {n: _at_depth(name(part)) for n, (part, _) in enumerate(seats) if part in deep}


def _too_deep(seats: Sequence[tuple[str, str]]) -> set[str]:
    """The parts that sit in more than ``DEEPEST`` others, one in the other."""
    reached = {host for _, host in seats}
    for _ in range(DEEPEST + 1):
        reached = {part for part, host in seats if host in reached}
        if not reached:
            break
    return reached


def _in_a_ring(part: str, host: str) -> str:
    if part == host:
        return say("{what} cannot sit in itself", what=part)
    return say("{what} cannot sit in {host}, which sits in {what} itself", what=part, host=host)


def _at_depth(part: str) -> str:
    return say(
        "{what} would sit in more than {most} parts, one in the other", what=part, most=DEEPEST
    )
