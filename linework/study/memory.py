"""What is kept from one analysis to the next, by what decides it."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import cached_property
from typing import TypeVar

from linework.circuit.content import Contents, Mark
from linework.circuit.growing import Grown
from linework.circuit.model import Circuit, SelectorKey
from linework.circuit.search import Circuits, Search
from linework.circuit.states import State
from linework.study.once import forget
from linework.study.studies import Shorts, Studies

_K = TypeVar("_K", bound=Hashable)
_V = TypeVar("_V")

Caught = tuple[SelectorKey, str]
"""A follower between two positions, and that position."""


class Case:
    """The circuit of one case, with the searches over it."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self.search = Search(circuit)
        self.contents = Contents(self.search.lasting)

    @cached_property
    def circuits(self) -> Circuits:
        """All its live circuits."""
        return self.search.circuits()


class Kept(dict[_K, _V]):
    """The newest of what was made, at most so many."""

    def __init__(self, most: int) -> None:
        super().__init__()
        self._most = most

    def get_or(self, key: _K, make: Callable[[], _V]) -> _V:
        """What is kept under a key, else what is made now; then it is the newest."""
        found = self.pop(key) if key in self else make()
        self[key] = found
        self.shorten()
        return found

    def shorten(self) -> None:
        """Forget the oldest."""
        while len(self) > self._most:
            del self[next(iter(self))]


class Memory:
    """Studies kept from one analysis to the next: a live circuit that did not change is not
    solved again. Holds the ``most`` newest, and the few newest analyses: where parts were only
    moved, nothing is judged anew."""

    def __init__(self, most: int = 512) -> None:
        self._studies: Kept[Hashable, Studies] = Kept(most)
        self._shorts: Kept[Hashable, Shorts] = Kept(4 * most)
        self._cases: Kept[Mark, Case] = Kept(2 * MOST_CASES)
        self.analyses: Kept[Hashable, object] = Kept(8)

    def case(self, circuit: Circuit) -> Case:
        """The searches over a circuit, old ones where it is the same."""
        fresh = Case(circuit)
        return self._cases.get_or(fresh.contents.whole, lambda: fresh)

    def studies(self, case: Case, grown: Grown, state: State, content: Mark) -> Studies:
        """The studies of a live circuit, old ones where its content is the same and its indices
        mean the same."""

        def make() -> Studies:
            return Studies(
                case.circuit, state, self._shorts, case.contents.extent(grown, state), case.contents
            )

        found = self._studies.get_or((content, case.contents.places), make)
        for thing in (found, found.circuit):
            forget(thing)
        self._shorts.shorten()
        return found


MOST_CASES = 32
"""More combinations of unknowns than this are judged one unknown at a time, and it is said."""
