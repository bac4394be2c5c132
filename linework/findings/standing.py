"""When circuits stand: their arrangements by the words that tell them, and sets of these."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from linework.circuit.arrangements import Arrangements, Cube, arranged, covered, met
from linework.circuit.choices import Choices

Words = Callable[[Arrangements], tuple[str, ...]]


def _told_by_positions(states: Arrangements) -> tuple[str, ...]:
    return tuple(" ".join(sorted(position for _, position in cube)) for cube in states.cubes)


class Standing:
    """``known``: arrangements by their words. ``tell``: the words of each arrangement, which are
    keys in files; ``speak``: those that people read."""

    def __init__(
        self,
        known: Mapping[str, Arrangements],
        choices: Choices,
        tell: Words = _told_by_positions,
        speak: Words | None = None,
    ) -> None:
        self._known, self._choices = known, choices
        self._tell, self._speak = tell, speak or tell

    def of(self, words: Iterable[str]) -> Arrangements | None:
        """The states of some circuits together; None where that is every state."""
        found = [self._known.get(word) for word in dict.fromkeys(words)]
        told = [one for one in found if one is not None]
        if not told or len(told) < len(found):
            return None
        if len(told) == 1:
            return told[0]
        together = arranged((dict(cube) for one in told for cube in one.cubes), self._choices)
        return together if all(together.cubes) else None

    def words(self, states: Arrangements | None) -> tuple[str, ...]:
        """Each arrangement in words; nothing for every state."""
        return () if states is None else self._tell(states)

    def spoken(self, states: Arrangements | None) -> tuple[str, ...]:
        """The same as people say it."""
        return () if states is None else self._speak(states)

    def together(self, one: str, other: str) -> bool:
        """Whether two circuits stand at the same time in some state, by their words."""
        ways = [self._known.get(word) for word in (one, other)]
        every: list[Cube] = [frozenset()]
        cubes = [every if way is None else list(way.cubes) for way in ways]
        return any(met(a, b, self._choices) for a in cubes[0] for b in cubes[1])

    def within(self, words: str, others: Iterable[str]) -> bool:
        """Whether the states of some circuit are all among those of others."""
        wide = set(others)
        if words in wide or "" in wide:
            return True
        known, narrow = self._known, self._known.get(words)
        cubes = [cube for other in wide if other in known for cube in known[other].cubes]
        if narrow is None:
            return covered(frozenset(), cubes, self._choices)
        return all(covered(cube, cubes, self._choices) for cube in narrow.cubes)
