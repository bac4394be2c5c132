# Portable Generator Grounding - are ground rods required,
# https://forums.mikeholt.com/threads/portable-generator-grounding-are-ground-rods-required.118458
"""A fair: a bonded set, a cord, a box with GFCI outlets for blower fans, no rod."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import CORD


def drawn() -> Draft:
    d = Draft(place="field")
    d.part("generator", "G1", circuit="split", power="6.5 kVA", neutral="bonded")
    d.part("breaker", "QF1", circuit="split", rating="30 A")
    d.seat("QF1", "G1", "1")
    d.part("outlet", "XD1", circuit="split", configuration="L14-30")
    d.seat("XD1", "QF1", "load")
    d.part("plug", "XP1", circuit="split", configuration="L14-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", circuit="split", configuration="L14-30")
    d.run("XP1.cord", "XI1.outside", "c", length="50 ft", **CORD)
    d.part("panel", "QP1", "box", circuit="split", bond="absent")
    d.run("XI1.inside", "QP1.feed", "i", size="10 AWG", length="1 ft")
    for n, place in ((2, "1"), (3, "3")):
        d.part("breaker", f"QF{n}", rating="20 A")
        d.seat(f"QF{n}", "QP1", place)
        d.part("outlet", f"XD{n}", configuration="5-20", ground_fault="class_a")
        d.seat(f"XD{n}", f"QF{n}", "load")
        d.part("plug", f"XP{n}", configuration="5-15")
        d.seat(f"XP{n}", f"XD{n}", "face")
        d.part("load", f"EA{n}", "fan", power="1000 W")
        d.run(
            f"XP{n}.cord", f"EA{n}.in", f"f{n}", size="12 AWG", length="50 ft", installation="cord"
        )
    return d


CASE = Case(
    "grounding",
    "fine",
    drawn,
    never=(
        Never("ELECTRODE_MISSING"),
        Never("NG_BOND_MISSING"),
        Never("NG_BOND_MULTIPLE"),
        Never("OUTLET_UNDER_OCPD"),
    ),
)


def test_it_is_sound() -> None:
    CASE.holds()
