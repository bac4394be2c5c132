"""inverter-input-small: the cable and the fuse of an inverter by its rating, whatever is drawn."""

from __future__ import annotations

import re

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.told import cured, found, number

RULE = "inverter-input-small"


def inverter(
    fuse: str = "300 A",
    size: str = "350 kcmil",
    place: str = "building",
    power: str = "2000 VA",
    **more: str,
) -> Draft:
    """A 12 V battery, its fuse and switch, an inverter that feeds a lamp of 60 W."""
    wire = {"size": size, "length": "2 ft", "terminals": "75", "insulation": "90"}
    d = Draft(place=place)
    d.part("battery", "GB1", fault_current="5 kA")
    d.part("fuse", "F1", rating=fuse, type="class_t", interrupting="20 kA")
    d.part("battery_disconnect", "QB1", rating="300 A", voltage="48 V")
    d.part("inverter", "TB1", power=power, efficiency="90 %", neutral="bonded", **more)
    d.run("GB1.dc", "F1.line", "W1", poles="+", **(wire | {"length": "0.5 ft"}))
    d.run("F1.load", "QB1.line", "W2", poles="+", **wire)
    d.run("QB1.load", "TB1.dc", "W3", poles="+", **wire)
    d.run("GB1.dc", "TB1.dc", "W4", poles="-", **wire)
    d.part("lamp", "EL1", power="60 W")
    d.run("TB1.ac_out", "EL1.in", "W5", size="12 AWG", length="5 ft")
    return d


def levels(draft: Draft) -> dict[tuple[str, ...], Level]:
    return {f.subjects: f.level for f in found(draft, RULE)}


def test_a_fuse_below_the_rating_is_told_though_the_lamp_needs_little() -> None:
    # 2000 VA / 0.9 / 10.5 V = 212 A
    (finding,) = found(inverter("200 A"), RULE)
    assert finding.subjects == ("TB1", "F1")
    assert finding.level is Level.WARNING
    assert number(finding, "taken at its rating") == pytest.approx(211.6, abs=0.1)
    assert number(finding, "needed at its rating") == pytest.approx(264.6, abs=0.1)


def test_between_the_rating_and_the_factor_of_the_code_it_is_a_note() -> None:
    assert levels(inverter("225 A")) == {("TB1", "F1"): Level.NOTE}
    assert levels(inverter("250 A")) == {("TB1", "F1"): Level.NOTE}
    assert levels(inverter("300 A")) == {}


def test_all_that_is_too_small_is_one_finding_and_one_mend() -> None:
    d = inverter("200 A", "1/0 AWG")  # 150 A at 75 C, table 310.16
    (finding,) = found(d, RULE)
    assert finding.subjects == ("TB1", "F1", "W1", "W2", "W3", "W4")
    after = cured(d, finding)
    assert not [f for f in after.findings if f.rule == RULE]
    assert d.design.part("F1").ratings["rating"] == "300 A"


def test_the_minus_counts_like_the_plus() -> None:
    d = inverter("300 A")
    d.rate_run("W4", size="1/0 AWG")
    assert levels(d) == {("TB1", "W4"): Level.WARNING}


def test_a_switch_below_the_rating() -> None:
    d = inverter("300 A")
    d.rate("QB1", rating="200 A")
    assert levels(d) == {("TB1", "QB1"): Level.WARNING}
    d.rate("QB1", rating="215 A")
    assert levels(d) == {}


def test_a_smaller_inverter_on_the_same_cable_is_silent() -> None:
    assert levels(inverter("200 A", "3/0 AWG", power="1500 VA")) == {}
    assert levels(inverter("200 A", "3/0 AWG", power="1520 VA")) != {}


def test_a_higher_battery_voltage_asks_for_less() -> None:
    d = inverter("100 A", "1 AWG", dc_voltage="24 V", power="1500 VA")
    d.rate("GB1", voltage="24 V")
    # 1500 VA / 0.9 / 21 V x 1.25 = 99.2 A
    assert levels(d) == {}
    d.rate("F1", rating="90 A")
    assert levels(d) == {("TB1", "F1"): Level.NOTE}


def test_what_else_hangs_on_the_fuse_counts_besides() -> None:
    d = inverter("300 A")
    d.part("load", "EA1", circuit="dc", voltage="12 V", power="600 W")
    d.run("QB1.load", "EA1.in", "W6", poles="+", size="6 AWG", length="3 ft")
    d.run("GB1.dc", "EA1.in", "W7", poles="-", size="6 AWG", length="3 ft")
    assert levels(d) == {("TB1", "F1", "W1", "W2"): Level.NOTE}


