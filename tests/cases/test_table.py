"""The table of the situations counts what it says."""

from __future__ import annotations

from pathlib import Path

import tests.cases as home
from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Verdict
from tests.cases.table import cases, table

NORTH_AMERICAN = (
    "003 005 008 010 012 014 025 026 027 040 045 057 065 067 069 071 075 076 077 079 084 085 087"
    " 100"
)
"""The situations that are public, of the families bonding, grounding, gfci, sources and plugs."""


def test_every_public_situation_of_these_families_is_drawn() -> None:
    families = {"bonding", "grounding", "gfci", "sources", "plugs"}
    drawn = cases()
    assert {drawn[number].family for number in NORTH_AMERICAN.split()} == families


def test_every_file_of_a_situation_is_in_the_table() -> None:
    files = {p.stem.removeprefix("test_case_") for p in Path(*home.__path__).glob("test_case_*.py")}
    assert set(cases()) == files


def test_a_miss_a_false_alarm_and_a_hit_are_counted() -> None:
    hit, missed = (Expected(key, "danger", "XD1") for key in ("NG_BOND_MISSING", "EGC_OPEN"))
    fault = Case("bonding", "fault", Draft, expected=(hit, missed), surprising=True)
    fine = Case("gfci", "fine", Draft)
    verdict = Verdict((hit,), (missed,), ())
    lines = table({"901": (fault, verdict), "902": (fine, Verdict((), (), ("told at XD1",)))})
    assert "901 misses EGC_OPEN at XD1: not found there" in lines
    assert "902 false alarm: told at XD1" in lines
    assert "found 1 of 2; fine ones with a false alarm 1 of 1; false alarms in all 1" in lines
    assert "surprising: 1 situations; expected dangers and warnings found 1 of 2" in lines


def test_a_design_is_held_against_what_is_expected() -> None:
    def bare() -> Draft:
        d = Draft(place="building")
        d.part("supply", "GS1", neutral="floating")
        d.part("outlet", "XD1", configuration="5-15")
        d.run("GS1.out", "XD1.feed", poles="L N", size="14 AWG", length="10 ft")
        return d

    open_ground = Expected("EGC_OPEN", "danger warning", "XD1")
    elsewhere = Expected("EGC_OPEN", "danger warning", "XD2")
    case = Case(
        "grounding",
        "fault",
        bare,
        expected=(open_ground, elsewhere),
        never=(Never("EGC_OPEN"), Never("EGC_OPEN", at="XD2"), Never("SOURCES_PARALLEL")),
    )
    verdict = case.verdict()
    assert (verdict.hit, verdict.missed) == ((open_ground,), (elsewhere,))
    assert [alarm.split()[0] for alarm in verdict.alarms] == ["ground-open"]
