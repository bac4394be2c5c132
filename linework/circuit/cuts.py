"""What falls apart when a few branches are opened, found by walking round the smaller piece."""

from __future__ import annotations

from collections import deque
from collections.abc import Collection, Mapping, Sequence, Set
from typing import overload

Ties = Sequence[Sequence[tuple[int, int]]]
"""For each node the branches there, each with the node at its other end."""


class Cut(Sequence[int]):
    """Labels of the nodes as before a cut, but of the pieces that fell off (``anew``).

    ``whole`` True: all are labelled anew already.
    """

    __slots__ = ("_anew", "_before", "_whole")

    def __init__(self, before: Sequence[int], anew: Mapping[int, int], whole: bool = False) -> None:
        self._before, self._anew, self._whole = before, anew, whole

    @property
    def fallen(self) -> Set[int]:
        """The nodes that may have a label of their own now; of the others none was cut off from
        another."""
        return set(range(len(self))) if self._whole else self._anew.keys()

    @overload
    def __getitem__(self, node: int) -> int: ...

    @overload
    def __getitem__(self, node: slice) -> list[int]: ...

    def __getitem__(self, node: int | slice) -> int | list[int]:
        if isinstance(node, slice):
            return [self[n] for n in range(*node.indices(len(self)))]
        found = self._anew.get(node)
        return self._before[node] if found is None else found

    def __len__(self) -> int:
        return len(self._before)


def cut(before: Sequence[int], ties: Ties, opened: Collection[int], ends: Sequence[int]) -> Cut:
    """The labels once the branches ``opened``, which join ``ends``, are open.

    Of the pieces into which what was one falls, all are labelled anew but the one that none was
    smaller than: two pieces are walked in step until one ends or they meet.
    """
    anew: dict[int, int] = {}
    rest: dict[int, int] = {}
    """For each label a node of the piece that keeps it."""
    for node in dict.fromkeys(ends):
        if node in anew:
            continue
        kept = rest.setdefault(before[node], node)
        piece, of_kept = _smaller(ties, opened, kept, node)
        if of_kept:
            rest[before[node]] = node
        anew.update(dict.fromkeys(piece, -1 - len(anew)))
    return Cut(before, anew)


def _smaller(
    ties: Ties, opened: Collection[int], one: int, other: int
) -> tuple[Collection[int], bool]:
    """The smaller of two pieces, nothing where they are one, and whether it is that of ``one``."""
    if one == other:
        return (), False
    seen = {one}, {other}
    queues = deque([one]), deque([other])
    while True:
        for mine, theirs, queue in ((0, 1, queues[0]), (1, 0, queues[1])):
            if not queue:
                return seen[mine], mine == 0
            for branch, node in ties[queue.popleft()]:
                if branch not in opened and node not in seen[mine]:
                    if node in seen[theirs]:
                        return (), False
                    seen[mine].add(node)
                    queue.append(node)
