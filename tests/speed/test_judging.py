"""How long judging takes, as ratios to one plain solution measured in the same run.

Run this file by itself for a table (python -m tests.speed.test_judging), or under pytest with
--benchmark-enable. Nothing here fails for being slow: the machine decides that, not the program.
"""

from __future__ import annotations

import itertools
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from linework.analysis import Memory, analyse
from linework.circuit import expand
from linework.circuit.network import IN_USE, Network
from linework.design import Design, Draft
from linework.design.edits import move_parts, rate_run
from linework.storage import load
from linework.study.situation import Situation
from tests.enumeration import all_states

SAMPLE = Path(__file__).parents[2] / "samples" / "vaccination-trailer.linework"
GOAL_SHOWN = 45.0
GOAL_ALL = 450.0
"""Plain solutions."""


class Trailer:
    """The sound trailer with a length that changes at every call, and what is remembered of it."""

    def __init__(self) -> None:
        self.design = load(SAMPLE)
        self.memory = Memory()
        first = analyse(self.design, memory=self.memory)
        self.shown = next(r.key for r in first.reports if r.title == "on shore")
        self._lengths = itertools.count(31)
        self._sides = itertools.cycle((1, -1))

    def edit(self) -> None:
        """The cable of the refrigerator a foot longer."""
        change = rate_run(self.design, "W14", {"length": f"{next(self._lengths)} ft"})
        self.design.apply(change)

    def shown_after_an_edit(self) -> None:
        """What a person waits for after letting go."""
        self.edit()
        assert analyse(self.design, self.shown, self.memory).states() == (self.shown,)

    def all_after_an_edit(self) -> None:
        """What follows while nobody waits."""
        self.edit()
        assert analyse(self.design, memory=self.memory).sound

    def all_afresh(self) -> None:
        """As the command line does it."""
        assert analyse(self.design).sound

    def all_after_a_move(self) -> None:
        """A symbol moved: nothing electrical changes."""
        self.design.apply(move_parts(self.design, ["EA1"], 25 * next(self._sides), 0))
        assert analyse(self.design, memory=self.memory).sound


def street(parts: int) -> Draft:
    """A supply, boards in a row, a breaker and a load for every other part."""
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    before, made, number = "GS1.out", 1, 0
    while made < parts:
        number += 1
        board = f"QP{number}"
        d.part("panel", board, bond="absent", places="12")
        d.run(before, f"{board}.feed", size="2 AWG", length="10 ft")
        made += 1
        for place in range(1, 11):
            if made + 2 > parts:
                return d
            name = f"{number}x{place}"
            d.part("breaker", f"QF{name}", rating="20 A", interrupting="10 kA")
            d.seat(f"QF{name}", board, str(place))
            d.part("load", f"EA{name}", power="100 W")
            d.run(f"QF{name}.load", f"EA{name}.in", size="12 AWG", length="30 ft")
            made += 2
        before = f"{board}.feed"
    return d


def one_solution() -> Callable[[], None]:
    """The yardstick: one network of the trailer on shore, put together, factorised and solved."""
    circuit = expand(load(SAMPLE))
    states = [s for s in all_states(circuit).states if s.passing is None]
    situation = Situation(circuit, max(states, key=lambda s: len(Situation(circuit, s).systems)))

    def solve() -> None:
        volts = Network(situation, 60.0, IN_USE).open_volts
        assert np.max(np.abs(volts)) > 100.0

    return solve


def factorisations(work: Callable[[], None]) -> int:
    """How many networks are factorised while something is done."""
    count = 0
    real = Network._factorise

    def counted(self: Network) -> None:
        nonlocal count
        count += 1
        real(self)

    Network._factorise = counted  # type: ignore[method-assign]
    try:
        work()
    finally:
        Network._factorise = real  # type: ignore[method-assign]
    return count


# under pytest


def test_a_moved_symbol_solves_nothing() -> None:
    assert factorisations(Trailer().all_after_a_move) == 0


def test_an_edit_solves_again_what_it_changes() -> None:
    assert factorisations(Trailer().all_after_an_edit) > 0


@pytest.fixture
def trailer() -> Trailer:
    return Trailer()


def test_shown_state_after_an_edit(benchmark: Any, trailer: Trailer) -> None:
    benchmark(trailer.shown_after_an_edit)


def test_all_states_after_an_edit(benchmark: Any, trailer: Trailer) -> None:
    benchmark(trailer.all_after_an_edit)


@pytest.mark.parametrize("parts", [20, 200])
def test_more_parts(benchmark: Any, parts: int) -> None:
    design: Design = street(parts).design
    assert len(design.parts) in (parts, parts - 1)
    found = benchmark(analyse, design)
    assert found.reports


# by itself


def best_ms(work: Callable[[], object], rounds: int = 7) -> float:
    """The shortest of some rounds, in milliseconds."""
    times = []
    for _ in range(rounds):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return 1000.0 * min(times)


def main() -> None:
    """Print a table: milliseconds, and how many plain solutions that is."""
    trailer, unit = Trailer(), best_ms(one_solution(), 50)
    small, large = (street(parts).design for parts in (20, 200))
    table = [
        ("one network put together, factorised, solved", unit),
        (f"shown state after an edit (goal {GOAL_SHOWN:g} x)",
         best_ms(trailer.shown_after_an_edit)),
        (f"all states after an edit (goal {GOAL_ALL:g} x)",
         best_ms(trailer.all_after_an_edit)),
        ("all states, nothing remembered", best_ms(trailer.all_afresh)),
        ("all states after a symbol moved", best_ms(trailer.all_after_a_move)),
        ("20 parts in a row", best_ms(lambda: analyse(small), 3)),
        ("200 parts in a row", best_ms(lambda: analyse(large), 3)),
    ]  # fmt: skip
    for what, ms in table:
        print(f"{ms:9.2f} ms {ms / unit:9.1f} x  {what}")
    print(f"{table[-1][1] / table[-2][1]:9.1f}       x  200 parts over 20 parts")
    print(f"{factorisations(trailer.all_after_a_move):9d}          factorisations for a move")
    print(f"{factorisations(trailer.all_after_an_edit):9d}          factorisations for an edit")


if __name__ == "__main__":
    main()
