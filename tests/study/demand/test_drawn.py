"""What is read off the drawing for a load calculation."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.demand.drawn import (
    drawn_dwelling,
    inlets_aboard,
    is_dwelling,
    vehicle_circuits,
)
from linework.study.demand.dwelling import Use
from tests.trial.rigs import RIGS


def cottage(**answers: str) -> Draft:
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", breaker="100 A", **answers)
    d.part("panel", "QP1", circuit="split", bond="fitted")
    d.run("GS1.out", "QP1.feed", "W1", size="4 AWG", length="30 ft")
    d.part("heater", "EH1", circuit="ac240", power="4500 W", dwelling_use="fixed")
    d.part("motor", "MA1", circuit="ac240", power="2000 W")
    d.part("lamp", "EL1", power="60 W")
    return d


def test_the_area_and_the_uses_that_were_said() -> None:
    draft = cottage(serves="dwelling", floor_area="1500 ft2")
    supply = draft.design.part("GS1")
    assert is_dwelling(draft.design, supply)
    found = drawn_dwelling(draft.design, supply, {"EH1", "MA1", "EL1"})
    assert found is not None
    assert found.area_ft2 == pytest.approx(1500.0)
    told = {a.name: (a.use, a.motor, a.between) for a in found.appliances}
    # a lamp is part of the lighting by area; of the motor nobody said what it is
    assert told == {
        "EH1": (Use.FIXED, False, True),
        "MA1": (Use.UNSAID, True, True),
    }
    assert found.appliances[0].va == pytest.approx(4500.0)


def test_without_an_area_there_is_no_dwelling_to_calculate() -> None:
    draft = cottage(serves="dwelling")
    assert drawn_dwelling(draft.design, draft.design.part("GS1"), {"EH1"}) is None


def test_a_supply_of_which_nobody_said_it_is_none() -> None:
    draft = cottage(floor_area="1500 ft2")
    assert not is_dwelling(draft.design, draft.design.part("GS1"))


def test_what_is_not_fed_does_not_count() -> None:
    draft = cottage(serves="dwelling", floor_area="1500 ft2")
    found = drawn_dwelling(draft.design, draft.design.part("GS1"), {"EH1"})
    assert found is not None
    assert [a.name for a in found.appliances] == ["EH1"]


def test_the_circuits_and_the_inlet_of_a_vehicle() -> None:
    design = RIGS["tiny_house"]().design
    assert vehicle_circuits(design) == 4
    (inlet,) = inlets_aboard(design).items()
    assert (design.part(inlet[0]).designation, inlet[1]) == ("XI1", 30.0)
    assert vehicle_circuits(RIGS["house_with_barn"]().design) == 0
