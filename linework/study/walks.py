"""Walks: what is reached from somewhere, step by step, nearest first."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping
from typing import TypeVar

Place = TypeVar("Place", bound=Hashable)
Step = TypeVar("Step")

Walk = Mapping[Place, tuple[Step, Place] | None]
"""Each place that is reached, nearest first, with the last step to it and where that began; None
where the walk began."""


def walk(
    starts: Iterable[Place], steps: Callable[[Place], Iterable[tuple[Step, Place]]]
) -> Walk[Place, Step]:
    """All that some places lead to, with one shortest way to each (breadth first).

    ``steps``: from a place, each step that may be gone and where it leads.
    """
    return dict(going(starts, steps))


def going(
    starts: Iterable[Place], steps: Callable[[Place], Iterable[tuple[Step, Place]]]
) -> Iterator[tuple[Place, tuple[Step, Place] | None]]:
    """The same walk, place by place, for who stops at the first that answers."""
    reached: dict[Place, tuple[Step, Place] | None] = dict.fromkeys(starts)
    waiting = deque(reached)
    while waiting:
        here = waiting.popleft()
        yield here, reached[here]
        for step, there in steps(here):
            if there not in reached:
                reached[there] = (step, here)
                waiting.append(there)


def way_to(goal: Place, walked: Walk[Place, Step]) -> list[Step] | None:
    """The steps from where a walk began to one place; None where it never came there."""
    if goal not in walked:
        return None
    found: list[Step] = []
    last = walked[goal]
    while last is not None:
        found.append(last[0])
        last = walked[last[1]]
    return found[::-1]


def hanging_together(
    starts: Iterable[Place], beside: Callable[[Place], Iterable[Place]]
) -> Iterable[Place]:
    """All that some places lead to, themselves first, where no one asks for the way."""
    return walk(starts, lambda place: ((None, other) for other in beside(place))).keys()
