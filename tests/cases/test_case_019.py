# MythBusters #6, Wiring Matters, September 2020,
# https://electrical.theiet.org/wiring-matters/years/2020/82-september-2020/mythbusters-6/
"""A small floating set, one tool in its outlet, no electrode."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.cases.case import Case, Expected, Never


def drawn() -> Draft:
    d = Draft(place="field", family="INT", voltage="230 V", frequency="50 Hz")
    d.part("generator", "G1", power="2.2 kVA", neutral="floating", excitation="electronic")
    d.part("breaker", "QF1", rating="10 A")
    d.seat("QF1", "G1", "1")
    d.part("outlet", "XD1", configuration="BS1363")
    d.seat("XD1", "QF1", "load")
    d.part("plug", "XP1", configuration="BS1363")
    d.seat("XP1", "XD1", "face")
    # at the end of a lead it is a tool whatever its kind
    d.part("load", "EP1", "tool", power="1000 W")
    d.run("XP1.cord", "EP1.in", "l", size="1.5 mm2", length="15 m", installation="cord")
    return d


CASE = Case(
    "grounding",
    "fine",
    drawn,
    expected=(Expected("SEPARATED_SOURCE_LIMIT", "note", at="G1"),),
    never=(
        Never("ELECTRODE_MISSING"),
        Never("NG_BOND_MISSING", up_to=Level.WARNING),
        Never("RCD_ABSENT"),
    ),
    surprising=True,
)


def test_it_is_sound() -> None:
    CASE.holds()
