"""Study: batteries, and solar arrays, in series; which of batteries is turned round.

A string is a row of batteries of which the plus of one is the minus of the next. Switches and fuses
count as joined; so do bonds, for a minus may come back through a chassis.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import combinations

from linework.circuit.model import LiveSource
from linework.circuit.series import ways_back
from linework.study.once import once
from linework.study.situation import Situation


@dataclass(frozen=True)
class String:
    """Batteries or arrays in series by source index, the one at the plus first; ``top`` and
    ``bottom`` are the labels of its ends (of :attr:`Situation.conductive`)."""

    cells: tuple[int, ...]
    top: int
    bottom: int


@dataclass(frozen=True)
class Turned:
    """Batteries (source indices) of which one is turned round: the only one named, or the first or
    the second. ``ring``: those beside it drive all they have through it. ``sure``: one alone, and
    it feeds something, which tells what the posts are for."""

    cells: tuple[int, ...]
    ring: bool = False
    sure: bool = False


def _stores(situation: Situation) -> dict[int, LiveSource]:
    return {i: s for i, s in situation.active if s.data.group.stores}


@once
def strings(situation: Situation) -> list[String]:
    """The strings that are part of no longer one; a battery alone is one too."""
    return _longest(situation, _stores(situation))


@once
def rows(situation: Situation) -> list[String]:
    """The same of solar arrays, drawn one by one and wired in series."""
    return _longest(situation, {i: s for i, s in situation.active if s.data.group.solar})


def _longest(situation: Situation, members: Mapping[int, LiveSource]) -> list[String]:
    label = situation.conductive
    found = [
        String(passed, label[source.plus], end)
        for first, source in members.items()
        for end, passed in ways_back(situation, first, label).items()
        if members.keys() >= set(passed) and label[source.plus] != end
    ]
    every = [set(string.cells) for string in found]
    longest = [s for s in found if not any(set(s.cells) < other for other in every)]
    return list(dict.fromkeys(_from_top(situation, string, members) for string in longest))


def _from_top(situation: Situation, string: String, members: Mapping[int, LiveSource]) -> String:
    """A string with what lies above it: where strings beside each other are joined in the middle,
    each battery is part of some string from the top to the bottom."""
    label, cells, top = situation.conductive, string.cells, string.top
    while above := [
        i
        for i, source in members.items()
        if label[source.minus] == top and label[source.plus] != string.bottom and i not in cells
    ]:
        cells, top = (above[0], *cells), label[members[above[0]].plus]
    return String(cells, top, string.bottom)


@once
def grounded_above(situation: Situation) -> list[String]:
    """The strings of which metal is joined to a post, and none to the minus of the lowest battery:
    the return conductor is then a live one."""
    label, sources = situation.conductive, situation.circuit.sources
    metal = {label[each.node] for each in situation.circuit.metals}
    metal |= {label[node] for node in situation.circuit.anchors}
    return [
        string
        for string in strings(situation)
        if string.bottom not in metal and any(label[sources[i].plus] in metal for i in string.cells)
    ]


@once
def grounded_plus(situation: Situation) -> frozenset[int]:
    """The batteries (source indices) whose own plus is the grounded conductor: that is their
    return then, and needs no device."""
    label, sources = situation.conductive, situation.circuit.sources
    metal = {label[each.node] for each in situation.circuit.metals}
    metal |= {label[node] for node in situation.circuit.anchors}
    return frozenset(
        i
        for string in grounded_above(situation)
        for i in string.cells
        if label[sources[i].plus] == string.top in metal
    )


@once
def turned(situation: Situation) -> list[Turned]:
    """The batteries that are turned round beside another, in a string, or before their loads."""
    stores, wrong = _stores(situation), _misplaced(situation)
    rings, rows = [], []
    for one, other in combinations(stores, 2):
        if _ring(situation, stores[one], stores[other]):
            rings.append((one, other))
        elif not _alike(situation, one, other) and _against(situation, stores[one], stores[other]):
            rows.append((one, other))
    often = Counter(i for pair in rows for i in pair)
    found = [
        *(Turned(_guilty(pair, wrong), ring=True) for pair in rings),
        *(Turned(_guilty(pair, wrong | {i for i in pair if often[i] > 1})) for pair in rows),
    ]
    label = situation.conductive
    posts = {label[n] for s in stores.values() for n in (s.plus, s.minus)}
    feeds = not posts.isdisjoint(_used(situation))
    found = [replace(each, sure=feeds and len(each.cells) == 1) for each in found]
    told = {i for each in found for i in each.cells}
    found += [Turned((i,), sure=True) for i in sorted(_before_loads(situation) - told)]
    return list(dict.fromkeys(found))


def surely_turned(situations: Iterable[Situation]) -> frozenset[str]:
    """The batteries that are turned round for certain in some of these states: what they seem to
    drive or to be in series with in the others follows from that."""
    return frozenset(
        situation.circuit.sources[i].owner
        for situation in situations
        for each in turned(situation)
        if each.sure
        for i in each.cells
    )


def _guilty(pair: tuple[int, int], wrong: set[int]) -> tuple[int, ...]:
    """The one of two that lies wrong; both where nothing tells which."""
    lying = tuple(i for i in pair if i in wrong)
    return lying if len(lying) == 1 else pair


def _ring(situation: Situation, one: LiveSource, other: LiveSource) -> bool:
    """Whether the plus of each is the minus of the other."""
    label = situation.conductive
    first, second = (label[one.plus], label[one.minus]), (label[other.minus], label[other.plus])
    return first == second and first[0] != first[1]


def _against(situation: Situation, one: LiveSource, other: LiveSource) -> bool:
    """Whether like posts are joined, and nothing else is there: their voltages cancel."""
    label, used = situation.conductive, _used(situation)
    for a, b, far_a, far_b in (
        (one.plus, other.plus, one.minus, other.minus),
        (one.minus, other.minus, one.plus, other.plus),
    ):
        apart = len({label[a], label[far_a], label[far_b]}) == 3
        if label[a] == label[b] and apart and label[a] not in used:
            return _leads_on(situation, far_a) and _leads_on(situation, far_b)
    return False


def _alike(situation: Situation, one: int, other: int) -> bool:
    """Whether both lie in whole strings between the same two conductors, so that their like posts
    may meet."""
    ends = [
        {(s.top, s.bottom) for s in strings(situation) if i in s.cells and len(s.cells) > 1}
        for i in (one, other)
    ]
    apart = not any({one, other} <= set(s.cells) for s in strings(situation))
    return apart and bool(ends[0] & ends[1])


def _leads_on(situation: Situation, node: int) -> bool:
    """Whether a post is joined to something else."""
    label, here = situation.conductive, situation.conductive[node]
    posts = [n for s in _stores(situation).values() for n in (s.plus, s.minus)]
    return here in _used(situation) or sum(label[n] == here for n in posts) > 1


@once
def _used(situation: Situation) -> frozenset[int]:
    """The conductors on which loads, outlets, and sources that are no stores lie."""
    label = situation.conductive
    nodes = [node for _, load in situation.loads for node in (load.a, load.b)]
    nodes += [node for face in situation.circuit.faces for node in face.nodes.values()]
    nodes += [n for _, s in situation.active if not s.data.group.stores for n in (s.plus, s.minus)]
    return frozenset(label[node] for node in nodes)


def _loads_at(situation: Situation) -> Iterator[tuple[str, int, int]]:
    """Each load and converter on direct current with the labels of its plus and its minus."""
    label = situation.conductive
    for _, load in situation.loads:
        if load.data.hertz == 0.0:
            yield load.owner, label[load.a], label[load.b]
    for _, source in situation.active:
        if source.data.group.charges:
            yield source.owner, label[source.plus], label[source.minus]


def _misplaced(situation: Situation) -> set[int]:
    """The batteries with a post where loads have their other pole, and nowhere their own."""
    plus = {hot for _, hot, _ in _loads_at(situation)}
    minus = {back for _, _, back in _loads_at(situation)}
    label = situation.conductive
    return {
        i
        for i, s in _stores(situation).items()
        if label[s.minus] in plus - minus or label[s.plus] in minus - plus
    }


def _before_loads(situation: Situation) -> set[int]:
    """The batteries with both posts where several loads have the other pole."""
    label, found = situation.conductive, set[int]()
    ends = list(_loads_at(situation))
    plus, minus = {hot for _, hot, _ in ends}, {back for _, _, back in ends}
    for i, s in _stores(situation).items():
        top, bottom = label[s.plus], label[s.minus]
        both = bottom in plus - minus and top in minus - plus
        owners = {owner for owner, hot, back in ends if hot == bottom or back == top}
        if both and len(owners) > 1:
            found.add(i)
    return found


@once
def on_banks(situation: Situation) -> frozenset[str]:
    """Every part and run that the current of batteries reaches, themselves included: what goes
    wrong there may follow from them."""
    label = situation.conductive
    posts = (n for s in _stores(situation).values() for n in (s.plus, s.minus))
    reached = {label[node] for node in posts}
    runs = {b.owner for b in situation.branches if {label[b.a], label[b.b]} & reached}
    parts = {
        part
        for (part, _), nodes in situation.circuit.terminals.items()
        if any(label[node] in reached for node in nodes.values())
    }
    return frozenset(runs | parts)
