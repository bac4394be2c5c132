"""One conductor taken out of the sound trailer: no feed may lose one unseen.

Where another source feeds the same loads nothing goes dark, and what is missing shows only in
the states in which it was meant to serve.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from linework.analysis import Memory, analyse
from linework.design import Design, Run, pole_map
from linework.design.edits import set_poles
from linework.storage import load
from linework.wiring import Pole

SAMPLE = Path(__file__).resolve().parent.parent / "samples" / "vaccination-trailer.linework"


@pytest.fixture(scope="module")
def memory() -> Memory:
    return Memory()


def without(designation: str, pole: Pole) -> Design:
    """The trailer with one conductor of one run less."""
    design = load(SAMPLE)
    run = next(r for r in design.runs if r.designation == designation)
    rest = tuple(pair for pair in pole_map(design, run) if pair[0] is not pole)
    assert len(rest) == len(pole_map(design, run)) - 1
    design.apply(set_poles(design, run.id, rest))
    return design


def feeds() -> list[tuple[str, Pole]]:
    """The conductors of the runs from shore, set and board to inlets, switch and inverter."""
    design = load(SAMPLE)
    inputs = {"XI1", "XI2", "QT1", "TB1"}

    def leads_in(run: Run) -> bool:
        return design.part(run.b.part).designation in inputs

    return [
        (run.designation, pole)
        for run in sorted(design.runs, key=lambda r: r.designation)
        for pole, _ in pole_map(design, run)
        if leads_in(run) and pole in (Pole.L, Pole.N)
    ]


@pytest.mark.parametrize(("run", "pole"), feeds())
def test_a_feed_without_a_conductor_is_seen(run: str, pole: Pole, memory: Memory) -> None:
    assert not analyse(without(run, pole), memory=memory).silent


def test_whole_it_is_sound(memory: Memory) -> None:
    assert analyse(load(SAMPLE), memory=memory).sound
