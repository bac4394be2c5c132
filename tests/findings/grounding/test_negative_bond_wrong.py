"""The battery's minus and the chassis (NFPA 70 552.10(C))."""

from __future__ import annotations

import pytest

from linework.findings.model import Level
from tests.findings.banks import van, with_inverter
from tests.findings.told import cured, found, gaps, number

RULE = "negative-bond-wrong"


def test_one_joint_is_right() -> None:
    assert found(van(), RULE) == []
    assert found(with_inverter(van()), RULE) == []


def test_a_minus_that_is_joined_nowhere() -> None:
    draft = van()
    draft.cut("W9")
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level) == (("GB1",), Level.WARNING)
    assert number(hit, "voltage that the chassis can take") == 12.0


@pytest.mark.parametrize("place", ["boat", "building", "field"])
def test_which_is_not_judged_elsewhere(place: str) -> None:
    draft = van(place)
    draft.cut("W9")
    assert found(draft, RULE) == []


def test_the_mend_is_as_thick_as_the_lead() -> None:
    draft = van()
    draft.cut("W9")
    (hit,) = found(draft, RULE)
    assert hit.mend is not None
    assert hit.mend.title == "Join the minus of GB1 to XB1 by 4/0 AWG"
    cured(draft, hit)


def test_two_joints_on_one_wire() -> None:
    draft = van()
    tie = {"size": "4/0 AWG", "length": "1 ft", "installation": "jumper"}
    draft.run("EL1.in", "XB1.tie", "W30", poles="->body", **tie)
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level) == (("W30", "W9"), Level.WARNING)
    assert number(hit, "joints on the ring") == 2.0
    cured(draft, hit)
    assert draft.design.get("W30") is None


def test_a_load_that_returns_through_the_chassis_is_no_second_joint() -> None:
    draft = van()
    draft.run_poles("W8", "+")
    tie = {"size": "12 AWG", "length": "1 ft"}
    draft.run("EL1.in", "XB1.tie", "W30", poles="->body", **tie)
    assert found(draft, RULE) == []


def test_without_a_chassis_on_the_sheet_it_is_not_checked() -> None:
    draft = van()
    draft.remove("XB1")
    assert found(draft, RULE) == []
    (gap,) = gaps(draft, RULE)
    assert "no chassis is drawn" in gap.reason
    assert gaps(van("building"), RULE) == []


def test_of_a_string_only_the_whole_minus_is_joined() -> None:
    draft = van()
    draft.part("battery", "GB9")
    draft.run("GB1.dc", "GB9.dc", "J1", poles="+>-", size="4/0 AWG", length="0.5 ft")
    assert found(draft, RULE) == []
    draft.cut("W9")
    assert [f.subjects for f in found(draft, RULE)] == [("GB1",)]


def test_two_batteries_of_a_vehicle_may_each_have_their_joint() -> None:
    """One for starting and one for living, their minuses joined by wire besides."""
    draft = van()
    draft.part("battery", "GB2", voltage="12 V")
    tie = {"size": "4/0 AWG", "length": "1 ft", "installation": "jumper"}
    draft.run("GB1.dc", "GB2.dc", "W40", poles="-", size="4/0 AWG", length="3 ft")
    draft.run("GB2.dc", "XB1.tie", "W41", poles="->body", **tie)
    assert found(draft, RULE) == []
    # a third, at no battery, is one too many
    draft.run("EL1.in", "XB1.tie", "W42", poles="->body", **tie)
    (hit,) = found(draft, RULE)
    assert "W42" in hit.where


def test_a_plus_on_the_chassis_is_told_as_that() -> None:
    """Joining the minus too would short the battery: that is not offered."""
    draft = van()
    draft.run_poles("W9", "+>body")
    (hit,) = found(draft, RULE)
    assert "The plus of GB1 is joined to the chassis" in hit.message
    assert hit.mend is None
