# RVelectricity - J.A.M.: Generator bonding basics,
# https://www.rvtravel.com/rv-electricity-jam-generator-bonding-rvt-976/
"""A trailer on a floating set with a plug in a spare outlet that joins neutral and ground."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import CORD, chassis
from tests.cases.judged import Judged


def drawn(plugged: bool = True, power: str = "3 kVA") -> Draft:
    d = Draft(place="recreational")
    d.part("generator", "G1", power=power, neutral="floating", excitation="electronic")
    d.part("breaker", "QF1", rating="30 A")
    d.part("outlet", "XD1", configuration="TT-30")
    d.part("breaker", "QF2", rating="20 A")
    d.part("outlet", "XD2", configuration="5-20")
    d.seat("QF1", "G1", "1")
    d.seat("XD1", "QF1", "load")
    d.seat("QF2", "G1", "2")
    d.seat("XD2", "QF2", "load")
    if plugged:
        d.part("bond_plug", "XQ1")
        d.seat("XQ1", "XD2", "face")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XD1", "face")
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("XP1.cord", "QP1.feed", "cord", length="30 ft", **CORD)
    d.part("breaker", "QF3", rating="15 A")
    d.seat("QF3", "QP1", "1")
    d.part("outlet", "XD3", configuration="5-15")
    d.run("QF3.load", "XD3.feed", "w", size="14 AWG", length="15 ft")
    chassis(d, "QP1")
    return d


CASE = Case(
    "bonding",
    "fine",
    drawn,
    never=(Never("BOOTLEG_EGC"), Never("NG_BOND_MULTIPLE"), Never("ELECTRODE_MISSING")),
    surprising=True,
)


def test_the_plug_is_the_one_link_at_the_right_place() -> None:
    CASE.holds()
    Judged(drawn()).lacks("NG_BOND_MISSING")


def test_without_it_the_link_is_missing() -> None:
    judged = Judged(drawn(plugged=False))
    judged.finds("NG_BOND_MISSING", "warning", at="G1", state="G1=running XP1=XD1")


def test_the_set_reads_correct() -> None:
    reading = next(
        x for x in Judged(drawn()).report("G1=running", "XP1=XD1").readings if x.owner == "XD1"
    )
    assert reading.picture == "correct"
