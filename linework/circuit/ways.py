"""Which branches lie on a way between two ends: only there can a current flow."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping

Edge = tuple[int, int, int]
"""(branch, node, node)."""


def on_the_way(edges: Iterable[Edge], ends: set[int]) -> set[int]:
    """The branches on a simple path between two different ends.

    Such a path closes a ring through one node more that is tied to every end; so they are the
    branches in one block with a tie (depth-first search for blocks: Hopcroft and Tarjan 1973).
    """
    found: set[int] = set()
    beyond: list[Edge] = []
    for branch, a, b in edges:
        if a == b:
            continue
        if a in ends and b in ends:
            found.add(branch)
        else:
            beyond.append((branch, a, b))
    if beyond:
        found |= _in_blocks_of_ties(beyond, ends)
    return found


_TIE = -1
_EXTRA = -1


def _in_blocks_of_ties(edges: list[Edge], ends: set[int]) -> set[int]:
    at: dict[int, list[tuple[int, int]]] = {}
    for branch, a, b in edges:
        at.setdefault(a, []).append((branch, b))
        at.setdefault(b, []).append((branch, a))
    touched = [node for node in at if node in ends]
    if len(touched) < 2:
        return set()
    for k, node in enumerate(touched):
        tie = _TIE - k
        at.setdefault(_EXTRA, []).append((tie, node))
        at[node].append((tie, _EXTRA))
    return _blocks_from(at, _EXTRA)


def _blocks_from(at: Mapping[int, list[tuple[int, int]]], root: int) -> set[int]:
    """The branches (not ties, which are negative) in a block that holds a tie."""
    depth, low = {root: 0}, {root: 0}
    trail: list[int] = []
    seen: set[int] = set()
    found: set[int] = set()
    stack = [(root, iter(at[root]), 0)]
    while stack:
        node, ways, mark = stack[-1]
        step = next(ways, None)
        if step is None:
            stack.pop()
            if stack:
                _close(stack[-1][0], node, mark, depth, low, trail, found)
            continue
        branch, other = step
        if branch in seen:
            continue
        seen.add(branch)
        trail.append(branch)
        if other in depth:
            low[node] = min(low[node], depth[other])
        else:
            depth[other] = low[other] = depth[node] + 1
            stack.append((other, iter(at[other]), len(trail) - 1))
    return found


def _close(
    node: int,
    child: int,
    mark: int,
    depth: dict[int, int],
    low: dict[int, int],
    trail: list[int],
    found: set[int],
) -> None:
    """A child is done: where nothing below it reaches above the node, a block ends here."""
    low[node] = min(low[node], low[child])
    if low[child] >= depth[node]:
        block = trail[mark:]
        del trail[mark:]
        ways = {branch for branch in block if branch >= 0}
        if len(ways) < len(block):
            found |= ways


def shortest(
    at: Mapping[int, Iterable[tuple[int, int]]], start: int, ends: set[int], closed: Container[int]
) -> list[int]:
    """The branches of a shortest way over closed ones from a node to the nearest of some ends;
    none where it is one of these or reaches none. ``at``: (branch, node at its other end)."""
    came: dict[int, tuple[int, int]] = {start: (-1, start)}
    queue = [start]
    for node in queue:
        if node in ends:
            return _back(came, node)
        for branch, other in at.get(node, ()):
            if branch in closed and other not in came:
                came[other] = (branch, node)
                queue.append(other)
    return []


def _back(came: Mapping[int, tuple[int, int]], node: int) -> list[int]:
    found: list[int] = []
    branch, before = came[node]
    while branch >= 0:
        found.append(branch)
        branch, before = came[before]
    return found
