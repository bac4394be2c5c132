"""The battery's minus and the ground of AC circuits on a boat (ABYC E-11, ISO 13297)."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.design.edits import remove
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


def boat_with_lights_of_its_own(tie: bool) -> Draft:
    """Shore power and a battery between which no converter lies."""
    d = Draft(place="boat")
    d.part("supply", "GS1", breaker="30 A")
    d.part("outlet", "XD9", configuration="L5-30")
    d.run("GS1.out", "XD9.feed", size="10 AWG", length="5 ft")
    d.part("plug", "XP1", configuration="L5-30")
    d.seat("XP1", "XD9", "face")
    d.part("inlet", "XI1", configuration="L5-30")
    d.run("XP1.cord", "XI1.outside", size="10 AWG", length="30 ft", installation="cord")
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("XI1.inside", "QP1.feed", size="10 AWG", length="6 ft")
    d.part("battery", "GB1", voltage="12 V", capacity="100 Ah")
    d.part("lamp", "EL1", circuit="dc", power="24 W")
    d.run("GB1.dc", "EL1.in", size="10 AWG", length="3 m")
    if tie:
        d.run("GB1.dc", "QP1.ground", "W40", poles="->PE", **TIE)
    return d


@pytest.mark.parametrize("tie", [True, False])
def test_the_two_need_no_converter_between_them(tie: bool) -> None:
    hits = found(boat_with_lights_of_its_own(tie), RULE)
    assert [hit.subjects for hit in hits] == ([] if tie else [("GB1",)])


def test_what_is_live_on_the_dock_only_is_not_aboard() -> None:
    draft = boat_with_lights_of_its_own(False)
    for part in ("QP1", "XI1"):
        draft.design.apply(remove(draft.design, [part]))
    assert found(draft, RULE) == []


def test_two_banks_on_one_minus_are_one_finding() -> None:
    draft = with_inverter(van("boat"))
    draft.part("battery", "GB2", capacity="80 Ah", chemistry="flooded", fault_current="2 kA")
    draft.part("motor", "MA9", circuit="dc", voltage="12 V", power="1 kW", duty="starter")
    lead = {"size": "2/0 AWG", "length": "3 ft"}
    draft.run("GB2.dc", "MA9.in", "W50", poles="+", **lead)
    draft.run("GB2.dc", "MA9.in", "W51", poles="-", **lead)
    draft.run("GB2.dc", "GB1.dc", "W52", poles="-", **lead)
    assert found(draft, RULE) == []
    draft.cut("W9")
    assert [hit.subjects for hit in found(draft, RULE)] == [("GB1", "GB2")]
