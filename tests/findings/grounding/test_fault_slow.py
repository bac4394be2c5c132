"""A fault to metal that ends, but late."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import camp, levels
from tests.findings.grounding.test_fault_not_cleared import branch, reach
from tests.findings.told import found, number

RULE = "fault-slow"


@pytest.mark.parametrize(("share", "slow"), [(0.95, False), (1.05, True)])
def test_below_five_times_the_rating_it_is_a_warning(share: float, slow: bool) -> None:
    # boundary: practice in North America, five times the rating of a breaker without a curve
    found_at = levels(branch(share * reach(5 * 20.0)), RULE)
    assert (found_at.get(("EA1",)) is Level.WARNING) is slow


def test_a_breaker_whose_maker_promises_a_magnetic_trip_is_fast() -> None:
    draft = branch(1.05 * reach(100.0))
    draft.rate("QF1", magnetic="80 A")
    assert ("EA1",) not in levels(draft, RULE)


def test_the_practice_figure_is_told_for_the_breakers_that_it_speaks_of() -> None:
    draft = branch(1.05 * reach(100.0))
    hit = next(h for h in found(draft, RULE) if h.subjects == ("EA1",))
    assert number(hit, "practice figure for fast") == 300.0
    assert number(hit, "least fault current") == pytest.approx(100.0 / 1.05, rel=0.02)


def test_a_set_that_gives_up_is_a_note_on_the_set() -> None:
    # a self-excited set collapses within about 0.35 s
    hits = found(camp(), RULE)
    assert [(hit.subjects, hit.level) for hit in hits] == [(("G1",), Level.NOTE)]
    assert number(hits[0], "ends after") == pytest.approx(0.35)
    assert number(hits[0], "voltage on metal") < 50.0


def test_a_set_that_holds_its_current_lets_the_breaker_work() -> None:
    draft = camp(excitation="auxiliary", power="12 kVA", breaker="50 A")
    draft.rate_run("W1", size="6 AWG")
    assert not any("gives up" in hit.message for hit in found(draft, RULE))


def test_direct_current_is_not_this_rules_question() -> None:
    draft = Draft(place="vehicle", voltage="12 V")
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("fuse", "F1", rating="30 A", type="class_t")
    draft.part("lamp", "EL1", circuit="dc", voltage="12 V", power="24 W")
    draft.part("body", "XB1")
    draft.run("GB1.dc", "F1.line", "W1", size="10 AWG", length="0.5 ft")
    draft.run("F1.load", "EL1.in", "W2", size="10 AWG", length="200 ft")
    draft.run("GB1.dc", "XB1.tie", "W3", poles="->body", size="4 AWG", length="1 ft")
    assert found(draft, RULE) == []
