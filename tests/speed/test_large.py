"""Time and memory of large designs, and what must not grow faster than they do.

Run this file by itself for a table (python -m tests.speed.test_large 300 600 1200 5000): each size
in a process of its own, its time as a ratio to one plain solution of the trailer, and its greatest
memory. Under pytest the work is counted, not timed.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import time
from collections.abc import Callable
from typing import Any

import pytest

from linework.analysis import analyse
from linework.circuit import expand
from linework.circuit.network import STRONGEST, WEAKEST, Complex, Network
from linework.circuit.states import settle
from linework.design import Design
from linework.study.shorts.faults import Fault, faults
from linework.study.situation import Situation
from tests.large import estate
from tests.speed.test_judging import SAMPLE, best_ms, one_solution, street

DRAWN: dict[str, Callable[[int], Design]] = {
    "boards in a row": lambda parts: street(parts).design,
    "boards that branch": estate,
}


def at_rest(design: Design) -> Situation:
    """The design with every lever and plug at rest."""
    circuit = expand(design)
    return Situation(circuit, settle(circuit, {}))


def shorts(situation: Situation) -> list[Fault]:
    return [fault for owner in situation.owners for fault in faults(situation, owner)]


# under pytest


@pytest.fixture
def work(monkeypatch: pytest.MonkeyPatch) -> dict[str, int]:
    """How many networks are factorised, and for how many right-hand sides they are solved."""
    count = {"factorisations": 0, "right-hand sides": 0}
    factorise, solve = Network._factorise, Network.solve

    def factorised(self: Network) -> None:
        count["factorisations"] += 1
        factorise(self)

    def solved(self: Network, currents: Complex) -> Complex:
        count["right-hand sides"] += currents.size // self.size
        return solve(self, currents)

    monkeypatch.setattr(Network, "_factorise", factorised)
    monkeypatch.setattr(Network, "solve", solved)
    return count


@pytest.mark.parametrize("drawn", DRAWN.values(), ids=list(DRAWN))
def test_all_shorts_take_two_factorisations_and_two_solutions(
    work: dict[str, int], drawn: Callable[[int], Design]
) -> None:
    """Sources at their weakest and at their strongest, before the shorts; none for a short."""
    for parts in (60, 120):
        situation = at_rest(drawn(parts))
        work.update(dict.fromkeys(work, 0))
        found = shorts(situation)
        assert len(found) > parts
        assert work == {"factorisations": 2, "right-hand sides": 2}


def test_the_inverse_and_what_carries_faults_grow_with_the_parts() -> None:
    entries, carried = [], []
    for parts in (150, 600):
        situation = at_rest(estate(parts))
        found = shorts(situation)
        nets = [situation.network(60.0, strength) for strength in (WEAKEST, STRONGEST)]
        entries.append(max(net.half.nnz / len(net.free) for net in nets))
        carried.append(sum(len(f.weak.branch_a) for f in found) / len(found))
    # a design four times as large has boards one level deeper
    assert entries[1] < 1.5 * entries[0] < 60.0
    assert carried[1] < 1.5 * carried[0] < 30.0


@pytest.mark.parametrize("parts", [150])
def test_a_large_design(benchmark: Any, parts: int) -> None:
    design = street(parts).design
    assert benchmark(analyse, design).reports


# by itself


def measure(drawn: str, parts: int) -> None:
    """Print seconds of this process for one analysis, and the greatest memory in MB."""
    design = DRAWN[drawn](parts)
    begin = time.process_time()
    found = analyse(design)
    seconds = time.process_time() - begin
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    assert found.reports
    print(f"{seconds} {most} {len(design.parts)} {len(found.reports)}")


def apart(*words: str) -> str:
    """What a process of its own prints."""
    done = subprocess.run([sys.executable, *words], capture_output=True, text=True, check=True)
    return done.stdout


def main(sizes: list[int]) -> None:
    """Print a table."""
    unit = best_ms(one_solution(), 50) / 1000.0
    begin = time.perf_counter()
    apart("-m", "linework", "check", str(SAMPLE))
    print(f"{time.perf_counter() - begin:8.2f} s  check of the trailer as a process")
    for drawn in DRAWN:
        for parts in sizes:
            seconds, most, count, states = apart("-m", __spec__.name, drawn, str(parts)).split()
            each = 1000.0 * float(seconds) / int(count)
            print(
                f"{float(seconds):8.2f} s {float(seconds) / unit:9.0f} x {most:>6} MB"
                f" {each:6.2f} ms a part, {states} states  {count} parts, {drawn}",
                flush=True,
            )


if __name__ == "__main__":
    if sys.argv[1:] and sys.argv[1] in DRAWN:
        measure(sys.argv[1], int(sys.argv[2]))
    else:
        main([int(word) for word in sys.argv[1:]] or [300, 600, 1200])
