"""What is kept from one analysis to the next: an edit solves only the circuits that it touches."""

from __future__ import annotations

from pathlib import Path

import pytest

from linework.analysis import Memory, analyse, cases
from linework.circuit import expand
from linework.design import Design, Draft
from linework.design.edits import change_settings, rate_run
from linework.storage import load
from linework.study import memory as kept
from linework.study.memory import Case
from linework.study.once import forget, once
from linework.study.studies import Studies

SAMPLE = Path(__file__).parents[2] / "samples" / "vaccination-trailer.linework"


@pytest.fixture
def solved(monkeypatch: pytest.MonkeyPatch) -> list[frozenset[str]]:
    """The source parts of the circuits that are studied from now on."""
    made: list[frozenset[str]] = []

    def noted(*given: object) -> Studies:
        studies = Studies(*given)  # type: ignore[arg-type]
        made.append(frozenset(studies.situation.owners))
        return studies

    monkeypatch.setattr(kept, "Studies", noted)
    return made


def with_run(design: Design, run: str) -> int:
    """The number of circuits on the conductors of which a run lies."""
    case = Case(expand(design, cases(design)[0][0]))
    branches = case.circuit.branches
    return sum(
        any(branches[i].owner == run for i in case.contents.wires(standing.grown))
        for standing in (*case.circuits.at_rest, *case.circuits.passing)
    )


@pytest.mark.parametrize("run", ["W1", "W5", "W14"])
def test_another_length_solves_the_circuits_of_that_run_anew(
    run: str, solved: list[frozenset[str]]
) -> None:
    design, memory = load(SAMPLE), Memory()
    analyse(design, memory=memory)
    every, touched = len(solved), with_run(design, run)
    assert 0 < touched < every
    solved.clear()
    design.apply(rate_run(design, run, {"length": "33 ft"}))
    analyse(design, memory=memory)
    assert len(solved) == touched


def test_what_hangs_on_the_design_is_asked_anew_of_circuits_that_stay() -> None:
    """Where it is wet less voltage may stay on metal; no conductor changes by it."""
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    d.part("panel", "QP1", bond="fitted")
    d.run("GS1.out", "QP1.feed", size="1/0 AWG", length="5 ft", terminals="75")
    d.part("breaker", "QF1", rating="20 A", interrupting="22 kA")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="10 W")
    d.run("QF1.load", "EA1.in", size="12 AWG", length="1200 ft", ground_size="8 AWG")
    memory = Memory()
    before = analyse(d.design, memory=memory)
    d.design.apply(change_settings(d.design, wet=True))
    after = analyse(d.design, memory=memory)
    assert after.findings == analyse(d.design).findings
    assert after.findings != before.findings


class Thing:
    @once
    def sum_with(self, *more: int) -> list[int]:
        return [sum(more)]


def test_only_answers_that_hang_on_something_else_are_forgotten() -> None:
    thing = Thing()
    by_itself, with_others = thing.sum_with(), thing.sum_with(1, 2)
    forget(thing)
    assert thing.sum_with() is by_itself
    assert thing.sum_with(1, 2) is not with_others
