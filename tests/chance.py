"""Random designs by number: the same number draws the same design, with interlocks of chance."""

from __future__ import annotations

import os
from random import Random

from hypothesis import strategies as st

from linework.circuit import expand, free_selectors
from linework.circuit.model import Circuit
from linework.design import Draft
from linework.design.change import EditError
from linework.design.edits import add_interlock
from tests.designs import Pen, furnish

ALL = int(os.environ.get("LINEWORK_RANDOM_DESIGNS", "0"))
NUMBERS = range(ALL or 40)
"""The numbers searched: few in the ordinary run; LINEWORK_RANDOM_DESIGNS=500 searches 500."""
JUDGED = range(ALL or 8)
"""The numbers judged in every state, which takes long."""

MOST_SWITCHES = 10
MOST_STATES = 2000


class _Dice(Pen):
    """Draws by a random number generator of its own."""

    def __init__(self, random: Random, place: str) -> None:
        super().__init__(lambda strategy: st.nothing(), place)
        self._random = random

    def one_of(self, *options: object) -> object:
        return self._random.choice(options)

    def number(self, low: int, high: int) -> int:
        return self._random.randint(low, high)


def draft(number: int) -> Draft:
    """The random design of a number, of at most ten switches and 2,000 states."""
    for attempt in range(100):
        random = Random(1000 * number + attempt)
        pen = _Dice(random, random.choice(("vehicle", "building")))
        furnish(pen, 7)
        if random.random() < 0.75:
            _interlock(pen.d, random)
        circuit = expand(pen.d.design, {})
        free = free_selectors(circuit)
        if 1 <= len(free) <= MOST_SWITCHES and _combinations(circuit) <= MOST_STATES:
            return pen.d
    raise AssertionError(f"no design of number {number} is small enough")


def _combinations(circuit: Circuit) -> int:
    found = 1
    for selector in free_selectors(circuit):
        found *= len(selector.positions)
    return found


def _interlock(drawn: Draft, random: Random) -> None:
    """Two or three positions of switches or breakers of which only one may hold."""
    circuit = expand(drawn.design, {})
    among = [s for s in circuit.selectors.values() if s.moves != "follows" and s.positions[1:]]
    if len(among) < 2:
        return
    chosen = random.sample(among, min(len(among), random.randint(2, 3)))
    lock = [(*s.key, random.choice(s.positions)) for s in chosen]
    try:
        drawn.design.apply(add_interlock(drawn.design, lock))
    except EditError:
        return
