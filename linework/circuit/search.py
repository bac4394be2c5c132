"""Every live circuit of a design, found once, without going through all states.

Only the switches on which a circuit hangs are asked. Where one is, the search goes on with each
of its positions; so it ends in leaves that part the states among them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import TypeVar

from linework.circuit.arrangements import merged
from linework.circuit.behind import pockets_of
from linework.circuit.choices import Arrangement, Choices
from linework.circuit.growing import Grown, Growth
from linework.circuit.knowledge import AT_REST, CAUGHT, Ask, Knowledge
from linework.circuit.lasting import Lasting
from linework.circuit.model import Circuit, SelectorKey
from linework.wiring import Passing

_T = TypeVar("_T")

MOST_CIRCUITS = 512
"""Of a part with more circuits than this not all are looked at, and it is said."""
MOST_LEAVES = 2048
"""Nor where its circuits hang on more arrangements than this."""


@dataclass(frozen=True)
class Leaf:
    """What some positions make of a source part; ``grown`` None: off, or told of another part."""

    known: Arrangement
    grown: Grown | None
    used: frozenset[SelectorKey] = frozenset()


@dataclass
class Standing:
    """A live circuit with the arrangements in which it stands.

    ``passing``: the follower between two positions, where it stands only then, with that
    position. ``used``: the followers on which it hangs.
    """

    grown: Grown
    arrangements: list[Arrangement] = field(default_factory=list)
    used: set[SelectorKey] = field(default_factory=set)
    passing: tuple[SelectorKey, str] | None = None


@dataclass(frozen=True)
class Circuits:
    """All live circuits of a circuit of conductors. ``restless``: followers without rest, with
    arrangements in which they find none. ``cut``: parts not all of whose circuits were looked at.
    ``pocketed``: switches of loads alone that were not taken in all combinations.
    """

    at_rest: tuple[Standing, ...]
    passing: tuple[Standing, ...]
    restless: tuple[tuple[SelectorKey, Arrangement], ...]
    choices: Choices
    cut: tuple[str, ...] = ()
    pocketed: tuple[SelectorKey, ...] = ()


class Search:
    """The searches over one circuit of conductors."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit, self.lasting, self.choices = circuit, Lasting(circuit), Choices.of(circuit)
        self.choices.pockets = pockets_of(self.lasting, self.choices)
        self.cut: set[str] = set()
        self.pocketed: set[SelectorKey] = set()

    def circuits(self) -> Circuits:
        """Every live circuit, at rest and while a follower moves."""
        self.cut.clear()
        self.pocketed.clear()
        at_rest = self._at_rest()
        passing, restless = tuple(self._passing(at_rest)), tuple(self.restless())
        cut, pocketed = tuple(sorted(self.cut)), tuple(sorted(self.pocketed))
        return Circuits(tuple(at_rest.values()), passing, restless, self.choices, cut, pocketed)

    @property
    def parts(self) -> list[str]:
        """The parts with sources, in the order in which they are searched."""
        return sorted(self.lasting.sources_of)

    def leaves(self, part: str) -> Iterator[Leaf]:
        """What each arrangement makes of a part, at rest; parts before it are told with theirs."""
        before = self.parts[: self.parts.index(part)]

        def grow(known: Knowledge) -> Leaf:
            grown = Growth(self.lasting, known, AT_REST).grow(part, before)
            return Leaf(known.known, grown, frozenset(known.used))

        return self._forked({}, grow)

    def _at_rest(self) -> dict[Grown, Standing]:
        found: dict[Grown, Standing] = {}
        for part in self.parts:
            own: set[Grown] = set()
            for leaf in self._few(part, self.leaves(part)):
                if leaf.grown is not None:
                    own.add(leaf.grown)
                    if len(own) > MOST_CIRCUITS:
                        self.cut.add(part)
                        break
                    standing = found.setdefault(leaf.grown, Standing(leaf.grown))
                    standing.arrangements.append(leaf.known)
                    standing.used |= leaf.used
        return found

    def _few(self, part: str, found: Iterator[_T]) -> Iterator[_T]:
        """What is found of a part, up to the most; that there is more is noted."""
        for number, one in enumerate(found):
            if number == MOST_LEAVES:
                self.cut.add(part)
                return
            yield one

    def _forked(
        self,
        start: Arrangement,
        work: Callable[[Knowledge], _T],
        caught: tuple[SelectorKey, str] | None = None,
    ) -> Iterator[_T]:
        """What ``work`` gives wherever it goes through without asking further."""
        stack = [Knowledge(self.lasting, start, caught=caught)]
        while stack:
            known = stack.pop()
            try:
                found = work(known)
            except Ask as question:
                stack += self._forks(known, question.key)
                continue
            yield found

    def _forks(self, known: Knowledge, key: SelectorKey) -> Iterator[Knowledge]:
        for position in reversed(self.lasting.free[key].positions):
            after = {**known.known, key: position}
            if not self.choices.count(after):
                continue
            if not self.choices.pockets.allows(after):
                self.pocketed |= after.keys() & self.choices.pockets.sides.keys()
            else:
                yield Knowledge(self.lasting, after, known.decided, known.caught)

    # between two positions

    def _passing(self, at_rest: dict[Grown, Standing]) -> Iterable[Standing]:
        found: dict[tuple[SelectorKey, str, Grown], Standing] = {}
        for standing in at_rest.values():
            for key in sorted(standing.used):
                for passage, pairs in self.circuit.selectors[key].passing:
                    for leaf in self._caught(standing, key, passage, pairs):
                        if leaf.grown is None or leaf.grown in at_rest:
                            continue
                        held = (key, passage.position)
                        mark = (*held, leaf.grown)
                        other = found.setdefault(mark, Standing(leaf.grown, passing=held))
                        other.arrangements.append(leaf.known)
        return found.values()

    def _caught(
        self,
        standing: Standing,
        key: SelectorKey,
        passage: Passing,
        pairs: tuple[tuple[int, int], ...],
    ) -> Iterator[Leaf]:
        """What becomes of a circuit while a follower moves, by each of its parts."""
        for part in sorted(standing.grown.parts):

            def grow(known: Knowledge, part: str = part) -> Leaf:
                if known.position(key, AT_REST) != passage.after:
                    return Leaf(known.known, None)
                if not all(known.live(pair, key[0], AT_REST) for pair in pairs):
                    return Leaf(known.known, None)
                return Leaf(known.known, Growth(self.lasting, known, CAUGHT).grow(part))

            for cube in merged(standing.arrangements, self.choices):
                arrangement = dict(cube)
                found = self._forked(arrangement, grow, (key, passage.position))
                yield from self._few(part, found)

    # without rest

    def restless(self) -> Iterator[tuple[SelectorKey, Arrangement]]:
        """Followers that still move after all rounds, each with an arrangement."""
        for key, selector in sorted(self.circuit.selectors.items()):
            if selector.moves != "follows" or not selector.rule:
                continue

            def moves(known: Knowledge, key: SelectorKey = key) -> Arrangement | None:
                last, before = (known.position(key, world) for world in (AT_REST, AT_REST - 1))
                return known.known if last != before else None

            for arrangement in self._few(key[0], self._forked({}, moves)):
                if arrangement is not None:
                    yield key, arrangement


def parted(
    lasting: Lasting, known: Arrangement, caught: tuple[SelectorKey, str] | None = None
) -> list[Grown]:
    """The live circuits of one state, all of whose free choices are known; ``caught``: while a
    follower stands between two positions."""
    world = Knowledge(lasting, known, caught=caught)
    found: dict[Grown, None] = {}
    searched: set[str] = set()
    for part in sorted(lasting.sources_of):
        if part not in searched:
            growth = Growth(lasting, world, AT_REST if caught is None else CAUGHT)
            grown = growth.grow(part)
            if grown is not None:
                found[grown] = None
                searched |= grown.parts
    return list(found)
