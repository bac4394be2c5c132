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
    draft = drawn("shore")
    draft.rate("RB1", failure="closed")  # else the mend would only leave another question open
    (finding,) = found(draft, RULE)
    assert (finding.level, finding.subjects) == (Level.WARNING, ("RB1",))
    assert cured(draft, finding).silent


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


def two_cords() -> Draft:
    """Two cords from one pedestal, an isolator behind each inlet, the boards on one hull."""
    d = Draft(place="boat")
    d.part("supply", "GS1", breaker="60 A", prospective="2 kA", outlets="2")
    d.part("body", "XB1", name="hull")
    wire = {"size": "10 AWG", "length": "4 ft"}
    for n in (1, 2):
        d.part("breaker", f"QF{n}", rating="30 A")
        d.seat(f"QF{n}", "GS1", str(n))
        d.part("outlet", f"XD{n}", configuration="L5-30")
        d.seat(f"XD{n}", f"QF{n}", "load")
        d.part("plug", f"XP{n}", configuration="L5-30")
        d.seat(f"XP{n}", f"XD{n}", "face")
        d.part("inlet", f"XI{n}", configuration="L5-30")
        d.run(f"XP{n}.cord", f"XI{n}.outside", f"c{n}", installation="cord", **wire)
        d.part("galvanic_isolator", f"RB{n}", rating="50 A")
        d.part("panel", f"QP{n}", main="30 A", bond="absent")
        d.run(f"XI{n}.inside", f"QP{n}.feed", f"w{n}", poles="L N", **wire)
        d.run(f"XI{n}.inside", f"RB{n}.shore", f"s{n}", poles="PE", **wire)
        d.run(f"RB{n}.boat", f"QP{n}.ground", f"b{n}", poles="PE", **wire)
        d.run(f"QP{n}.ground", "XB1.tie", f"h{n}", installation="jumper", **wire)
    return d


def test_a_way_through_the_isolator_of_a_second_cord_passes_none() -> None:
    assert found(two_cords(), RULE) == []


def test_past_one_of_two_isolators_both_are_passed() -> None:
    draft = two_cords()
    draft.run("XI2.inside", "QP2.ground", "x", poles="PE", size="10 AWG", length="6 ft")
    assert {hit.subjects[0] for hit in found(draft, RULE)} == {"RB1", "RB2"}
