"""An outlet whose place asks for ground-fault protection and that has none."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from linework.kinds import OneOf
from tests.findings.camps import camp, caravan, levels
from tests.findings.told import cured, found, gaps

RULE = "gfci-missing"
WARNED = {("XD1",): Level.WARNING}


def outlet(place: str, area: str | None, configuration: str = "5-20", **outlet: str) -> Draft:
    """The outlet of a camp, somewhere."""
    d = camp(place)
    d.rate("XD1", configuration=configuration, area=area, **outlet)
    return d


@pytest.mark.parametrize(
    ("place", "area", "told"),
    [
        # NFPA 70 (2023) 210.8 and 551.41(C), ABYC E-11; from memory
        ("building", "dry", False),
        ("building", None, False),
        ("building", "outside", True),
        ("building", "bath", True),
        ("building", "sink", True),
        ("building", "kitchen", True),
        ("building", "wet", True),
        ("building", "garage", True),
        ("field", "outside", True),
        ("recreational", "sink", True),
        ("recreational", "bath", True),
        ("recreational", "outside", True),
        ("recreational", "garage", False),
        ("vehicle", "outside", True),
        ("vehicle", "dry", False),
        ("boat", "engine", True),
        ("boat", "wet", False),
    ],
)
def test_where_it_is_asked_for(place: str, area: str | None, told: bool) -> None:
    assert levels(outlet(place, area), RULE) == (WARNED if told else {})


@pytest.mark.parametrize(
    ("place", "edition", "configuration", "told"),
    [
        ("building", "2017", "5-20", True),
        ("building", "2017", "5-30", False),  # 125 V, 15 and 20 A until 2017
        ("building", "2020", "5-30", True),
        ("building", "2023", "5-50", True),
        ("recreational", "2023", "TT-30", False),
    ],
)
def test_up_to_which_rating(place: str, edition: str, configuration: str, told: bool) -> None:
    d = outlet(place, "outside", configuration)
    d.design.apply(change_settings(d.design, edition=edition))
    assert levels(d, RULE) == (WARNED if told else {})


def test_a_device_in_the_outlet_mends_it() -> None:
    d = outlet("building", "outside")
    (hit,) = found(d, RULE)
    assert hit.clause == "210.8"
    cured(d, hit)
    assert levels(d, RULE) == {}


def test_an_outlet_with_line_and_neutral_exchanged_asks_for_it_too() -> None:
    d = outlet("building", "sink")
    (run,) = [r for r in d.design.runs if r.b.part == "XD1"]
    d.run_poles(run.designation, "L>N N>L PE")
    assert levels(d, RULE) == WARNED


def test_a_breaker_or_an_outlet_before_it_is_enough() -> None:
    d = outlet("building", "outside")
    d.rate("QF2", ground_fault="class_a")
    assert levels(d, RULE) == {}
    d = outlet("building", "outside")
    d.cut("W3")
    d.part("outlet", "XD2", configuration="5-20", ground_fault="class_a")
    d.run("QF2.load", "XD2.feed", "W3", size="12 AWG", length="20 ft")
    d.run("XD2.onward", "XD1.feed", "W8", size="12 AWG", length="20 ft")
    assert levels(d, RULE) == {}


def test_a_device_that_trips_at_30_ma_protects_no_person_here() -> None:
    d = outlet("building", "outside")
    d.rate("QF2", ground_fault="rcd_30")
    assert levels(d, RULE) == WARNED


def test_it_must_stand_before_every_source() -> None:
    """A device behind the shore inlet does nothing for the outlet while the inverter feeds it."""
    d = Draft(place="recreational")
    d.part("supply", "GS1", breaker="30 A", prospective="4 kA", outage="yes")
    d.part("breaker", "QF1", rating="30 A", ground_fault="class_a")
    d.part("battery", "GB1", voltage="12 V", capacity="200 Ah")
    d.part("inverter_charger", "TB1", power="2 kVA", neutral="relay")
    d.part("outlet", "XD1", configuration="5-20", area="outside")
    run = {"size": "10 AWG", "length": "5 ft"}
    d.run("GS1.out", "QF1.line", "W1", **run)
    d.run("QF1.load", "TB1.ac_in", "W2", **run)
    d.run("GB1.dc", "TB1.dc", "W3", size="4/0 AWG", length="2 ft")
    d.run("TB1.ac_out", "XD1.feed", "W4", **run)
    (hit,) = found(d, RULE)
    assert "TB1" in hit.message
    assert hit.states
    assert all("GS1=dead" in state for state in hit.states)
    d.rate("QF1", ground_fault="none")
    assert "TB1" in found(d, RULE)[0].message
    assert found(d, RULE)[0].states == ("TB1=on",), "whether the supply is live or not"


def test_the_outlets_of_a_supply_are_its_owners() -> None:
    d = Draft(place="recreational")
    d.part("supply", "GS1", breaker="20 A")
    d.part("outlet", "XD1", configuration="5-20", area="outside")
    d.seat("XD1", "GS1", "1")
    assert levels(d, RULE) == {}


def test_where_it_is_stands_among_what_was_assumed() -> None:
    assert any("XD1" in f.where for f in found(caravan(), "value-assumed"))


def test_an_unknown_configuration_is_not_checked() -> None:
    d = outlet("building", "outside", "X-99")
    assert levels(d, RULE) == {}
    assert [gap.where for gap in gaps(d, RULE)] == [("XD1",)]


@pytest.mark.parametrize(("style", "told"), [("none", True), ("rcd_30", False), ("rcd_100", True)])
def test_elsewhere_every_outlet_asks_for_30_ma(style: str, told: bool) -> None:
    """IEC 60364-4-41 411.3.3."""
    d = camp("recreational")
    elsewhere = {"family": "INT", "voltage": "230 V", "frequency": "50 Hz"}
    d.design.apply(change_settings(d.design, **elsewhere))
    d.rate("XD1", configuration="CEE7-3", ground_fault=style)
    assert levels(d, RULE) == (WARNED if told else {})


@pytest.mark.parametrize(
    ("neutral", "power", "configuration", "told"),
    [
        # NFPA 70 445.20(B): bonded, up to 15 kW, outlets of 125 V, 15 and 20 A
        ("bonded", "3 kVA", "5-20", True),
        ("bonded", "15 kVA", "5-20", True),
        ("bonded", "16 kVA", "5-20", False),
        ("bonded", "3 kVA", "L5-30", False),
        ("floating", "3 kVA", "5-20", False),
    ],
)
def test_the_outlets_of_a_portable_set(
    neutral: str, power: str, configuration: str, told: bool
) -> None:
    d = caravan(neutral=neutral, power=power)
    d.rate("XD2", configuration=configuration)
    hits = found(d, RULE)
    expected = [(("XD2",), Level.NOTE, "445.20(B)")] if told else []
    assert [(h.subjects, h.level, h.clause) for h in hits] == expected
    d.rate("XD2", ground_fault="class_a")
    assert found(d, RULE) == []


def test_a_set_whose_neutral_is_not_known_hangs_on_that() -> None:
    d = caravan(neutral=OneOf(("bonded", "floating")))
    (hit,) = found(d, RULE)
    assert hit.cases == ("G1 neutral: joined to the frame",)


@pytest.mark.parametrize(("style", "told"), [("none", WARNED), ("class_a", {}), ("rcd_30", WARNED)])
def test_the_main_of_the_board_protects_all_behind_it(style: str, told: dict) -> None:
    """A main of 30 mA protects wires and metal of a boat, not people (ABYC E-11, from memory)."""
    d = outlet("field", "outside")
    d.rate("QP1", main="30 A", ground_fault=style, main_poles="all")
    assert levels(d, RULE) == told


def test_an_arc_fault_breaker_is_no_ground_fault_device() -> None:
    d = outlet("building", "bath")
    d.rate("QF2", arc_fault="combination")
    (hit,) = found(d, RULE)
    assert "QF2 guards against arcs only" in hit.message
    d.rate("QF2", arc_fault=None)
    d.rate("QF1", arc_fault="combination")  # on another circuit
    assert "arcs" not in found(d, RULE)[0].message
    d.rate("QF2", arc_fault="combination")
    d.rate("QF2", ground_fault="class_a")  # dual function
    assert found(d, RULE) == []


def test_on_a_set_that_floats_no_device_could_act_and_none_is_asked_for() -> None:
    """The outlets in its panel, and those of a cord; wired on to a wall it is asked for."""
    d = Draft(place="field", family="INT", voltage="230 V", frequency="50 Hz")
    d.part("generator", "G1", power="2.2 kVA", neutral="floating")
    d.part("breaker", "QF1", rating="10 A")
    d.part("outlet", "XD1", configuration="BS1363")
    d.seat("QF1", "G1", "1")
    d.seat("XD1", "QF1", "load")
    assert found(d, RULE) == []
    d.rate("G1", neutral="bonded")
    assert levels(d, RULE) == WARNED
    d.rate("G1", neutral="floating")
    d.part("outlet", "XD2", configuration="BS1363")
    d.run("XD1.onward", "XD2.feed", "W1", size="2.5 mm2", length="10 m")
    assert ("XD2",) in levels(d, RULE)
