"""Two sources on one conductor."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import CORD, changeover, interlock, levels
from tests.findings.told import found, number

RULE = "sources-meet"


def backfed(locked: bool) -> Draft:
    """A board with a main breaker and one that an inlet's set feeds backwards."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="100 A", outage="no")
    draft.part("breaker", "QF1", rating="100 A", interrupting="22 kA")
    draft.run("GS1.out", "QF1.line", "W1", size="1 AWG", length="10 ft", terminals="75")
    draft.part("panel", "QP1", bond="absent", bus="100 A")
    draft.run("QF1.load", "QP1.feed", "W2", size="1 AWG", length="3 ft", terminals="75")
    draft.part("breaker", "QF2", rating="30 A", interrupting="22 kA")
    draft.seat("QF2", "QP1", "1")
    draft.part("generator", "G1", power="3 kVA", neutral="floating", breaker="30 A")
    draft.run("G1.out", "QF2.load", "W3", size="10 AWG", length="20 ft")
    if locked:
        interlock(draft, ("QF1", "breaker", "closed"), ("QF2", "breaker", "closed"))
    return draft


def test_a_breaker_fed_backwards_is_a_danger() -> None:
    assert levels(backfed(False), RULE) == {("G1", "GS1"): Level.DANGER}


def test_with_a_mechanical_interlock_it_is_silent() -> None:
    assert found(backfed(True), RULE) == []
    assert found(backfed(True), "supply-backfed") == []


def test_a_changeover_keeps_them_apart() -> None:
    for poles in ("all", "lines"):
        assert found(changeover(poles), RULE) == []


def test_a_wire_past_the_changeover_joins_them() -> None:
    draft = changeover()
    draft.cut("W2")
    draft.run("G1.out", "QP1.feed", "W2", size="10 AWG", length="20 ft")
    hits = found(draft, RULE)
    assert [hit.subjects for hit in hits] == [("G1", "GS1")]
    # at the worst angle, two sources of 120 V are 240 V apart
    assert number(hits[0], "voltage between them at the worst angle") == 240.0
    assert hits[0].states == ("G1=running QT1=supply",)


def test_a_common_neutral_alone_is_no_meeting() -> None:
    assert found(changeover("lines", neutral="floating"), RULE) == []


def test_a_bank_and_its_charger_are_meant_to_be_together() -> None:
    draft = Draft(place="field")
    draft.part("supply", "GS1", breaker="30 A", outage="no")
    draft.part("inverter_charger", "TB1", power="2 kVA", neutral="relay")
    draft.run("GS1.out", "TB1.ac_in", "W1", size="10 AWG", length="10 ft")
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("fuse", "F1", rating="225 A", type="class_t", interrupting="20 kA")
    draft.run("GB1.dc", "F1.line", "W2", size="4/0 AWG", length="0.5 ft")
    draft.run("F1.load", "TB1.dc", "W3", size="4/0 AWG", length="3 ft")
    assert found(draft, RULE) == []


def test_the_board_where_they_meet_is_named() -> None:
    draft = backfed(False)
    draft.part("panel", "QP2", bond="absent")
    draft.part("breaker", "QF3", rating="20 A", interrupting="22 kA")
    draft.seat("QF3", "QP1", "3")
    draft.run("QF3.load", "QP2.feed", size="12 AWG", length="20 ft")
    (hit, *_) = found(draft, RULE)
    assert "both reach QP1, and nothing there keeps them apart" in hit.message


def sets_in_parallel(second: str = "120 V", poles: str = "") -> Draft:
    """Two electronic sets on one board, said to run in parallel by their maker's kit."""
    d = Draft(place="field")
    d.part("panel", "QP1", circuit="split", bond="fitted")
    for n, volts in (("1", "120 V"), ("2", second)):
        d.part("generator", f"G{n}", circuit="split", power="4 kVA", voltage=volts, parallel="kit")
        crossed = poles if n == "2" else ""
        d.run(f"G{n}.out", "QP1.feed", f"W{n}", poles=crossed, length="10 ft", **CORD)
    return d


def test_sets_that_keep_in_step_may_meet() -> None:
    assert found(sets_in_parallel(), RULE) == []


def test_but_not_of_another_voltage_nor_leg_on_leg() -> None:
    assert found(sets_in_parallel("240 V"), RULE) != []
    assert found(sets_in_parallel(poles="L1>L2 L2>L1 N>N PE>PE"), RULE) != []
