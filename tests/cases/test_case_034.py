# Electrolysis, https://www.samsmarine.com/threads/electrolysis.5483/post-50987
"""A boat on an isolation transformer: shore's ground ends at its shield.

Its secondary is bonded to the boat's ground at its case, which lies in the water by its electrode.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import CORD


def drawn(**ratings: str) -> Draft:
    d = Draft(place="boat")
    d.part("supply", "GS1", "shore", breaker="30 A", prospective="2 kA")
    d.part("outlet", "XD9", configuration="L5-30")
    d.seat("XD9", "GS1", "1")
    d.part("plug", "XP1", configuration="L5-30")
    d.seat("XP1", "XD9", "face")
    d.part("inlet", "XI1", configuration="L5-30")
    d.run("XP1.cord", "XI1.outside", "cord", length="50 ft", **CORD)
    d.part("breaker", "QF1", rating="30 A", poles="all")
    d.run("XI1.inside", "QF1.line", "s", size="10 AWG", length="10 ft")
    shield = {"power": "3.6 kVA", "neutral": "bonded", "ground": "shield"} | ratings
    d.part("transformer", "TA1", **shield)
    d.run("QF1.load", "TA1.primary", "p", size="10 AWG", length="4 ft")
    d.part("panel", "QP1", bond="absent")
    d.run("TA1.secondary", "QP1.feed", "o", size="10 AWG", length="8 ft")
    d.part("body", "XB1", "boat ground bus and engine", name="engine")
    d.run("QP1.ground", "XB1.tie", "g", size="8 AWG", length="4 ft", installation="jumper")
    d.part("electrode", "XE1", "the engine in the water", resistance="5 ohm")
    d.run("QP1.ground", "XE1.ground", "w", size="8 AWG", length="4 ft", installation="jumper")
    d.part("breaker", "QF2", rating="15 A")
    d.seat("QF2", "QP1", "1")
    d.part("load", "EA1", power="1200 W")
    d.run("QF2.load", "EA1.in", "m", size="14 AWG", length="15 ft")
    return d


CASE = Case(
    "bonding",
    "fine",
    drawn,
    never=(
        Never("EGC_OPEN"),
        Never("NG_BOND_MULTIPLE"),
        Never("NG_BOND_MISSING"),
        Never("FAULT_NOT_CLEARED", at="QP1 EA1 o m TA1"),
    ),
    surprising=True,
    scope=("bonding", "grounding"),
)


def test_it_is_sound() -> None:
    CASE.holds()
