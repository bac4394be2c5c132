"""Published examples of what boxes and conduits hold."""

from __future__ import annotations

from math import floor

import pytest

from linework.codes.na.fill import (
    box_fill_in3,
    box_volume_in3,
    conductor_area_in2,
    raceway_room_in2,
    volume_allowance_in3,
)
from tests.examples.published import published


@published("063", "Box fill lesson", "electriciansexam.com/learn/boxFill.jsp")
def test_a_box_of_two_sizes() -> None:
    # Seven 12 AWG and two 10 AWG, grounds of 10 AWG, an isolated ground and a switch on 12 AWG:
    # 15.75 + 5.0 + 2.5 + 2.25 + 4.5 = 30.0 in3, which fits 30.3 in3.
    twelve = {"12 AWG": 7}
    assert box_fill_in3(twelve) == pytest.approx(9.0 + 6.75, abs=0.01)
    mixed = twelve | {"10 AWG": 2}
    assert box_fill_in3(mixed) - box_fill_in3(twelve) == pytest.approx(5.0, abs=0.01)
    need = box_fill_in3(
        mixed,
        grounds=["10 AWG", "12 AWG"],
        isolated_grounds=["12 AWG"],
        yokes=["12 AWG"],
    )
    assert need == pytest.approx(30.0, abs=0.01)
    box = box_volume_in3("square", "4 x 2-1/8").value
    assert (need <= box, box) == (True, 30.3)


@published("065", "Code calculations", "ecmweb.com/content/code-calculations-9?page=10")
def test_how_many_a_box_holds() -> None:
    # Nine 12 AWG need the 4 x 1-1/2 square box, seven 14 AWG fit the round one.
    twelve, fourteen = volume_allowance_in3("12 AWG").value, volume_allowance_in3("14 AWG").value
    assert floor(box_volume_in3("square", "4 x 1-1/2").value / twelve) == 9
    assert floor(box_volume_in3("square", "4 x 1-1/4").value / twelve) == 8
    assert floor(box_volume_in3("round/octagonal", "4 x 1-1/2").value / fourteen) == 7


@published("066", "Modern Commercial Wiring (2018), problem 6-8, p. 100", "g-wonlinetextbooks.com")
def test_five_conductors_in_rigid_conduit() -> None:
    # One 12, one 10, three 8 AWG THHN: 0.1442 in2, trade size 3/4.
    counts = {"12 AWG": 1, "10 AWG": 1, "8 AWG": 3}
    need = sum(n * conductor_area_in2(size, "THHN").value for size, n in counts.items())
    assert need == pytest.approx(0.1442, abs=0.0001)
    assert raceway_room_in2("RMC", "1/2", 5).value < need <= raceway_room_in2("RMC", "3/4", 5).value
