# With power to spare!, http://refereedave.blogspot.com/2011/03/with-power-to-spare.html
"""A workshop board with neutral and ground tied; a vehicle plugged into its outlet."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import CORD, branch, chassis, service
from tests.cases.judged import Judged
from tests.cases.reading import evidence, ground_share


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", circuit="split", rating="60 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("panel", "QP2", "shop", circuit="split", bond="fitted")
    d.run(
        "QF1.load",
        "QP2.feed",
        "f",
        size="6 AWG",
        terminals="75",
        ground_size="10 AWG",
        length="80 ft",
    )
    d.part("breaker", "QF2", rating="30 A", interrupting="10 kA")
    d.seat("QF2", "QP2", "1")
    d.part("outlet", "XD1", configuration="TT-30")
    d.run("QF2.load", "XD1.feed", "b", size="10 AWG", length="20 ft")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XD1", "face")
    d.part("panel", "QP3", "vehicle", main="30 A", bond="absent")
    d.run("XP1.cord", "QP3.feed", "cord", length="50 ft", **CORD)
    branch(d, "QP3", "1", "11", "1200 W")
    chassis(d, "QP3")
    return d


STATE = "GS1=live XP1=XD1"

CASE = Case(
    "bonding",
    "fault",
    drawn,
    expected=(
        Expected(
            "NG_BOND_MULTIPLE",
            "warning danger",
            at="QP2",
            state=STATE,
            number=Number(2.0, 0.0, evidence("{neutral_ground_link}s on the ring")),
        ),
        Expected(
            "EGC_CARRIES_LOAD",
            "warning danger",
            at="f",
            state=STATE,
            number=Number(28.0, 8.0, lambda j, _: ground_share(j, STATE, "f")),
        ),
    ),
    never=(Never("EGC_OPEN"), Never("OCPD_OVER_CONDUCTOR")),
)


def test_the_tie_in_the_shop_is_found() -> None:
    CASE.holds()


def test_beyond_the_shop_neutral_and_ground_are_apart() -> None:
    # the vehicle's neutral carries all of its current
    report = Judged(drawn()).report(*STATE.split())
    assert report.run_a["cord", "PE"] < 0.05
    assert next(x for x in report.readings if x.owner == "XD1").picture == "correct"
