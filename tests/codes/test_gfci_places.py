"""In which places an outlet needs ground-fault protection (from memory of 210.8, 551.41(C))."""

from __future__ import annotations

import pytest

from linework.codes import CodesError, family
from linework.kinds import kinds


@pytest.mark.parametrize(
    ("place", "area", "volts", "amps", "edition", "asked"),
    [
        ("building", "bath", 125.0, 20.0, "2011", True),
        ("building", "bath", 250.0, 20.0, "2017", False),
        ("building", "bath", 250.0, 50.0, "2020", True),
        ("building", "bath", 250.0, 60.0, "2020", False),
        ("building", "dry", 125.0, 20.0, "2023", False),
        ("recreational", "sink", 125.0, 15.0, "2023", True),
        ("recreational", "sink", 125.0, 30.0, "2023", False),
    ],
)
def test_asked(place, area, volts, amps, edition, asked):
    found = family("NA", edition).ground_fault_protection(place, area, volts, amps)
    assert found.value is asked
    assert not found.confirmed
    assert ("210.8" if place == "building" else "551.41(C)") in found.clause


def test_every_area_of_an_outlet_has_an_answer_in_every_place():
    for place in ("recreational", "vehicle", "boat", "building", "field"):
        for area in kinds()["outlet"].declared["area"].choices:
            family("NA", "2023").ground_fault_protection(place, area.value, 125.0, 20.0)


@pytest.mark.parametrize(
    ("place", "area", "volts", "amps", "edition", "asked"),
    [
        ("building", "dry", 125.0, 20.0, "2011", True),
        ("building", "kitchen", 125.0, 20.0, "2011", False),
        ("building", "kitchen", 125.0, 15.0, "2014", True),
        ("building", "dry", 250.0, 20.0, "2023", False),
        ("building", "dry", 125.0, 30.0, "2023", False),
        ("building", "bath", 125.0, 20.0, "2023", False),
        ("boat", "dry", 125.0, 20.0, "2023", False),
    ],
)
def test_arc_fault_protection(place, area, volts, amps, edition, asked):
    found = family("NA", edition).arc_fault_protection(place, area, volts, amps)
    assert (found.value, found.clause) == (asked, f"NFPA 70 ({edition}) 210.12")


def test_an_unknown_edition_cannot_be_answered():
    with pytest.raises(CodesError):
        family("NA", "1999").ground_fault_protection("building", "bath", 125.0, 20.0)
