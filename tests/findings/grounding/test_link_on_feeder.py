"""A feeder without a ground wire to a board that joins neutral and ground itself."""

from __future__ import annotations

from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from tests.findings.camps import levels
from tests.findings.told import found

RULE = "link-on-feeder"


def farm(poles: str = "L1 L2 N", bond: str = "fitted", *, rod: bool = True) -> Draft:
    """A house, a feeder of these conductors to a barn, rods at both."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", breaker="100 A", prospective="4 kA", outage="no")
    d.part("panel", "QP1", circuit="split", bond="fitted")
    d.run("GS1.out", "QP1.feed", "u", poles="L1 L2 N", size="1/0 AWG", length="40 ft")
    d.part("electrode", "XE1")
    d.run("QP1.ground", "XE1.ground", size="6 AWG", length="10 ft", installation="jumper")
    d.part("breaker", "QF1", circuit="split", rating="60 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("panel", "QP2", circuit="split", bond=bond)
    d.run("QF1.load", "QP2.feed", "f", poles=poles, size="4 AWG", length="90 ft")
    if rod:
        d.part("electrode", "XE2")
        d.run("QP2.ground", "XE2.ground", "g", size="6 AWG", length="8 ft", installation="jumper")
    d.part("breaker", "QF2", rating="15 A", interrupting="10 kA")
    d.seat("QF2", "QP2", "1")
    d.part("lamp", "EL1", power="100 W")
    d.run("QF2.load", "EL1.in", size="14 AWG", length="20 ft")
    return d


def test_it_may_stay_as_existing_work_which_is_a_note() -> None:
    """NFPA 70 250.32(B)(1), exception."""
    (hit,) = found(farm(), RULE)
    assert (hit.subjects, hit.level, hit.clause) == (("f",), Level.NOTE, "250.32(B)(1)")
    assert "New work takes a ground wire in f" in hit.message


def test_with_a_ground_wire_and_no_link_nothing_is_said() -> None:
    assert found(farm("L1 L2 N PE", "absent"), RULE) == []


def test_the_board_of_the_service_is_no_such_board() -> None:
    draft = farm(bond="absent")
    draft.cut("f")
    assert found(draft, RULE) == []


def test_that_building_needs_a_rod_of_its_own() -> None:
    """NFPA 70 250.32(A): the neutral of the feeder leads to the rods of the house, not to its."""
    assert levels(farm(rod=False), RULE) == {("f",): Level.NOTE, ("QP2",): Level.WARNING}


def test_abroad_a_combined_conductor_is_no_exception() -> None:
    draft = farm()
    draft.design.apply(change_settings(draft.design, family="INT"))
    assert found(draft, RULE) == []
