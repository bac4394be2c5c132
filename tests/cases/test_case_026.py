# small cabin inverter/backup generator grounding,
# https://forum.solar-electric.com/discussion/5601/
"""A cabin that relies on the link inside the inverter, then switches over to a floating set."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import inverter
from tests.cases.judged import Judged
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="building")
    inverter(d, "700 VA", "bonded")
    d.part("generator", "G1", power="2 kVA", neutral="floating", breaker="20 A")
    d.part(
        "transfer_automatic", "QT1", poles="all", first="inverter", second="generator", prefers="2"
    )
    d.run("TB1.ac_out", "QT1.in1", "w1", size="12 AWG", length="6 ft")
    d.run("G1.out", "QT1.in2", "w2", size="12 AWG", length="40 ft")
    d.part("panel", "QP1", bond="absent", main="20 A")
    d.run("QT1.load", "QP1.feed", "w3", size="12 AWG", length="6 ft")
    d.part("breaker", "QF1", rating="15 A")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="100 W")
    d.run("QF1.load", "EA1.in", "w4", size="14 AWG", length="20 ft")
    return d


CASE = Case(
    "bonding",
    "mixed",
    drawn,
    expected=(
        Expected(
            "NG_BOND_MISSING",
            "danger warning",
            at="G1 QP1",
            state="G1=running",
            number=Number(0.0, 0.0, evidence("{neutral_ground_link}s in circuit")),
        ),
    ),
    never=(
        Never("NG_BOND_MISSING", state="G1=stopped TB1=on"),
        Never("NG_BOND_MULTIPLE"),
        Never("SOURCES_PARALLEL"),
    ),
)


def test_the_link_does_not_follow() -> None:
    CASE.holds()


def test_the_switch_that_takes_it_away_is_named_under_it() -> None:
    hit = Judged(drawn()).said("NG_BOND_MISSING")[0]
    assert [c.where for c in hit.consequences if c.rule == "transfer-poles-wrong"] == [("QT1",)]
