"""Load current on a ground wire."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.told import found, number, places

RULE = "ground-carries-load"


def shed(poles: str = "") -> Draft:
    """A supply, a feeder, a panel, a load of 1200 W."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="20 A", prospective="5 kA")
    draft.part("panel", "QP1", bond="absent")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("load", "EA1", power="1200 W")
    draft.seat("QF1", "QP1", "1")
    draft.run("GS1.out", "QP1.feed", "W1", poles=poles, size="12 AWG", length="50 ft")
    draft.run("QF1.load", "EA1.in", "W2", size="12 AWG", length="10 ft")
    return draft


def test_an_ordinary_circuit_carries_nothing_on_its_ground_wire() -> None:
    assert found(shed(), RULE) == []


def test_neutral_and_ground_exchanged_make_the_ground_wire_the_way_back() -> None:
    hits = found(shed("L>L N>PE PE>N"), RULE)
    assert [hit.level for hit in hits] == [Level.DANGER]
    assert hits[0].subjects == ("W1",)


def test_a_second_link_shares_the_current_and_explains_it() -> None:
    draft = shed()
    draft.rate("QP1", bond="fitted")
    hits = found(draft, RULE)
    assert [hit.level for hit in hits] == [Level.WARNING]
    assert places(draft, "bond-doubled") == {("QP1",)}
    # equal neutral and ground wires share the current half and half, but for the link's resistance
    assert number(hits[0], "current on the {ground_wire}") == pytest.approx(5.0, abs=0.25)


def van(case: str = "8 AWG", *, at_case: bool = True) -> Draft:
    """50 A that come back through the chassis; the minus meets it at the inverter's case only, or
    by a jumper of its own."""
    d = Draft(place="vehicle")
    d.part("battery", "GB1", voltage="12 V", capacity="200 Ah", fault_current="3 kA")
    d.part("fuse", "F1", rating="60 A", type="class_t", interrupting="20 kA")
    lead = {"size": "6 AWG", "insulation": "105", "terminals": "75"}
    d.run("GB1.dc", "F1.line", poles="+", length="0.5 ft", **lead)
    d.part("load", "EA1", circuit="dc", voltage="12 V", power="600 W")
    d.run("F1.load", "EA1.in", poles="+", length="5 ft", **lead)
    d.part("inverter", "TB1", power="300 VA", neutral="bonded", outlets="1")
    d.run("F1.load", "TB1.dc", poles="+", length="3 ft", **lead)
    d.run("GB1.dc", "TB1.dc", poles="-", length="4 ft", **lead)
    d.part("body", "XB1", name="chassis")
    d.run("EA1.in", "XB1.tie", poles="->body", length="2 ft", **lead)
    d.run("TB1.case", "XB1.tie", "green", size=case, length="3 ft", installation="jumper")
    ends = ("TB1.case", "->PE") if at_case else ("XB1.tie", "->body")
    d.run("GB1.dc", ends[0], poles=ends[1], size="4 AWG", length="3 ft", installation="jumper")
    return d


@pytest.mark.parametrize(("case", "level"), [("4 AWG", Level.WARNING), ("14 AWG", Level.DANGER)])
def test_direct_current_that_comes_back_by_a_green_wire(case: str, level: Level) -> None:
    (hit,) = found(van(case), RULE)
    assert (hit.subjects, hit.level) == (("green",), level)
    # by hand: 600 W at 12 V
    assert number(hit, "current on the {ground_wire}") == pytest.approx(50.0, rel=0.1)


def test_a_chassis_that_is_the_way_back_with_a_jumper_of_its_own_is_no_green_wire() -> None:
    assert found(van(at_case=False), RULE) == []
