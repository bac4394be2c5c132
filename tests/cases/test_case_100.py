# Generator & Interlock Kit - Float the Neutral?, diychatroom.com, thread 128453
"""A bonded set on an interlock with an unswitched neutral, no GFCI on the outlet in use."""

from __future__ import annotations

import pytest

from linework.design import Draft
from tests.cases.drawn import branch, generator_on_inlet, service
from tests.cases.judged import Judged
from tests.findings.told import number


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    generator_on_inlet(d, "bonded", "6.7 kVA", cord="40 ft", wire="15 ft")
    branch(d, "QP1", "5", "11", "1200 W")
    return d


GENERATOR = "G1=running QF2=closed XP1=XD1"


def test_two_links_on_the_generator_and_the_current_between_them() -> None:
    judged = Judged(drawn())
    hit = judged.finds("NG_BOND_MULTIPLE", "warning danger", at="G1 QP1", state=GENERATOR)
    assert number(hit, "{neutral_ground_link}s on the ring") == 2.0
    judged.finds("EGC_CARRIES_LOAD", "warning danger", at="cord w", state=GENERATOR)
    judged.lacks("GFCI_TRIPS_NORMAL", "SOURCES_PARALLEL")
    judged.lacks("NG_BOND_MULTIPLE", state="QP1=closed XP1=unplugged")


def test_it_divides_half_and_half() -> None:
    report = Judged(drawn()).report(*GENERATOR.split())
    ground, neutral = report.run_a["cord", "PE"], report.run_a["cord", "N"]
    assert ground / (ground + neutral) == pytest.approx(0.5, abs=0.1)
