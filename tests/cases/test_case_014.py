# How Does A 50 Amp to 30 Amp RV Adapter Work,
# https://www.rvandplaya.com/how-does-a-50-amp-to-30-amp-rv-adapter-work/
"""A 50 A coach on a 30 A pedestal through an adapter that feeds both legs from one hot."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import branch, chassis
from tests.cases.judged import Judged


def drawn() -> Draft:
    d = Draft(place="recreational")
    d.part("supply", "GS1", "pedestal", breaker="30 A", prospective="4 kA")
    d.part("outlet", "XD1", configuration="TT-30")
    d.seat("XD1", "GS1", "1")
    split = {"circuit": "split"}
    d.part("adapter", "XA1", configuration="TT-30", connector="14-50", outlet_circuit="split")
    d.seat("XA1", "XD1", "face")
    d.part("plug", "XP1", configuration="14-50", **split)
    d.seat("XP1", "XA1", "face")
    d.part("panel", "QP1", circuit="split", main="50 A", bus="50 A", bond="absent")
    d.run("XP1.cord", "QP1.feed", "c", size="6 AWG", length="30 ft", installation="cord")
    branch(d, "QP1", "1", "11", "1200 W")
    branch(d, "QP1", "3", "12", "1200 W")
    chassis(d, "QP1")
    return d


CASE = Case(
    "plugs",
    "fine",
    drawn,
    never=(Never("NEUTRAL_OVERLOAD"), Never("VOLTAGE_WRONG"), Never("OUTLET_UNDER_OCPD")),
    surprising=True,
)


def test_it_is_sound() -> None:
    CASE.holds()


def test_the_neutral_carries_no_more_than_the_pedestal_gives() -> None:
    assert Judged(drawn()).report("XP1=XA1").run_a["c", "N"] < 30.0
