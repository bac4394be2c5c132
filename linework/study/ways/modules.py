"""Study: solar arrays that are turned round in the string in which they are wired.

Between two neighbours of a string lies nothing else, so where their like posts meet, one of them is
the wrong way round. Switches count as they stand, and bonds as joined.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.model import LiveSource
from linework.study.once import once
from linework.study.situation import Situation


@dataclass(frozen=True)
class Opposed:
    """A string of arrays (source indices, from one end to the other) of which some are turned.

    ``turned``: those against what the string feeds, where nothing tells that the fewer; of as many
    either way the ones or the others, and ``sure`` is False.
    """

    arrays: tuple[int, ...]
    turned: tuple[int, ...]
    sure: bool


@dataclass(frozen=True)
class _Step:
    """An array on the way along a string; ``up``: from its minus to its plus."""

    array: int
    up: bool


@once
def opposed(situation: Situation) -> list[Opposed]:
    """The strings of which an array is turned round against the others."""
    seen: set[frozenset[int]] = set()
    found = []
    for steps, ends in _strings(situation):
        arrays = frozenset(step.array for step in steps)
        if arrays not in seen and len({step.up for step in steps}) > 1:
            seen.add(arrays)
            found.append(_judged(situation, steps, ends))
    return found


def _strings(situation: Situation) -> Iterator[tuple[list[_Step], tuple[int, int]]]:
    """Arrays one behind the other between two conductors that something else uses, and these."""
    label, used = situation.conductive, _used(situation)
    arrays = {i: s for i, s in situation.active if s.data.group.solar}
    at: dict[int, list[int]] = {}
    for i, source in arrays.items():
        for node in (source.plus, source.minus):
            at.setdefault(label[node], []).append(i)
    joints = {here for here, there in at.items() if len(there) == 2 and here not in used}
    for first, source in arrays.items():
        for start in {label[source.plus], label[source.minus]} & used:
            steps, end = _along(arrays, label, at, joints, first, start)
            if end in used and end != start:
                yield steps, (start, end)


def _along(
    arrays: dict[int, LiveSource],
    label: list[int],
    at: dict[int, list[int]],
    joints: set[int],
    first: int,
    start: int,
) -> tuple[list[_Step], int]:
    """The string that begins with an array at one of its ends, and where it ends."""
    steps, here, array = list[_Step](), start, first
    while True:
        ends = label[arrays[array].minus], label[arrays[array].plus]
        steps.append(_Step(array, here == ends[0]))
        here = ends[1] if here == ends[0] else ends[0]
        ahead = [i for i in at[here] if i not in {step.array for step in steps}]
        if here not in joints or not ahead:
            return steps, here
        array = ahead[0]


def _judged(situation: Situation, steps: list[_Step], ends: tuple[int, int]) -> Opposed:
    upwards = _upwards(situation, ends)
    lots = [tuple(s.array for s in steps if s.up is way) for way in (True, False)]
    sure = upwards is not None or len(lots[0]) != len(lots[1])
    if upwards is None:
        upwards = len(lots[0]) >= len(lots[1])
    return Opposed(tuple(step.array for step in steps), lots[1] if upwards else lots[0], sure)


def _upwards(situation: Situation, ends: tuple[int, int]) -> bool | None:
    """Whether what the string feeds has its minus at the first end and its plus at the last; None
    where nothing tells."""
    label = situation.conductive
    loads = {
        (label[load.b], label[load.a]) for load in situation.circuit.loads if load.data.hertz == 0.0
    }
    loads |= {(label[s.minus], label[s.plus]) for _, s in situation.active if s.data.group.stores}
    one, other = ends in loads, ends[::-1] in loads
    return one if one is not other else None


@once
def _used(situation: Situation) -> frozenset[int]:
    """The conductors on which something else than arrays lies; a converter that rests too, for
    it rests where no plus arrives."""
    label = situation.conductive
    nodes = [node for load in situation.circuit.loads for node in (load.a, load.b)]
    nodes += [node for face in situation.circuit.faces for node in face.nodes.values()]
    nodes += [n for _, s in situation.active if not s.data.group.solar for n in (s.plus, s.minus)]
    return frozenset(label[node] for node in nodes)
