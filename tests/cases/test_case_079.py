# With power to spare!, http://refereedave.blogspot.com/2011/03/with-power-to-spare.html
"""A workshop board with neutral and ground tied; a vehicle plugged into its outlet."""

from __future__ import annotations

import pytest

from linework.design import Draft
from tests.cases.drawn import CORD, branch, chassis, service
from tests.cases.judged import Judged
from tests.findings.told import number


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


def test_the_tie_in_the_shop_is_found() -> None:
    judged = Judged(drawn())
    hit = judged.finds("NG_BOND_MULTIPLE", "warning danger", at="QP2", state=STATE)
    assert number(hit, "{neutral_ground_link}s on the ring") == 2.0
    judged.finds("EGC_CARRIES_LOAD", "warning danger", at="f", state=STATE)
    judged.lacks("EGC_OPEN", "OCPD_OVER_CONDUCTOR")


def test_the_share_on_the_ground_wire_and_the_tester() -> None:
    report = Judged(drawn()).report(*STATE.split())
    ground, neutral = report.run_a["f", "PE"], report.run_a["f", "N"]
    assert ground / (ground + neutral) == pytest.approx(0.28, abs=0.08)
    # beyond the shop neutral and ground are apart: the vehicle's neutral carries all of it
    assert report.run_a["cord", "PE"] < 0.05
    assert next(x for x in report.readings if x.owner == "XD1").picture == "correct"
