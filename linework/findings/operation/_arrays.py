"""Solar arrays that are drawn one by one and wired in series; what holds their voltage down."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from linework.circuit.incircuit import SOIL
from linework.circuit.model import Load
from linework.findings.view import View
from linework.study.situation import Situation
from linework.study.ways.banks import String, strings
from linework.study.ways.openings import opened_by_hand


def in_series(view: View, arrays: Iterable[str]) -> str:
    """Their designations as those of one string: "GP1 + GP2"."""
    return " + ".join(map(view.name, arrays))


def held_down(view: View, situation: Situation, row: String, load: Load) -> bool:
    """Whether a battery of lead lies across a load whenever an array does, whatever single device
    or switch opens: it holds the array's voltage down. One of lithium may cut itself out."""
    sources = situation.circuit.sources
    ends = sources[row.cells[0]].plus, sources[row.cells[-1]].minus
    posts = [
        (sources[bank.cells[0]].plus, sources[bank.cells[-1]].minus)
        for bank in strings(situation)
        if all(_is_lead(view, sources[i].owner) for i in bank.cells)
    ]
    return bool(posts) and not any(
        _parted(situation.labels_without(opened, SOIL), ends, posts, load)
        for opened in _openings(situation)
    )


def _is_lead(view: View, battery: str) -> bool:
    values = view.values(battery)
    return values.given("chemistry") and values.pick("chemistry") != "lithium"


def _parted(
    label: Sequence[int], ends: tuple[int, int], posts: list[tuple[int, int]], load: Load
) -> bool:
    """Whether the load lies across the array then, and no battery does."""
    here = label[ends[0]], label[ends[1]]
    lies_there = (label[load.a], label[load.b]) == here
    return lies_there and all((label[plus], label[minus]) != here for plus, minus in posts)


def _openings(situation: Situation) -> Iterator[frozenset[int]]:
    """Nothing, and the contacts in circuit of each device and of each thing that a hand opens."""
    yield frozenset()
    by_owner: dict[str, set[int]] = {}
    for i in opened_by_hand(situation):
        by_owner.setdefault(situation.circuit.branches[i].owner, set()).add(i)
    for device in situation.circuit.devices:
        by_owner.setdefault(device.owner, set()).update(device.branches)
    yield from (frozenset(found) & situation.closed for found in by_owner.values())
