"""An outlet or load between hot and neutral that gets no neutral."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import camp, changeover, house, levels
from tests.findings.told import found, number

RULE = "neutral-missing"


def test_a_cut_neutral_is_one_danger_for_all_behind_it() -> None:
    draft = camp()
    draft.rate_run("W1", broken="N")
    hits = found(draft, RULE)
    assert [(hit.subjects, hit.level) for hit in hits] == [(("W1",), Level.DANGER)]
    assert number(hits[0], "parts concerned") == 2.0


def test_whole_neutrals_are_silent_switched_or_not() -> None:
    for draft in (camp(), house(), changeover("all"), changeover("lines")):
        assert found(draft, RULE) == []


def test_a_cable_without_one_is_the_same() -> None:
    draft = camp()
    draft.run_poles("W3", "L PE")
    assert levels(draft, RULE) == {("W3",): Level.DANGER}


def test_a_ground_wire_in_its_place_is_said() -> None:
    # NFPA 70 250.142(B)
    draft = camp()
    draft.run_poles("W2", "L PE>N")
    hits = found(draft, RULE)
    assert [hit.subjects for hit in hits] == [("W2",)]
    assert "serves as one" in hits[0].message


def test_hot_and_neutral_exchanged_are_another_finding() -> None:
    draft = camp()
    draft.run_poles("W3", "L>N N>L PE")
    assert found(draft, RULE) == []


def test_a_load_between_two_hots_needs_none() -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="split", breaker="30 A", outage="no")
    draft.part("load", "EA1", circuit="split", voltage="240 V", power="2 kW")
    draft.run("GS1.out", "EA1.in", "W1", poles="L1 L2 PE", size="10 AWG", length="20 ft")
    assert found(draft, RULE) == []
