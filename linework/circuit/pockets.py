"""Switches behind which only loads hang: many of them are taken in few combinations.

Nine cords on one board make 512 circuits that differ in nothing but which loads are in. No source,
other switch, earth or body lies behind them, so that none feels another but by what it draws and
leaks; what that does is worst with all in, with none, or with the loads of one conductor alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from linework.circuit.model import SelectorKey

FEW = 4
"""So many are taken in all their combinations."""

Positions = Mapping[SelectorKey, str]


class Pockets:
    """``sides``: for each of the switches its position in circuit and the joints on which it
    hangs."""

    def __init__(self, sides: Mapping[SelectorKey, tuple[str, frozenset[int]]]) -> None:
        self.sides = sides if len(sides) > FEW else {}
        self.taken = frozenset(self._taken())

    def _taken(self) -> Iterator[frozenset[SelectorKey]]:
        """The combinations that are looked at, each by the switches that are in: all, none, each
        alone, each alone out; the same of all on one conductor; one with all on others."""
        every = frozenset(self.sides)
        yield from (every, frozenset())
        groups: dict[frozenset[int], set[SelectorKey]] = {}
        for key, (_, joints) in self.sides.items():
            groups.setdefault(joints, set()).add(key)
        for group in groups.values():
            yield from (frozenset(group), every - group)
            for key in group:
                yield from (frozenset({key}), every - {key}, (every - group) | {key})

    def allows(self, known: Positions) -> bool:
        """Whether one of the combinations that are looked at agrees with some positions."""
        here = {key for key in known if key in self.sides}
        inside = self._inside(known)
        return any(one & here == inside for one in self.taken)

    def _inside(self, known: Positions) -> frozenset[SelectorKey]:
        return frozenset(k for k, at in known.items() if k in self.sides and at == self.sides[k][0])

    def widened(self, arrangements: Iterable[Positions]) -> list[Positions]:
        """Arrangements told by the switches that decide: where of all that was looked at just
        those with some of them so are here, and of these the least and the most, all combinations
        with these so are meant."""
        groups: dict[
            tuple[frozenset[tuple[SelectorKey, str]], frozenset[SelectorKey]], list[Positions]
        ] = {}
        for known in arrangements:
            rest = frozenset((k, at) for k, at in known.items() if k not in self.sides)
            keys = frozenset(key for key in known if key in self.sides)
            groups.setdefault((rest, keys), []).append(known)
        return [told for (_, keys), among in groups.items() for told in self._told(keys, among)]

    def _told(
        self, keys: frozenset[SelectorKey], among: Sequence[Positions]
    ) -> Sequence[Positions]:
        inside = {self._inside(known) for known in among}
        always, never = frozenset.intersection(*inside), keys.difference(*inside)
        meant = {one & keys for one in self.taken if always <= one and never.isdisjoint(one)}
        if meant != inside or not {always, keys - never} <= inside:
            return among
        decided = {k: at for k, at in among[0].items() if k not in keys or k in always | never}
        return [decided]
