"""Bonds, electrodes and alarms are asked for where each part stands, not by the design alone."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from tests.findings.told import found, gaps, places
from tests.study.test_stands import house_and_trailer


def with_trailer(*, body: bool = True, tied: str = "QP2", minus: bool = True) -> Draft:
    """A house with a trailer on its outlet; the trailer's chassis drawn, and joined to what."""
    d = house_and_trailer(stands="recreational")
    if body:
        d.part("body", "XB1")
        if tied:
            d.run(f"{tied}.ground", "XB1.tie", "bond", size="8 AWG", length="2 ft")
        if minus:
            d.run("GB1.dc", "XB1.tie", "earth", poles="->body", size="8 AWG", length="2 ft")
    return d


def test_a_trailer_at_a_house_is_no_gap_where_its_chassis_is_drawn() -> None:
    draft = with_trailer()
    assert not analyse(draft.design).gaps
    for rule in ("chassis-unbonded", "negative-bond-wrong", "electrode-missing"):
        assert not found(draft, rule)


def test_a_trailer_at_a_house_needs_its_chassis_on_the_sheet() -> None:
    draft = with_trailer(body=False)
    assert gaps(draft, "chassis-unbonded")
    assert gaps(draft, "negative-bond-wrong")


def test_the_chassis_of_a_trailer_at_a_house_is_bonded() -> None:
    draft = with_trailer(tied="")
    assert places(draft, "chassis-unbonded") == {("XB1",)}
    assert places(with_trailer(minus=False), "negative-bond-wrong") == {("GB1",)}


@pytest.mark.parametrize(("stands", "clause"), [("recreational", True), ("here", False)])
def test_a_link_in_the_panel_of_a_trailer_at_a_house(stands: str, clause: bool) -> None:
    draft = with_trailer()
    draft.rate("XI1", stands=stands)
    draft.rate("QP2", bond="fitted")
    assert (("QP2",) in places(draft, "bond-at-wrong-place")) is clause


def cabin_and_van(*, aboard: str = "vehicle", rod: bool = True, bonded: bool = True) -> Draft:
    """A cabin on its inverter, and a van that is parked there with one of its own; no wire between
    them."""
    d = Draft(place="building")
    for n, where in (("1", "here"), ("2", aboard)):
        d.part(
            "battery",
            f"GB{n}",
            voltage="12 V",
            fault_current="3 kA",
            stands=where,
            capacity="100 Ah",
        )
        d.part("fuse", f"F{n}", rating="200 A", type="class_t")
        d.seat(f"F{n}", f"GB{n}", "post")
        d.part("inverter", f"TB{n}", power="1000 VA", neutral="bonded")
        d.run(f"F{n}.load", f"TB{n}.dc", f"b{n}", poles="+ -", size="2/0 AWG", length="3 ft")
        d.part("panel", f"QP{n}", main="15 A", bond="absent")
        d.run(f"TB{n}.ac_out", f"QP{n}.feed", f"f{n}", size="12 AWG", length="6 ft")
        d.part("breaker", f"QF{n}", rating="15 A", interrupting="10 kA")
        d.seat(f"QF{n}", f"QP{n}", "1")
        d.part("outlet", f"XD{n}", configuration="5-15", ground_fault="class_a")
        d.run(f"QF{n}.load", f"XD{n}.feed", f"o{n}", size="12 AWG", length="9 ft")
    d.part("body", "XB2")
    d.run("GB2.dc", "XB2.tie", "m", poles="->body", size="2/0 AWG", length="2 ft")
    if bonded:
        d.run("QP2.ground", "XB2.tie", "g", size="8 AWG", length="2 ft")
    if rod:
        d.part("electrode", "XE1")
        d.run("QP1.ground", "XE1.ground", "e", size="6 AWG", length="9 ft")
    return d


def test_a_parked_van_needs_no_electrode_and_a_cabin_no_chassis() -> None:
    draft = cabin_and_van()
    for rule in ("electrode-missing", "chassis-unbonded", "negative-bond-wrong"):
        assert not found(draft, rule), rule
    assert not analyse(draft.design).gaps
    assert places(cabin_and_van(rod=False), "electrode-missing") == {("TB1",)}


def test_a_parked_van_is_bonded_to_what_it_carries_itself() -> None:
    (finding,) = found(cabin_and_van(bonded=False), "chassis-unbonded")
    assert finding.subjects == ("XB2",)
    assert "TB1" not in finding.message


def test_a_chassis_wired_to_nothing_is_that_of_the_only_thing_aboard() -> None:
    draft = cabin_and_van(bonded=False)
    draft.cut("m")
    (finding,) = found(draft, "chassis-unbonded")
    assert "TB2" in finding.message
    assert "TB1" not in finding.message
    assert places(draft, "negative-bond-wrong") == {("GB2",)}


