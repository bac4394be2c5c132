"""Raceways and what they hold."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from linework.study.wires.ratings import run_ampacity
from tests.findings.camps import house, levels
from tests.findings.told import cured, found, gaps, number

RULE = "conduit-overfilled"


def conduit(size: str, **run: str | None) -> Draft:
    """Three 8 AWG and a 10 AWG ground wire of one circuit, one 12 AWG of a bond, in one pipe."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="split", breaker="40 A", prospective="3 kA", outage="no")
    draft.part("panel", "QP1", circuit="split", bond="absent", bus="60 A")
    laid = {
        "length": "20 ft",
        "installation": "conduit_steel",
        "raceway": "C1",
        "raceway_type": "RMC",
        "trade_size": size,
        "wire_type": "THHN",
    }
    draft.run("GS1.out", "QP1.feed", "W1", size="8 AWG", ground_size="10 AWG", **(laid | run))
    draft.part("junction_box", "XJ1", metal="metal")
    draft.run("QP1.ground", "XJ1.a", "W2", poles="PE", size="12 AWG", **laid)
    return draft


@pytest.mark.parametrize(("size", "told"), [("1/2", True), ("3/4", False)])
def test_one_12_one_10_three_8_awg_thhn_need_3_4_rigid_conduit(size: str, told: bool) -> None:
    # 0.1442 in2 (Modern Commercial Wiring, 2018, sample problem 6-8, g-wonlinetextbooks.com/
    # modern-commercial-wiring-2018/114)
    draft = conduit(size)
    assert (levels(draft, RULE) == {("W1", "W2"): Level.WARNING}) is told
    if told:
        hit = found(draft, RULE)[0]
        assert number(hit, "area of the wires") == pytest.approx(0.1442 * 645.16, abs=0.07)
        assert "3/4" in str(hit.mend and hit.mend.title)
        assert cured(draft, hit).silent


def test_a_raceway_of_its_own_needs_no_name() -> None:
    draft = conduit("1/2", raceway=None)
    draft.rate_run("W2", raceway=None, trade_size=None)
    assert levels(draft, RULE) == {("W1",): Level.WARNING}  # 0.1309 in2 without the 12 AWG
    draft.rate_run("W1", size="10 AWG")
    assert found(draft, RULE) == []


def test_without_a_trade_size_nothing_is_told() -> None:
    draft = conduit("1/2")
    draft.rate_run("W1", trade_size=None)
    draft.rate_run("W2", trade_size=None)
    assert found(draft, RULE) == []
    assert gaps(draft, RULE) == []


@pytest.mark.parametrize(
    ("answer", "reason"),
    [
        ({"trade_size": "3/4"}, "different things"),
        ({"raceway_type": "EMT"}, "different things"),
        ({"wire_type": None}, "type of its wires"),
        ({"installation": "cable"}, "not single wires"),
        ({"size": "2.5 mm2"}, "chapter 9 table 5"),
    ],
)
def test_what_is_not_known_is_not_checked(answer: dict[str, str | None], reason: str) -> None:
    draft = conduit("1/2")
    draft.rate_run("W1", **answer)
    assert [reason in gap.reason for gap in gaps(draft, RULE)] == [True]
    assert found(draft, RULE) == []


def test_no_type_of_raceway_is_not_checked() -> None:
    draft = conduit("1/2")
    for run in ("W1", "W2"):
        draft.rate_run(run, raceway_type=None)
    assert [gap.where for gap in gaps(draft, RULE)] == [("W1", "W2")]


def test_wires_of_other_runs_in_the_raceway_count_for_ampacity() -> None:
    # table 310.15(C)(1): four to six current-carrying conductors 80 %
    draft = house()
    laid = {"installation": "conduit_pvc", "raceway": "C1", "size": "12 AWG", "terminals": "75"}
    draft.rate_run("W2", **laid)
    run = next(r for r in draft.design.runs if r.id == "W2")
    alone = run_ampacity(draft.design, run).value
    draft.part("breaker", "QF2", rating="20 A", interrupting="10 kA")
    draft.seat("QF2", "QP1", "2")
    draft.part("load", "EA2", power="600 W")
    draft.run("QF2.load", "EA2.in", "W3", length="40 ft", **laid)
    assert run_ampacity(draft.design, run).value < alone
    draft.rate_run("W3", raceway="C2")
    assert run_ampacity(draft.design, run).value == alone


@pytest.mark.parametrize(("wires", "told"), [(22, False), (24, True)])
def test_eight_tenths_of_a_wire_are_one(wires: int, told: bool) -> None:
    """NFPA 70 annex C table C.1: 22 wires of 14 AWG THHN in a 3/4 EMT, whose 40 % are 0.213 in2,
    room for 21.96 of 0.0097 in2 (chapter 9 note 7)."""
    draft = house()
    draft.cut("W2")
    laid = {
        "size": "14 AWG",
        "length": "10 ft",
        "installation": "conduit_steel",
        "raceway": "C1",
        "raceway_type": "EMT",
        "trade_size": "3/4",
        "wire_type": "THHN",
    }
    for n in range(wires // 2):
        draft.part("load", f"EA{n + 10}", power="10 W")
        draft.run("QF1.load", f"EA{n + 10}.in", f"M{n}", poles="L N", **laid)
    assert bool(found(draft, RULE)) is told
