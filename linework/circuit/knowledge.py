"""Positions of some switches only: what they decide, and which switch to ask next.

A question is answered yes or no where the known positions suffice. Where they do not, the first
unknown switch on which the answer hangs is asked (:class:`Ask`), and the search goes on with each
of its positions.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from linework.circuit.lasting import Edges, Lasting
from linework.circuit.model import Condition, SelectorAt, SelectorKey
from linework.circuit.states import ROUNDS
from linework.circuit.unions import IntUnions

WHATEVER = -1
"""The world in which no follower is known: what is decided there stands in every world."""
AT_REST = ROUNDS
"""The world in which followers stand after all rounds."""
CAUGHT = ROUNDS + 1
"""The same with one follower between two positions."""


class _Hangs(Exception):
    """A position hangs on more than is known whatever the followers do."""


class Ask(Exception):
    """An answer hangs on a switch whose position is not known."""

    def __init__(self, key: SelectorKey) -> None:
        super().__init__(key)
        self.key = key


@dataclass
class Reach:
    """What is joined to a label: surely, and perhaps (label -> branch and label before it)."""

    sure: set[int]
    perhaps: dict[int, tuple[int, int] | None] = field(default_factory=dict)

    def may(self, label: int) -> bool:
        """Whether a way may lead there."""
        return label in self.sure or label in self.perhaps


class Knowledge:
    """``known``: positions of free selectors; ``decided``: those of followers by world, which
    stay true whatever else becomes known. World 0 is all at rest; each next one is what the
    followers make of the one before.
    """

    def __init__(
        self,
        lasting: Lasting,
        known: Mapping[SelectorKey, str],
        decided: Mapping[tuple[SelectorKey, int], str] | None = None,
        caught: tuple[SelectorKey, str] | None = None,
    ) -> None:
        self.lasting, self.circuit = lasting, lasting.circuit
        self.known = dict(known)
        self.decided = dict(decided or {})
        self.caught = caught
        self.used: set[SelectorKey] = set()
        """The followers on whose last position something hung."""
        self._reached: dict[tuple[bool, int, int], Reach] = {}

    # positions

    def at(self, key: SelectorKey, world: int) -> str | None:
        """The position of a selector where it is decided."""
        found = self.known.get(key)
        if found is not None or key in self.lasting.free:
            return found
        if world == 0 or key not in self.lasting.followers:
            selector = self.circuit.selectors.get(key)
            return selector.rest if selector is not None else ""
        if world == CAUGHT and self.caught is not None:
            if key == self.caught[0]:
                return self.caught[1]
            world = AT_REST
        return self.decided.get((key, world))

    def holds(self, when: Condition, world: int) -> bool | None:
        """Whether a condition holds; None where that is not decided."""
        answer: bool | None = True
        for key, among in when:
            position = self.at(key, world)
            if position is None:
                possible = self.lasting.possible[key]
                if among.isdisjoint(possible):
                    return False
                if not among >= possible:
                    answer = None
            elif position not in among:
                return False
        return answer

    def asked(self, when: Condition, world: int) -> bool:
        """Whether a condition holds; asks what it hangs on, sources first."""
        while (answer := self.holds(when, world)) is None:
            undecided = [key for key, _ in when if self.at(key, world) is None]
            undecided.sort(key=lambda key: _asking_order(self.circuit.selectors[key]))
            self.position(undecided[0], world)
        self._note(when, world)
        return answer

    def _note(self, when: Condition, world: int) -> None:
        if world >= AT_REST:
            followers = self.lasting.followers
            self.used.update(key for key, _ in when if key in followers)

    def position(self, key: SelectorKey, world: int) -> str:
        """The position of a selector; Ask where it is one of a person's choices, not known."""
        found = self.at(key, world)
        if found is not None:
            return found
        if world == WHATEVER:
            raise _Hangs
        if key in self.lasting.free:
            raise Ask(key)
        follower, world = self.circuit.selectors[key], min(world, AT_REST)
        try:
            found = self._by_rule(follower, WHATEVER)
        except _Hangs:
            found = self._by_rule(follower, world - 1)
            self._decide(key, found, [world])
        else:
            self._decide(key, found, range(1, AT_REST + 1))
        return found

    def _decide(self, key: SelectorKey, position: str, worlds: Iterable[int]) -> None:
        self.decided.update({(key, world): position for world in worlds})
        self._reached.clear()

    def _by_rule(self, follower: SelectorAt, world: int) -> str:
        """Where its rule sends a follower: by the first line that holds, else to its rest."""
        owner = follower.key[0]
        for line, pairs in follower.rule:
            # what is surely dead needs no position of others
            if any(self._never_live(pair, owner, world) for pair in pairs):
                continue
            stands = all(self.position((owner, n), world) == at for n, at in line.stands)
            if stands and all(self.live(pair, owner, world) for pair in pairs):
                return line.position
        return follower.rest

    # what is joined

    def reach(self, edges: Edges, start: int, world: int) -> Reach:
        """What is joined to a label by surely closed branches, and by those that may be."""
        key = (edges is self.lasting.at_joint, start, world)
        if key not in self._reached:
            self._reached[key] = self._reach(edges, start, world)
        return self._reached[key]

    def _reach(self, edges: Edges, start: int, world: int) -> Reach:
        when = self.lasting.when
        found = Reach({start})
        border = self._sure(edges, found.sure, [start], world)
        queue = list(border)
        for branch, before, label in queue:
            if not found.may(label):
                found.perhaps[label] = (branch, before)
                for i, other in edges.get(label, ()):
                    if not found.may(other) and self.holds(when[i], world) is not False:
                        queue.append((i, label, other))
        return found

    def _sure(
        self, edges: Edges, sure: set[int], queue: list[int], world: int
    ) -> list[tuple[int, int, int]]:
        when = self.lasting.when
        border: list[tuple[int, int, int]] = []
        for label in queue:
            for i, other in edges.get(label, ()):
                if other in sure:
                    continue
                answer = self.holds(when[i], world)
                if answer:
                    sure.add(other)
                    queue.append(other)
                elif answer is None:
                    border.append((i, label, other))
        return border

    def ask_way(self, reach: Reach, label: int, world: int) -> None:
        """Ask the first undecided branch on the way to a label that may be joined."""
        when = self.lasting.when
        undecided: list[int] = []
        step = reach.perhaps.get(label)
        while step is not None:
            branch, before = step
            if self.holds(when[branch], world) is None:
                undecided.append(branch)
            step = reach.perhaps.get(before)
        self.asked(when[undecided[-1]], world)

    def joined(self, edges: Edges, one: int, other: int, world: int) -> bool:
        """Whether two labels are joined; asks what lies between."""
        while True:
            found = self.reach(edges, one, world)
            if other in found.sure:
                return True
            if not found.may(other):
                return False
            self.ask_way(found, other, world)

    # what is live

    def _groups(
        self, owner: str, world: int, reaches: tuple[Reach, Reach]
    ) -> Iterator[tuple[str, str]]:
        """Owners of sources that may reach the one and the other of two points."""
        ends = [self._touching(owner, world, reach) for reach in reaches]
        for one in ends[0]:
            for other in ends[1]:
                if one == other or self._both_direct(one, other):
                    yield one, other

    def _touching(self, owner: str, world: int, reach: Reach) -> list[str]:
        found: dict[str, None] = {}
        sources = self.circuit.sources
        for label in (*reach.sure, *reach.perhaps):
            for i in self.lasting.hot_joint.get(label, ()):
                source = sources[i]
                if source.owner != owner and self.holds(source.when, world) is not False:
                    found[source.owner] = None
        return sorted(found)

    def _both_direct(self, one: str, other: str) -> bool:
        sources = self.circuit.sources
        return all(
            any(sources[i].data.hertz == 0.0 for i in self.lasting.sources_of[owner])
            for owner in (one, other)
        )

    def _reaches(self, pair: tuple[int, int], world: int) -> tuple[Reach, Reach]:
        lasting = self.lasting
        one, other = (self.reach(lasting.at_joint, lasting.joint[n], world) for n in pair)
        return one, other

    def _never_live(self, pair: tuple[int, int], owner: str, world: int) -> bool:
        reaches = self._reaches(pair, world)
        if self.lasting.joint[pair[1]] in reaches[0].sure:
            return True
        return next(self._groups(owner, world, reaches), None) is None

    def live(self, pair: tuple[int, int], owner: str, world: int) -> bool:
        """Whether a source of another part than ``owner`` lies between two nodes; batteries in
        series count together."""
        joint = self.lasting.joint
        if joint[pair[0]] == joint[pair[1]]:
            return False
        while True:
            reaches = self._reaches(pair, world)
            if joint[pair[1]] in reaches[0].sure:
                return False
            groups = list(self._groups(owner, world, reaches))
            if not groups:
                return False
            open_one = self._open_between(groups, owner, world, reaches)
            if open_one is None:
                if reaches[0].may(joint[pair[1]]):
                    self.ask_way(reaches[0], joint[pair[1]], world)
                    continue
                return self._exactly(pair, owner, world, groups)
            self.asked(open_one, world)

    def _open_between(
        self,
        groups: list[tuple[str, str]],
        owner: str,
        world: int,
        reaches: tuple[Reach, Reach],
    ) -> Condition | None:
        """The first undecided condition on which it hangs whether one of these groups is live."""
        for group in groups:
            for which, reach in zip(group, reaches, strict=True):
                for i in self.lasting.sources_of[which]:
                    source = self.circuit.sources[i]
                    ends = {self.lasting.joint[source.plus], self.lasting.joint[source.minus]}
                    if self.holds(source.when, world) is False:
                        continue
                    near = [label for label in ends if reach.may(label)]
                    if near and self.holds(source.when, world) is None:
                        return source.when
                    for label in sorted(near):
                        found = self._undecided_on_way(reach, label, world)
                        if found is not None:
                            return found
        if any(one != other for one, other in groups):
            return self._open_series(owner, world)
        return None

    def _undecided_on_way(self, reach: Reach, label: int, world: int) -> Condition | None:
        when = self.lasting.when
        found: Condition | None = None
        step = reach.perhaps.get(label)
        while step is not None:
            branch, before = step
            if self.holds(when[branch], world) is None:
                found = when[branch]
            step = reach.perhaps.get(before)
        return found

    def _direct(self, owner: str, world: int) -> list[int]:
        return [
            i
            for i, s in enumerate(self.circuit.sources)
            if s.data.hertz == 0.0 and s.owner != owner and self.holds(s.when, world) is not False
        ]

    def _open_series(self, owner: str, world: int) -> Condition | None:
        """What is undecided between the minus of one direct source and the plus of the next."""
        sources, joint = self.circuit.sources, self.lasting.joint
        direct = self._direct(owner, world)
        for i in direct:
            reach = self.reach(self.lasting.at_joint, joint[sources[i].minus], world)
            for k in direct:
                plus = joint[sources[k].plus]
                if sources[k].owner == sources[i].owner or not reach.may(plus):
                    continue
                for source in (sources[i], sources[k]):
                    if self.holds(source.when, world) is None:
                        return source.when
                found = self._undecided_on_way(reach, plus, world)
                if found is not None:
                    return found
        return None

    def _exactly(
        self, pair: tuple[int, int], owner: str, world: int, groups: Iterable[tuple[str, str]]
    ) -> bool:
        """All that matters is decided: whether one string of parts reaches both points."""
        strings = self._strings(owner, world)
        return any(strings(one) == strings(other) for one, other in groups)

    def _strings(self, owner: str, world: int) -> Callable[[str], int]:
        sources, joint = self.circuit.sources, self.lasting.joint
        place = {name: i for i, name in enumerate(self.lasting.sources_of)}
        sets = IntUnions(len(place))
        direct = self._direct(owner, world)
        for i in direct:
            sure = self.reach(self.lasting.at_joint, joint[sources[i].minus], world).sure
            sets.join_all(
                (place[sources[i].owner], place[sources[k].owner])
                for k in direct
                if k != i and joint[sources[k].plus] in sure
            )
        return lambda name: sets.find(place[name])


def _asking_order(selector: SelectorAt) -> int:
    """Sources before levers before plugs; what follows last."""
    if selector.key[1] == "plug":
        return 2
    return {"source": 0, "hand": 1}.get(selector.moves, 1 if selector.moves != "follows" else 3)
