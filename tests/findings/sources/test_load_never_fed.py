"""A load that no state energises."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import van, with_inverter
from tests.findings.camps import camp, changeover, levels
from tests.findings.told import found, gaps

RULE = "load-never-fed"


def test_a_load_without_a_hot_is_a_warning() -> None:
    draft = camp()
    draft.rate_run("W2", broken="L")
    assert levels(draft, RULE) == {("EA1",): Level.WARNING}


def test_a_load_without_a_neutral_too() -> None:
    draft = camp()
    draft.rate_run("W2", broken="N")
    assert levels(draft, RULE) == {("EA1",): Level.WARNING}


def test_a_load_both_hots_of_which_are_on_one_leg() -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="split", outage="no")
    draft.part("motor", "MA1", circuit="ac240", voltage="240 V", power="500 W")
    draft.run("GS1.out", "MA1.in", "w1", poles="L1 L1>L2 PE", size="12 AWG", length="10 ft")
    (hit,) = found(draft, RULE)
    assert hit.subjects == ("MA1",)
    assert "0 V between them" in hit.message
    draft.cut("w1")
    draft.run("GS1.out", "MA1.in", "w1", poles="L1 PE", size="12 AWG", length="10 ft")
    assert "0 V" not in found(draft, RULE)[0].message


def test_a_load_that_is_fed_is_silent() -> None:
    assert found(camp(), RULE) == []


def test_one_state_that_feeds_it_is_enough() -> None:
    draft = changeover()
    draft.cut("W1")
    assert found(draft, RULE) == []


def test_it_waits_for_all_states() -> None:
    draft = camp()
    draft.rate_run("W2", broken="L")
    partial = analyse(draft.design, shown="G1=running")
    assert RULE not in {f.rule for f in partial.findings}
    assert not partial.sound


def test_a_load_across_batteries_in_series_is_fed_and_nothing_is_left_unjudged() -> None:
    draft = Draft(place="vehicle")
    for name in ("GB1", "GB2"):
        draft.part("battery", name)
    draft.part("load", "EA1", circuit="dc", voltage="24 V", power="50 W")
    draft.run("GB1.dc", "GB2.dc", poles="->+", size="10 AWG", length="1 ft")
    draft.run("GB1.dc", "EA1.in", "plus", poles="+", size="10 AWG", length="1 ft")
    draft.run("GB2.dc", "EA1.in", poles="-", size="10 AWG", length="1 ft")
    assert found(draft, RULE) == []
    assert gaps(draft, "not-analysed") == []
    draft.cut("plus")
    assert set(levels(draft, RULE)) == {("EA1",), ("GB1",), ("GB2",)}


@pytest.mark.parametrize("cut", ["L", "N"])
def test_a_battery_whose_lead_is_cut(cut: str) -> None:
    """By day the array still feeds everything."""
    draft = with_inverter(van())
    assert found(draft, RULE) == []
    draft.rate_run("W3", broken=cut)
    assert levels(draft, RULE) == {("GB1",): Level.WARNING}
    (hit,) = found(draft, RULE)
    assert hit.message == "No position of the levers joins GB1 to anything that it could feed."


def test_an_inverter_whose_battery_lead_is_cut() -> None:
    draft = with_inverter(van())
    draft.remove("TC1", "GP1")
    draft.rate_run("W3", broken="L")
    told = {f.subjects: f.message for f in found(draft, RULE)}
    assert set(told) == {("EA1",), ("EL1",), ("GB1",), ("TB1",)}
    assert told["TB1",] == (
        "No position of the levers brings power to the direct-current side of TB1."
    )


def test_an_inverter_charger_that_still_charges_a_cut_lead() -> None:
    """Its own charger keeps the stub of the lead live on shore."""
    draft = Draft(place="vehicle")
    draft.part("supply", "GS1", breaker="30 A")
    draft.part("inverter_charger", "TB1", power="2 kVA", neutral="relay")
    draft.run("GS1.out", "TB1.ac_in", size="10 AWG", length="10 ft")
    draft.part("load", "EA1", power="200 W")
    draft.run("TB1.ac_out", "EA1.in", size="12 AWG", length="10 ft")
    draft.part("battery", "GB1")
    draft.part("fuse", "F1", rating="200 A", type="class_t")
    draft.run("GB1.dc", "F1.line", "lead", size="4/0 AWG", length="1 ft")
    draft.run("F1.load", "TB1.dc", "rest", size="4/0 AWG", length="1 ft")
    assert found(draft, RULE) == []
    draft.rate_run("lead", broken="L")
    assert levels(draft, RULE) == {("TB1",): Level.WARNING, ("GB1",): Level.WARNING}


def test_a_side_to_which_nothing_is_joined_is_silent() -> None:
    draft = Draft(place="vehicle")
    draft.part("supply", "GS1", breaker="30 A")
    draft.part("inverter_charger", "TB1", power="2 kVA", neutral="relay")
    draft.run("GS1.out", "TB1.ac_in", size="10 AWG", length="10 ft")
    draft.part("load", "EA1", power="200 W")
    draft.run("TB1.ac_out", "EA1.in", size="12 AWG", length="10 ft")
    assert found(draft, RULE) == []


def test_a_controller_without_its_array() -> None:
    draft = van()
    draft.cut("W1")
    assert levels(draft, RULE) == {("TC1",): Level.WARNING, ("GP1",): Level.WARNING}


def test_a_controller_that_charges_nothing() -> None:
    """Its minus is cut: by the minus that it joins through alone no current returns."""
    draft = van()
    draft.run_poles("W5", "+")
    assert levels(draft, RULE) == {("TC1",): Level.WARNING}


# inputs


def test_a_switch_input_without_its_hot_conductor() -> None:
    # the load runs from the set; what comes from the supply never arrives
    draft = changeover()
    draft.run_poles("W1", "N PE")
    assert levels(draft, RULE) == {("W1",): Level.WARNING}


def test_a_broken_hot_conductor_on_the_way_in() -> None:
    draft = changeover()
    draft.rate_run("W1", broken="L")
    assert levels(draft, RULE) == {("W1",): Level.WARNING}


def test_an_outlet_that_nothing_feeds() -> None:
    draft = camp()
    draft.run_poles("W3", "N PE")
    assert levels(draft, RULE) == {("W3",): Level.WARNING}


def test_a_board_that_nothing_feeds_is_told_once_with_its_loads() -> None:
    draft = camp()
    draft.run_poles("W1", "N PE")
    assert levels(draft, RULE) == {("W1",): Level.WARNING}


def test_an_inlet_into_which_nothing_goes_is_not_checked() -> None:
    draft = changeover()
    draft.cut("W1")
    draft.part("inlet", "XI1", configuration="TT-30")
    draft.run("XI1.inside", "QT1.in1", "W1", size="10 AWG", length="10 ft")
    assert found(draft, RULE) == []
    assert [gap.where for gap in gaps(draft, RULE)] == [("XI1",)]


def test_an_input_from_an_outlet_that_hangs_on_nothing() -> None:
    # the plug stands in an outlet that is joined to no source; the load runs from the supply
    draft = changeover()
    draft.cut("W2")
    draft.part("outlet", "XD1", configuration="L5-30")
    draft.part("plug", "XP1", configuration="L5-30")
    draft.seat("XP1", "XD1", "face")
    draft.run("XP1.cord", "QT1.in2", "W2", size="10 AWG", length="10 ft", installation="cord")
    assert levels(draft, RULE) == {("QT1",): Level.WARNING}


# converters


def aboard() -> Draft:
    """A bank, an inverter-charger that a supply can feed, an outlet behind it."""
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", capacity="200 Ah", fault_current="4 kA")
    draft.part("fuse", "F1", rating="200 A", type="class_t")
    draft.part("inverter_charger", "TB1", power="1.5 kVA", neutral="relay")
    draft.run("GB1.dc", "F1.line", "W1", size="4/0 AWG", length="0.5 ft")
    draft.run("F1.load", "TB1.dc", "W2", size="4/0 AWG", length="2 ft")
    draft.part("supply", "GS1", breaker="20 A", outage="yes")
    draft.run("GS1.out", "TB1.ac_in", "W3", size="12 AWG", length="20 ft")
    draft.part("load", "EA1", power="100 W")
    draft.run("TB1.ac_out", "EA1.in", "W4", size="12 AWG", length="10 ft")
    return draft


def test_a_sound_converter_is_silent() -> None:
    assert found(aboard(), RULE) == []


def test_an_inverter_without_its_bank() -> None:
    draft = aboard()
    draft.cut("W2")
    assert levels(draft, RULE) == {("GB1",): Level.WARNING}
    assert [gap.where for gap in gaps(draft, RULE)] == [("TB1",)]


def test_an_inverter_without_its_minus() -> None:
    draft = aboard()
    draft.run_poles("W2", "+")
    assert set(levels(draft, RULE)) == {("TB1",), ("GB1",)}


def test_a_charger_whose_neutral_is_missing_and_that_never_passes() -> None:
    draft = aboard()
    draft.run_poles("W3", "L PE")
    assert ("TB1",) in levels(draft, RULE)


def test_an_inverter_that_nobody_charges_from_the_shore_is_silent() -> None:
    draft = aboard()
    draft.cut("W3")
    draft.remove("GS1")
    assert found(draft, RULE) == []


def test_a_charger_that_reaches_no_battery() -> None:
    draft = Draft(place="vehicle")
    draft.part("supply", "GS1", breaker="20 A", outage="no")
    draft.part("charger", "TC1", current="30 A")
    draft.run("GS1.out", "TC1.ac_in", "W1", size="12 AWG", length="20 ft")
    assert found(draft, RULE) == []
    assert [gap.where for gap in gaps(draft, RULE)] == [("TC1",)]
    draft.part("junction_box", "XJ1", circuit="dc")
    draft.run("TC1.dc", "XJ1.a", "W4", size="8 AWG", length="1 ft")
    assert levels(draft, RULE) == {("TC1",): Level.WARNING}
    draft.remove("XJ1")
    draft.part("battery", "GB1", capacity="100 Ah", fault_current="2 kA")
    draft.part("fuse", "F1", rating="40 A", type="class_t")
    draft.run("GB1.dc", "F1.line", "W2", size="8 AWG", length="0.5 ft")
    draft.run("F1.load", "TC1.dc", "W3", size="8 AWG", length="3 ft")
    assert found(draft, RULE) == []


def test_a_charger_without_its_way_back() -> None:
    draft = Draft(place="vehicle")
    draft.part("supply", "GS1", breaker="20 A", outage="no")
    draft.part("charger", "TC1", current="30 A")
    draft.run("GS1.out", "TC1.ac_in", "W1", size="12 AWG", length="20 ft")
    draft.part("battery", "GB1", capacity="100 Ah", fault_current="2 kA")
    draft.run("GB1.dc", "TC1.dc", "W2", size="8 AWG", length="0.5 ft")
    assert found(draft, RULE) == []
    draft.run_poles("W2", "+")
    assert ("TC1",) in levels(draft, RULE)


def test_a_controller_drawn_without_what_feeds_it_is_not_checked() -> None:
    draft = van()
    draft.cut("W2")
    assert ("TC1",) in [gap.where for gap in gaps(draft, RULE)]


def test_an_inlet_of_a_switch_that_stands_on_it_is_not_checked_either() -> None:
    # where the lever stands, the loads hang on the dead input
    draft = changeover()
    draft.cut("W1")
    draft.part("inlet", "XI1", configuration="TT-30")
    draft.run("XI1.inside", "QT1.in1", "W1", size="10 AWG", length="10 ft")
    draft.cut("W2")
    draft.part("inlet", "XI2", configuration="TT-30")
    draft.run("XI2.inside", "QT1.in2", "W2", size="10 AWG", length="10 ft")
    assert {gap.where for gap in gaps(draft, RULE)} == {("XI1",), ("XI2",)}


def test_a_charger_on_a_string_of_batteries_charges_something() -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1", outage="no")
    draft.part("charger", "TB1", current="20 A", dc_voltage="24 V")
    draft.run("GS1.out", "TB1.ac_in", size="12 AWG", length="5 ft")
    for name in ("GB1", "GB2"):
        draft.part("battery", name)
    draft.run("TB1.dc", "GB1.dc", "plus", poles="+", size="8 AWG", length="3 ft")
    draft.run("GB1.dc", "GB2.dc", "link", poles="->+", size="8 AWG", length="1 ft")
    draft.run("TB1.dc", "GB2.dc", "minus", poles="-", size="8 AWG", length="3 ft")
    assert found(draft, RULE) == []
    draft.cut("link")
    assert ("TB1",) in levels(draft, RULE)


# metal joined to a post (a load gets the voltage between its two ends, by Kirchhoff)


def old_tractor(grounded: str) -> Draft:
    """A battery one of whose posts is on the frame; a lamp EL1 from the other post to the frame,
    and a lamp EL2 from the post on the frame to the frame."""
    other = {"+": "-", "-": "+"}[grounded]
    d = Draft(place="vehicle")
    d.part("battery", "GB1", voltage="12 V", capacity="70 Ah", chemistry="flooded")
    d.part("body", "XB1", name="frame")
    tie = {"size": "4 AWG", "length": "1 ft", "installation": "jumper"}
    d.run("GB1.dc", "XB1.tie", "W1", poles=f"{grounded}>body", **tie)
    wire = {"size": "14 AWG", "length": "6 ft"}
    for name, first, second in (("EL1", other, grounded), ("EL2", grounded, other)):
        d.part("lamp", name, circuit="dc", voltage="12 V", power="20 W")
        d.run("GB1.dc", f"{name}.in", f"W{name}", poles=f"{first}>{first}", **wire)
        d.run(f"{name}.in", "XB1.tie", f"WB{name}", poles=f"{second}>body", **tie)
    return d


@pytest.mark.parametrize(("grounded", "post"), [("+", "plus"), ("-", "minus")])
def test_a_lamp_between_the_frame_and_the_post_that_is_on_it(grounded: str, post: str) -> None:
    (hit,) = found(old_tractor(grounded), RULE)
    assert hit.subjects == ("EL2",)
    assert f"both its conductors come to the {post} of GB1" in hit.message
    assert "metal of XB1" in hit.message


def test_a_load_both_of_whose_wires_are_on_plus() -> None:
    d = old_tractor("-")
    d.cut("WEL2")
    d.cut("WBEL2")
    wire = {"size": "14 AWG", "length": "6 ft"}
    d.run("GB1.dc", "EL2.in", "WEL2", poles="+", **wire)
    d.run("GB1.dc", "EL2.in", "WEL3", poles="+>-", **wire)
    (hit,) = found(d, RULE)
    assert "both its conductors come to the plus of GB1, with 0 V" in hit.message
