# Code Q&A (online column), http://ecmweb.com/content/code-qa
"""A bonded portable set that feeds a tool from its own outlet; its ground lug stays empty."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never


def drawn() -> Draft:
    d = Draft(place="field")
    d.part("generator", "G1", circuit="split", power="5 kVA", neutral="bonded")
    d.part("breaker", "QF1", rating="20 A")
    d.seat("QF1", "G1", "1")
    d.part("outlet", "XD1", configuration="5-20", ground_fault="class_a")
    d.seat("XD1", "QF1", "load")
    d.part("plug", "XP1", configuration="5-15")
    d.seat("XP1", "XD1", "face")
    d.part("load", "EA1", "tool", power="1500 W")
    d.run("XP1.cord", "EA1.in", "c", size="12 AWG", length="50 ft", installation="cord")
    return d


CASE = Case(
    "grounding",
    "fine",
    drawn,
    never=(Never("ELECTRODE_MISSING"), Never("FAULT_NOT_CLEARED"), Never("NG_BOND_MISSING")),
    surprising=True,
)


def test_it_is_sound() -> None:
    CASE.holds()
