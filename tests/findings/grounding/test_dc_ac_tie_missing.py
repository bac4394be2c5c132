"""The battery's minus and the ground of AC circuits on a boat (ABYC E-11, ISO 13297)."""

from __future__ import annotations

import pytest

from linework.findings.model import Level
from tests.findings.banks import van, with_inverter
from tests.findings.told import found

RULE = "dc-ac-tie-missing"
TIE = {"size": "6 AWG", "length": "1 ft", "installation": "jumper"}


def test_both_on_the_hull_are_joined() -> None:
    assert found(with_inverter(van("boat")), RULE) == []


def test_a_minus_that_is_on_nothing() -> None:
    draft = with_inverter(van("boat"))
    draft.cut("W9")
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level) == (("GB1",), Level.DANGER)
    assert hit.reference == "ABYC E-11"


def test_a_joint_at_the_ground_bar_will_do() -> None:
    draft = with_inverter(van("boat"))
    draft.cut("W9")
    draft.run("GB1.dc", "QP1.ground", "W40", poles="->PE", **TIE)
    assert found(draft, RULE) == []


def test_a_board_whose_ground_wire_is_cut_off_is_not_joined() -> None:
    draft = with_inverter(van("boat"))
    draft.cut("W23")
    (hit,) = found(draft, RULE)
    assert hit.subjects == ("GB1",)


@pytest.mark.parametrize("place", ["vehicle", "building", "field"])
def test_only_boats_are_asked(place: str) -> None:
    draft = with_inverter(van(place))
    draft.cut("W9")
    assert found(draft, RULE) == []


def test_without_alternating_current_nothing_has_to_be_joined() -> None:
    draft = van("boat")
    draft.cut("W9")
    assert found(draft, RULE) == []
