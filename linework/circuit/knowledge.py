"""Positions of some switches only: what they decide, and which switch to ask next.

A question is answered yes or no where the known positions suffice. Where they do not, the first
unknown switch on which the answer hangs is asked (:class:`Ask`), and the search goes on with each
of its positions.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from linework.circuit.answers import Answers, Reach
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
        self._answers: dict[tuple[str | None, ...], Answers] = {}
        """By the positions of all followers, None where not decided."""
        self._of_world: dict[int, Answers] = {}
        self._hanging: set[SelectorKey] = set()
        """The followers whose position hangs on that of others."""

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

    def _here(self, world: int) -> Answers:
        """What was answered in a world, or in one in which all followers stand the same."""
        found = self._of_world.get(world)
        if found is None:
            positions = tuple(self.at(key, world) for key in self.lasting.followers)
            found = self._of_world[world] = self._answers.setdefault(positions, Answers())
        return found

    def holds(self, when: Condition, world: int) -> bool | None:
        """Whether a condition holds; None where that is not decided."""
        if not when:
            return True
        known = self._here(world).holds
        if when not in known:
            known[when] = self._holds(when, world)
        return known[when]

    def _holds(self, when: Condition, world: int) -> bool | None:
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
        found = self._whatever(follower)
        if found is not None:
            self._decide(key, found, range(1, AT_REST + 1))
        else:
            found = self._by_rule(follower, world - 1)
            self._decide(key, found, [world])
        return found

    def _whatever(self, follower: SelectorAt) -> str | None:
        """The position of a follower where that of no other follower matters."""
        if follower.key in self._hanging:
            return None
        try:
            return self._by_rule(follower, WHATEVER)
        except _Hangs:
            self._hanging.add(follower.key)
            return None

    def _decide(self, key: SelectorKey, position: str, worlds: Iterable[int]) -> None:
        for world in worlds:
            self.decided[key, world] = position
            self._of_world.pop(world, None)
        self._of_world.pop(CAUGHT, None)

    def _by_rule(self, follower: SelectorAt, world: int) -> str:
        """Where its rule sends a follower: by the first line that holds, else to its rest."""
        found = self._here(world).sent.get(follower.key)
        if found is None:
            found = self._sent(follower, world)
            # what was decided meanwhile is part of the answer
            self._here(world).sent[follower.key] = found
        return found

    def _sent(self, follower: SelectorAt, world: int) -> str:
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
        here = self._here(world).reached
        key = (edges is self.lasting.at_joint, start)
        if key not in here:
            here[key] = self._reach(edges, start, world)
        return here[key]

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
        ends = [self._touching(world, reach) for reach in reaches]
        direct = self.lasting.direct
        for one in ends[0]:
            for other in ends[1]:
                if owner not in (one, other) and (one == other or direct >= {one, other}):
                    yield one, other

    def _touching(self, world: int, reach: Reach) -> tuple[str, ...]:
        if reach.owners is None:
            near = self.lasting.hot_joint
            here = (near[label] for label in (*reach.sure, *reach.perhaps) if label in near)
            sources = [self.circuit.sources[i] for among in here for i in among]
            may = {s.owner for s in sources if self.holds(s.when, world) is not False}
            reach.owners = tuple(sorted(may))
        return reach.owners

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
        ends = ((one, k) for group in groups for k, one in enumerate(group))
        for which, k in dict.fromkeys(ends):
            found = self._open_end(which, reaches[k], world)
            if found is not None:
                return found
        if any(one != other for one, other in groups):
            return self._open_series(owner, world)
        return None

    def _open_end(self, owner: str, reach: Reach, world: int) -> Condition | None:
        """The first undecided condition on which it hangs whether a part reaches a point."""
        for i in self.lasting.sources_of[owner]:
            when = self.circuit.sources[i].when
            near = [label for label in self.lasting.ends_of[i] if reach.may(label)]
            on = self.holds(when, world) if near else False
            if on is None:
                return when
            for label in near if on else ():
                found = self._undecided_on_way(reach, label, world)
                if found is not None:
                    return found
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
