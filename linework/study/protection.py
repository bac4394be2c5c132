"""Which device stands between a source and a conductor."""

from __future__ import annotations

from dataclasses import dataclass

from linework.circuit.model import Branch, Device
from linework.circuit.unions import joined
from linework.study.paths import way
from linework.study.situation import Situation, System
from linework.wiring import Pole, is_ungrounded


@dataclass(frozen=True)
class Feed:
    """One source that feeds a conductor of a run: the devices before it, nearest last.

    ``before``: the branches between source and run, by index.
    """

    run: str
    branch: int
    system: System
    devices: tuple[int, ...]
    before: tuple[int, ...]


def feeds_of_runs(situation: Situation) -> list[Feed]:
    """Every live ungrounded conductor of every run, from every source that reaches it."""
    found: list[Feed] = []
    by_branch = _device_of_branch(situation)
    for index in sorted(situation.closed):
        branch = situation.circuit.branches[index]
        if branch.sort != "run" or not is_ungrounded(Pole(branch.pole)):
            continue
        for system in situation.feeds(branch.a):
            found.append(_feed(situation, index, branch, system, by_branch))
    return found


def _device_of_branch(situation: Situation) -> dict[int, int]:
    return {
        branch: index
        for index, device in enumerate(situation.circuit.devices)
        for branch in device.branches
    }


def _feed(
    situation: Situation, index: int, branch: Branch, system: System, by_branch: dict[int, int]
) -> Feed:
    """The way from the source to the nearer end of the run."""
    plus = situation.circuit.sources[system.source].plus
    ways = [way(situation, plus, end) for end in (branch.a, branch.b)]
    steps = min((w for w in ways if w is not None and index not in w), key=len, default=[])
    devices = tuple(by_branch[i] for i in steps if i in by_branch)
    return Feed(branch.owner, index, system, devices, tuple(steps))


def unguarded(situation: Situation, node: int, system: System) -> bool:
    """Whether a source reaches a node without passing any overcurrent device, by whatever way."""
    cut = {i for device in situation.circuit.devices for i in device.branches}
    label = _labels_without(situation, cut)
    return label[situation.circuit.sources[system.source].plus] == label[node]


def _labels_without(situation: Situation, cut: set[int]) -> list[int]:
    branches = situation.circuit.branches
    return joined(
        len(situation.circuit.spots),
        (
            (branches[i].a, branches[i].b)
            for i in situation.closed
            if i not in cut and branches[i].sort not in ("bond", "soil")
        ),
    )


def smallest(situation: Situation, feed: Feed) -> Device | None:
    """The device of the lowest rating between a source and a conductor; of equal ones the nearest."""
    devices = [situation.circuit.devices[i] for i in reversed(feed.devices)]
    return min(devices, key=lambda d: d.data.rating_a, default=None)