def test_two_batteries_with_a_fuse_each_count_together() -> None:
    d = inverter("150 A", "350 kcmil")
    wire = {"size": "350 kcmil", "length": "0.5 ft", "terminals": "75", "insulation": "90"}
    d.part("battery", "GB2", fault_current="5 kA")
    d.part("fuse", "F2", rating="150 A", type="class_t", interrupting="20 kA")
    d.run("GB2.dc", "F2.line", "W11", poles="+", **wire)
    d.run("F2.load", "QB1.line", "W12", poles="+", **wire)
    d.run("GB2.dc", "GB1.dc", "W14", poles="->-", **wire)
    assert levels(d) == {}
    d.rate("F2", rating="110 A")
    assert levels(d) == {("TB1", "F1", "F2"): Level.NOTE}
    d.rate("F2", rating="60 A")
    assert levels(d) == {("TB1", "F1", "F2"): Level.WARNING}


def test_no_battery_is_no_question() -> None:
    d = inverter("200 A")
    d.cut("W1")
    assert levels(d) == {}


def two(fuse: str, size: str = "350 kcmil", neutral: bool = False, **first: str) -> Draft:
    """Two inverters of 1 kVA behind one fuse and one switch: each takes 105.8 A, both need 264.6 A.
    ``neutral``: they feed one board, each a leg."""
    d = inverter(fuse, size, power="1000 VA", **first)
    d.part("inverter", "TB2", power="1000 VA", efficiency="90 %", neutral="floating")
    wire = {"size": "4/0 AWG", "length": "2 ft", "terminals": "75", "insulation": "90"}
    d.run("QB1.load", "TB2.dc", "W23", poles="+", **wire)
    d.run("GB1.dc", "TB2.dc", "W24", poles="-", **wire)
    if neutral:
        d.rate("TB1", neutral="floating")
        d.cut("W5")
        d.part("panel", "QP1", circuit="split", bond="fitted")
        for n in (1, 2):
            poles = f"L>L{n} N PE"
            d.run(f"TB{n}.ac_out", "QP1.feed", f"W3{n}", poles=poles, size="12 AWG", length="5 ft")
    else:
        d.part("lamp", "EL2", power="60 W")
        d.run("TB2.ac_out", "EL2.in", "W25", size="12 AWG", length="5 ft")
    return d


@pytest.mark.parametrize(
    ("fuse", "neutral", "level"),
    [
        ("150 A", True, Level.WARNING),
        ("250 A", True, Level.NOTE),
        ("300 A", True, None),
        ("150 A", False, Level.NOTE),
    ],
)
def test_two_inverters_behind_one_fuse_ask_together(
    fuse: str, neutral: bool, level: Level | None
) -> None:
    d = two(fuse, neutral=neutral)
    hits = found(d, RULE)
    assert levels(d) == ({("TB1", "TB2", "F1"): level} if level else {})
    for hit in hits:
        assert number(hit, "taken at their rating") == pytest.approx(211.6, abs=0.1)
        assert number(hit, "needed at their rating") == pytest.approx(264.6, abs=0.1)


def test_the_wire_and_the_switch_that_both_share() -> None:
    d = two("300 A", "3/0 AWG", neutral=True)  # 200 A at 75 C, table 310.16
    assert levels(d) == {("TB1", "TB2", "W1", "W2"): Level.WARNING}
    d = two("300 A", neutral=True)
    d.rate("QB1", rating="200 A")
    assert levels(d) == {("TB1", "TB2", "QB1"): Level.WARNING}


def test_two_inverters_with_a_fuse_each_share_nothing() -> None:
    d = two("150 A")
    d.cut("W23")
    d.part("fuse", "F2", rating="150 A", type="class_t", interrupting="20 kA")
    wire = {"size": "4/0 AWG", "terminals": "75", "insulation": "90"}
    d.run("GB1.dc", "F2.line", "W26", poles="+", length="0.5 ft", **wire)
    d.run("F2.load", "TB2.dc", "W27", poles="+", length="2 ft", **wire)
    assert levels(d) == {}


def test_what_charges_the_battery_through_the_switch_is_no_load_beside() -> None:
    """An alternator of 120 A on the far side of the switch: that flows the other way."""
    d = inverter("300 A")
    d.rate("QB1", rating="225 A")
    assert levels(d) == {}
    wire = {"size": "2/0 AWG", "length": "3 ft", "terminals": "75", "insulation": "90"}
    d.part("alternator", "G2", current="120 A")
    d.part("fuse", "F8", rating="150 A", type="class_t", interrupting="20 kA")
    d.run("QB1.load", "F8.line", "W41", poles="+", **wire)
    d.run("F8.load", "G2.dc", "W42", poles="+", **wire)
    d.run("GB1.dc", "G2.dc", "W43", poles="-", **wire)
    assert levels(d) == {}


def test_what_other_loads_take_is_said() -> None:
    d = inverter("300 A")
    d.part("load", "EA1", circuit="dc", voltage="12 V", power="600 W")
    d.run("QB1.load", "EA1.in", "W6", poles="+", size="6 AWG", length="3 ft")
    d.run("GB1.dc", "EA1.in", "W7", poles="-", size="6 AWG", length="3 ft")
    (finding,) = found(d, RULE)
    told = re.search(r"F1 is rated 300 A, and other loads take ([0-9.]+) A of it", finding.message)
    assert told is not None
    assert float(told[1]) == pytest.approx(600 / 12, rel=0.04)  # its voltage sags a little
