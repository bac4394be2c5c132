"""States in words."""

from __future__ import annotations

import pytest

from linework.study.spoken import spoken_state
from tests.findings.banks import van
from tests.findings.camps import caravan, changeover


@pytest.mark.parametrize(
    ("key", "told"),
    [
        ("G1=running QT1=set", "G1 running, QT1 on set"),
        ("GS1=dead QT1=supply 2", "GS1 dead, QT1 on supply 2"),
        ("QT1=set while QT1 changes over", "QT1 on set, while QT1 changes over"),
        ("while QT1 changes over", "while QT1 changes over"),
        ("QT1=off", "QT1 off"),
        ("X9=odd", "X9=odd"),
        ("", ""),
    ],
)
def test_a_changeover(key: str, told: str) -> None:
    assert spoken_state(changeover().design, key) == told


def test_plugs_and_the_sun() -> None:
    design = caravan().design
    assert spoken_state(design, "XP1=XD1") == "XP1 in XD1"
    assert spoken_state(design, "G1=running XP1=unplugged") == "G1 running, XP1 pulled out"
    assert spoken_state(van().design, "GP1=day") == "GP1 by day"
    assert spoken_state(van().design, "GP1=night") == "at night"
