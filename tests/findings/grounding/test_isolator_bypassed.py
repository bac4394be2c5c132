"""A galvanic isolator past which the grounds meet, or too small for its cord."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.cases.test_case_073 import drawn
from tests.findings.told import cured, found, number

RULE = "isolator-bypassed"


def test_in_the_ground_wire_alone_it_is_silent() -> None:
    assert found(drawn("boat"), RULE) == []


def test_both_ground_wires_on_one_stud() -> None:
    (finding,) = found(drawn("shore"), RULE)
    assert (finding.level, finding.subjects) == (Level.WARNING, ("RB1",))
    assert cured(drawn("shore"), finding).silent


def test_a_cable_whose_ground_wire_passes_it_by() -> None:
    draft: Draft = drawn("boat")
    draft.run("XI1.inside", "QP1.ground", "x", poles="PE>PE", size="10 AWG", length="6 ft")
    (finding,) = found(draft, RULE)
    assert finding.subjects == ("RB1", "x")


def test_what_the_water_joins_does_not_count() -> None:
    draft = drawn("boat")
    draft.part("electrode", "XE2", resistance="5 ohm")
    draft.run("XI1.inside", "XE2.ground", "v", poles="PE>PE", size="8 AWG", length="6 ft")
    assert found(draft, RULE) == []


def test_smaller_than_the_device_ahead() -> None:
    draft = drawn("boat")
    draft.rate("RB1", rating="16 A")
    (finding,) = found(draft, RULE)
    assert number(finding, "device") == 30.0


def test_a_fault_behind_it_still_clears() -> None:
    assert found(drawn("boat"), "fault-not-cleared") == []
