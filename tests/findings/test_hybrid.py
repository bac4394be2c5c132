"""A cabin on a hybrid inverter: array, bank and set on one box; sound, and with one mistake."""

from __future__ import annotations

from linework.design import Draft
from linework.kinds import Answer
from tests.cases.judged import Judged
from tests.findings.banks import PLATE, THICK
from tests.findings.test_enumeration import assert_as_enumerated
from tests.findings.test_windings import told
from tests.findings.told import found, number

FUSE = {"type": "class_t", "interrupting": "20 kA"}


def cabin(series: str = "4", fuse: str = "125 A", **hybrid: Answer) -> Draft:
    """Four modules in a row, a bank of 24 V, a set on its input, a board with a load behind it."""
    d = Draft(place="field")
    d.part("solar_array", "GP1", **(PLATE | {"series": series, "strings": "1"}))
    d.part("isolator", "QB2", circuit="dc", rating="16 A", voltage="150 V", direct="yes")
    own: dict[str, Answer] = {
        "power": "2 kVA",
        "dc_voltage": "24 V",
        "neutral": "relay",
        "charge": "40 A",
        "current": "60 A",
        "pv_voltage": "145 V",
        "pv_current": "18 A",
    }
    d.part("hybrid_inverter", "TB1", **(own | hybrid))
    d.run("GP1.dc", "QB2.line", "W1", size="10 AWG", length="20 ft")
    d.run("QB2.load", "TB1.pv", "W2", size="10 AWG", length="3 ft")
    d.part("battery", "GB1", voltage="24 V", capacity="200 Ah", fault_current="4 kA")
    d.part("fuse", "F1", rating=fuse, **FUSE)
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="48 V")
    d.run("GB1.dc", "F1.line", "W3", length="0.5 ft", **THICK)
    d.run("F1.load", "QB1.line", "W4", length="1 ft", **THICK)
    d.run("QB1.load", "TB1.dc", "W5", length="3 ft", **THICK)
    d.part("generator", "G1", power="3 kVA", neutral="bonded", breaker="20 A")
    d.run("G1.out", "TB1.ac_in", "W6", size="12 AWG", length="20 ft")
    d.part("panel", "QP1", main="20 A", bond="absent")
    d.run("TB1.ac_out", "QP1.feed", "W7", size="12 AWG", length="4 ft")
    d.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="900 W")
    d.run("QF1.load", "EA1.in", "W8", size="14 AWG", length="20 ft")
    frame = {"size": "8 AWG", "installation": "jumper"}
    d.run("GP1.frame", "TB1.case", "W9", length="20 ft", **frame)
    return d


def test_a_cabin_on_a_hybrid_inverter_is_sound() -> None:
    assert told(cabin()) == set()


def test_the_sun_charges_whatever_the_relay_does() -> None:
    for state in ("G1=running", "G1=stopped"):
        report = Judged(cabin()).report(*state.split(), "TB1=on")
        assert any(s.name == "controller" and s.watts > 50.0 for s in report.sources), state


def test_too_many_modules_in_a_row_for_its_input() -> None:
    (finding,) = found(cabin("6"), "string-voltage-high")
    assert finding.subjects == ("GP1", "TB1")


def test_an_array_of_more_current_than_its_input_stands() -> None:
    (finding,) = found(cabin(pv_current="5 A"), "controller-overcurrent")
    assert number(finding, "stands at the most") == 5.0


def test_a_bank_of_another_voltage() -> None:
    assert ("voltage-wrong", ("TB1",)) in told(cabin(dc_voltage="48 V"))


def test_a_link_on_the_board_beside_that_of_the_set() -> None:
    draft = cabin()
    draft.rate("QP1", bond="fitted")
    assert "bond-doubled" in {rule for rule, _ in told(draft)}


def test_its_live_circuits_are_those_of_all_states() -> None:
    assert_as_enumerated(cabin().design)
