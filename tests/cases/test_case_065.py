# Air conditioner and a 2000 W generator (reader question), https://howto.airstreamlife.com/tag/dometic
"""A rooftop air conditioner on a small set: it runs, and hardly starts."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import CORD, chassis


def drawn() -> Draft:
    d = Draft(place="recreational")
    d.part("generator", "G1", power="1.6 kVA", excitation="electronic", neutral="floating")
    d.part("breaker", "QF1", rating="20 A")
    d.seat("QF1", "G1", "1")
    d.part("outlet", "XD1", configuration="5-20")
    d.seat("XD1", "QF1", "load")
    d.part("plug", "XP1", configuration="5-20")
    d.seat("XP1", "XD1", "face")
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("XP1.cord", "QP1.feed", "c", length="25 ft", **CORD)
    d.part("breaker", "QF2", rating="20 A")
    d.seat("QF2", "QP1", "1")
    d.part("motor", "MA1", power="1500 W", power_factor="1", start_current="23 A")
    d.run("QF2.load", "MA1.in", "a", size="12 AWG", length="20 ft")
    chassis(d, "QP1")
    return d


CASE = Case(
    "sources",
    "fault",
    drawn,
    expected=(Expected("START_SURGE", "warning danger", at="G1"),),
    never=(Never("SOURCE_OVERLOAD"), Never("OCPD_OVER_CONDUCTOR")),
)


def test_it_runs_and_hardly_starts() -> None:
    CASE.holds()
