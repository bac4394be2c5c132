# Wiring Your Off Grid Home for Efficiency,
# https://backwoodssolar.com/learning-center/learning-center-wiring-your-off-grid-home/
"""A 120 V house: one hot wire feeds both sides of the board, every circuit has its own neutral."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import branch, inverter
from tests.cases.judged import Judged


def drawn() -> Draft:
    d = Draft(place="building")
    inverter(d, "3.6 kVA", "floating", bond_allowed="yes")
    d.part("panel", "QP1", circuit="split", bus="100 A", bond="fitted", places="20")
    d.part("breaker", "QF1", circuit="split", rating="30 A")
    d.seat("QF1", "QP1", "1")
    d.run(
        "TB1.ac_out",
        "QF1.load",
        "a",
        poles="L>L1 L>L2 N PE",
        size="8 AWG",
        length="10 ft",
    )
    for n in range(8):
        branch(d, "QP1", str(5 + n), str(11 + n), "250 W")
    d.part("electrode", "XE1")
    d.run("QP1.ground", "XE1.ground", "gec", size="6 AWG", length="10 ft")
    return d


CASE = Case(
    "sources",
    "fine",
    drawn,
    never=(Never("NEUTRAL_OVERLOAD"), Never("VOLTAGE_WRONG"), Never("SOURCES_PARALLEL")),
    surprising=True,
)


def test_it_is_sound() -> None:
    CASE.holds()


def test_no_neutral_carries_more_than_the_unit_gives() -> None:
    report = Judged(drawn()).report("TB1=on")
    assert max(a for (_, pole), a in report.run_a.items() if pole == "N") < 30.0
