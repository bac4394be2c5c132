# RVelectricity - J.A.M.: How to Neutral/Ground bond parallel generators,
# https://www.rvtravel.com/rv-electricity-jam-parallel-generator-bonding-basics/
"""Two sets joined by their own parallel kit, one bonding plug."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import CORD, chassis
from tests.cases.judged import Judged


def drawn(plugs: int = 1, parallel: str = "kit") -> Draft:
    d = Draft(place="recreational")
    d.part("parallel_kit", "WC1", breaker="30 A", outlets="1")
    for n in (1, 2):
        d.part(
            "generator",
            f"G{n}",
            power="2 kVA",
            neutral="floating",
            excitation="electronic",
            parallel=parallel,
        )
        d.part("breaker", f"QF{n}", rating="20 A")
        d.seat(f"QF{n}", f"G{n}", "1")
        d.part("outlet", f"XD{n}", configuration="5-20")
        d.seat(f"XD{n}", f"QF{n}", "load")
        d.run(f"G{n}.out", f"WC1.set{n}", f"k{n}", length="3 ft", **CORD)
        if n <= plugs:
            d.part("bond_plug", f"XQ{n}")
            d.seat(f"XQ{n}", f"XD{n}", "face")
    d.part("outlet", "XD3", configuration="TT-30")
    d.seat("XD3", "WC1", "1")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XD3", "face")
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("XP1.cord", "QP1.feed", "cord", length="25 ft", **CORD)
    d.part("breaker", "QF5", rating="15 A")
    d.seat("QF5", "QP1", "1")
    d.part("outlet", "XD5", configuration="5-15")
    d.run("QF5.load", "XD5.feed", "w", size="14 AWG", length="15 ft")
    chassis(d, "QP1")
    return d


CASE = Case(
    "bonding",
    "fine",
    drawn,
    never=(Never("SOURCES_PARALLEL"), Never("NG_BOND_MISSING"), Never("NG_BOND_MULTIPLE")),
    surprising=True,
)


def test_one_plug_bonds_both() -> None:
    CASE.holds()


def test_two_plugs_are_one_too_many() -> None:
    assert Judged(drawn(2)).said("NG_BOND_MULTIPLE")


def test_none_bonds_neither() -> None:
    assert Judged(drawn(0)).said("NG_BOND_MISSING")


def test_sets_that_are_not_made_for_it_meet_out_of_step() -> None:
    assert Judged(drawn(parallel="no")).said("SOURCES_PARALLEL")
