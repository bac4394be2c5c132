"""The answers of the tables for one design: those of the plain functions, each worked out once."""

from __future__ import annotations

import pytest

from linework.codes import CodesError
from linework.design import Draft, Run
from linework.study.wires import ampacities, ratings
from linework.study.wires.ampacities import Ampacities, sun_needs_a
from linework.wiring import Pole


def drawn(**run: str) -> tuple[Ampacities, Run]:
    d = Draft(place="building")
    d.part("supply", "GS1", breaker="30 A", outage="no")
    d.part("panel", "QP1", bond="absent")
    d.run("GS1.out", "QP1.feed", "W1", **({"size": "10 AWG", "length": "20 ft"} | run))
    run_drawn = d.design.get("W1")
    assert isinstance(run_drawn, Run)
    return Ampacities(d.design), run_drawn


def test_they_are_those_of_the_plain_functions() -> None:
    of, run = drawn()
    design = of.design
    assert of.of_run(run, 30.0) == ratings.run_ampacity(design, run, 30.0)
    assert of.of_pole(run, Pole.N, 30.0) == ratings.pole_ampacity(design, run, Pole.N, 30.0)
    assert of.plain(run, Pole.L, 30.0) == ratings.plain_ampacity(design, run, Pole.L, 30.0)
    assert of.ground_wire(run, 30.0, "breaker") == ratings.ground_wire_need(design, run, 30.0)
    assert of.largest_device(run, 30.0, "breaker") == ratings.largest_device(
        design, run, ratings.run_ampacity(design, run, 30.0)
    )


def test_each_is_worked_out_once(monkeypatch: pytest.MonkeyPatch) -> None:
    of, run = drawn()
    first = of.largest_device(run, 30.0, "breaker")
    for name in ("run_ampacity", "in_parallel", "largest_device"):
        monkeypatch.setattr(ampacities, name, None)  # asking again would raise
    assert of.largest_device(run, 30.0, "breaker") is first
    assert of.with_twins(run, 30.0) is of.with_twins(run, 30.0)
    with pytest.raises(TypeError):
        of.largest_device(run, 20.0, "breaker")


def test_what_no_table_tells_is_raised_each_time() -> None:
    of, run = drawn(size="26 AWG")
    for _ in range(2):
        with pytest.raises(CodesError):
            of.of_run(run)


def test_a_run_without_a_size_is_told_apart_from_one_that_no_table_knows() -> None:
    of, run = drawn()
    bare = ratings.resized(run, "")
    with pytest.raises(KeyError, match="size"):
        of.of_run(bare)


def test_in_the_sun_a_run_must_carry_it_as_laid_and_five_quarters_of_it_before_corrections() -> (
    None
):
    """By hand: 10 AWG at 75 degrees, 35 A. Cold and alone the second condition decides (28 A), in a
    hot roof the first."""
    cool, run = drawn(insulation="75", terminals="75", installation="conduit_pvc")
    assert sun_needs_a(28.0) == pytest.approx(35.0)
    least = cool.of_run(run).value / 1.25
    assert cool.carries_sun(run, least)
    assert not cool.carries_sun(run, least * 1.01)
    hot, roof = drawn(
        insulation="75", terminals="75", installation="conduit_pvc", ambient="60 degC"
    )
    laid = hot.of_run(roof).value
    assert laid < least
    assert hot.carries_sun(roof, laid)
    assert not hot.carries_sun(roof, laid * 1.01)
