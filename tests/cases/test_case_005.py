# RV Electricity - dryer and welder outlet dangers (welder part),
# https://www.rvtravel.com/rv-electricity-dryer-and-welder-outlet-dangers/
"""A 50 A vehicle on a welder outlet, by an adapter that joins its neutral pin to the ground."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import branch, chassis, service
from tests.cases.judged import Judged


def drawn() -> Draft:
    d = Draft(place="recreational")
    service(d)
    d.part("breaker", "QF1", circuit="ac240", rating="50 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", circuit="ac240", configuration="6-50")
    d.run("QF1.load", "XD1.feed", "w", size="6 AWG", ground_size="10 AWG", length="40 ft")
    d.part("panel", "QP2", circuit="split", main="50 A", bus="50 A", bond="absent")
    # adapter and cord in one: its neutral pin begins on the ground pin of the plug
    d.part("plug", "XP1", circuit="ac240", configuration="6-50")
    d.seat("XP1", "XD1", "face")
    d.run(
        "XP1.cord",
        "QP2.feed",
        "c",
        poles="L1 L2 PE PE>N",
        size="6 AWG",
        length="30 ft",
        installation="cord",
    )
    branch(d, "QP2", "1", "11", "1500 W")
    branch(d, "QP2", "3", "12", "500 W")
    chassis(d, "QP2")
    return d


CASE = Case(
    "plugs",
    "fault",
    drawn,
    expected=(
        Expected("NEUTRAL_ABSENT", "danger", at="XD1"),
        Expected("EGC_CARRIES_LOAD", "danger", at="w"),
    ),
    never=(Never("VOLTAGE_WRONG"), Never("OCPD_OVER_CONDUCTOR", at="w")),
)


def test_the_ground_wire_is_found_to_be_the_neutral() -> None:
    CASE.holds()
    # the link of the house's own board is where it belongs
    assert not [f for f in Judged(drawn()).findings if f.rule == "bond-at-wrong-place"]