def dock_house(*, place: str = "boat", tie: bool = True, **inlet: str) -> Draft:
    """A boat on the outlet of a house at the dock; the house has a bank and an inverter of its
    own."""
    d, stands = Draft(place=place), "building"
    d.part("generator", "G1", power="6 kVA", neutral="bonded", stands=stands)
    d.part("panel", "QP1", main="30 A", bond="absent", stands=stands)
    d.run("G1.out", "QP1.feed", "s", size="10 AWG", length="20 ft", installation="house_cable")
    d.part("breaker", "QF1", rating="30 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", configuration="L5-30", area="outside")
    d.run("QF1.load", "XD1.feed", "d", size="10 AWG", length="20 ft")
    d.part("battery", "GB1", fault_current="3 kA", stands=stands)
    d.part("fuse", "F1", rating="40 A", type="class_t")
    d.seat("F1", "GB1", "post")
    d.part("charger", "TB1", current="20 A")
    d.part("breaker", "QF3", rating="15 A", interrupting="10 kA")
    d.seat("QF3", "QP1", "2")
    d.run("QF3.load", "TB1.ac_in", "c1", size="14 AWG", length="5 ft")
    d.run("F1.load", "TB1.dc", "c2", size="8 AWG", length="4 ft")
    d.part("plug", "XP1", configuration="L5-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="L5-30", **inlet)
    d.run("XP1.cord", "XI1.outside", "c", size="10 AWG", length="25 ft", installation="cord")
    _aboard(d, tie)
    return d


def _aboard(d: Draft, tie: bool) -> None:
    d.part(
        "breaker", "QF4", rating="30 A", interrupting="10 kA", ground_fault="rcd_30", poles="all"
    )
    d.run("XI1.inside", "QF4.line", "w1", size="10 AWG", length="4 ft")
    d.part("panel", "QP2", bond="absent")
    d.run("QF4.load", "QP2.feed", "w2", size="10 AWG", length="4 ft")
    d.part("breaker", "QF2", rating="15 A", interrupting="10 kA")
    d.seat("QF2", "QP2", "1")
    d.part("charger", "TB2", current="20 A")
    d.run("QF2.load", "TB2.ac_in", "w3", size="14 AWG", length="5 ft")
    d.part("battery", "GB2", fault_current="3 kA")
    d.part("fuse", "F2", rating="40 A", type="class_t")
    d.seat("F2", "GB2", "post")
    d.run("F2.load", "TB2.dc", "w4", size="8 AWG", length="4 ft")
    if tie:
        d.run("GB2.dc", "QP2.ground", "t", poles="->PE", size="8 AWG", length="2 ft")


def test_a_house_at_the_dock_is_no_boat() -> None:
    draft = dock_house()
    assert not found(draft, "dc-ac-tie-missing")
    assert not found(draft, "wire-not-for-boats")
    assert not found(draft, "inlet-leakage-missing")
    assert places(draft, "electrode-missing") == {("G1",)}
    assert not gaps(draft, "not-analysed")


def test_a_boat_at_a_house_stays_one() -> None:
    assert places(dock_house(tie=False), "dc-ac-tie-missing") == {("GB2",)}
    draft = dock_house()
    draft.rate_run("w1", stranding="solid")
    draft.rate("QF4", ground_fault="none")
    assert places(draft, "wire-not-for-boats") == {("w1",)}
    assert places(draft, "inlet-leakage-missing") == {("XI1",)}


def test_a_boat_told_in_the_design_of_a_house() -> None:
    """The limits of voltage drop afloat, a fortieth and all, hold of what is told to be aboard."""
    draft = dock_house(place="building", stands="boat")
    draft.part("lamp", "EL1", circuit="dc", power="120 W", critical="yes")
    draft.run("F2.load", "EL1.in", "l", size="14 AWG", length="25 ft")
    draft.rate_run("w1", stranding="solid")
    assert places(draft, "voltage-drop-high") == {("EL1", "l")}
    assert places(draft, "wire-not-for-boats") == {("w1",)}


def test_the_outlet_of_a_boat_on_a_house_needs_30_milliampere() -> None:
    """NFPA 70 555.35(A) (from memory): receptacles for shore power; 210.8 asks for class A at all
    others outside."""
    draft = dock_house()
    draft.rate("QF1", ground_fault="rcd_30", poles="all")
    assert not found(draft, "gfci-missing")
    draft.rate("QF1", ground_fault="rcd_100")
    assert places(draft, "gfci-missing") == {("XD1",)}
    draft.rate("QF1", ground_fault="rcd_30")
    draft.rate("XI1", stands="recreational")
    assert places(draft, "gfci-missing") == {("XD1",)}
