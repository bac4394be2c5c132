"""device-above-ampacity: the cord to a vehicle has a least size of its own."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.told import cured, found, number

RULE = "device-above-ampacity"


def hooked_up(
    size: str, family: str = "INT", place: str = "recreational", plug: str = "16"
) -> Draft:
    d = Draft(place=place, family=family, voltage="230 V", frequency="50 Hz")
    d.part("supply", "GS1", breaker="32 A", prospective="1 kA")
    contacts = f"CEE{plug}-3-6h"
    d.part("outlet", "XD1", configuration=contacts)
    d.run("GS1.out", "XD1.feed", "W1", size="6 mm2", length="1 m")
    d.part("plug", "XP1", configuration=contacts)
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration=contacts)
    d.run("XP1.cord", "XI1.outside", "c", size=size, length="25 m", installation="cord")
    return d


@pytest.mark.parametrize(
    ("size", "plug", "hit"),
    [
        # IEC 60364-7-721, cords of 25 m: 2.5 mm2 for 16 A, 6 mm2 for 32 A
        ("1.5 mm2", "16", True),
        ("2.5 mm2", "16", False),
        ("4 mm2", "32", True),
        ("6 mm2", "32", False),
    ],
)
def test_the_cord_of_a_caravan(size: str, plug: str, hit: bool) -> None:
    draft = hooked_up(size, plug=plug)
    hits = [f for f in found(draft, RULE) if f.subjects == ("c",)]
    assert [f.level for f in hits] == [Level.WARNING] * hit
    if hit:
        assert number(hits[0], "area needed") == pytest.approx({"16": 2.5, "32": 6.0}[plug])
        cured(draft, hits[0])


def test_elsewhere_its_ampacity_decides() -> None:
    assert not found(hooked_up("1.5 mm2", place="building"), RULE)


def test_a_cord_set_on_an_inlet_is_held_to_it_too() -> None:
    d = hooked_up("2.5 mm2")
    d.remove("XP1")
    d.part("cord_set", "WX1", configuration="CEE16-3-6h", size="1.5 mm2", length="25 m")
    d.seat("WX1", "XD1", "face")
    d.seat("XI1", "WX1", "face")
    assert [f.subjects for f in found(d, RULE)] == [("WX1",)]
    assert analyse(d.design).findings


def test_a_cord_set_behind_an_adapter_and_one_beyond_another_are_held_to_it_too() -> None:
    d = hooked_up("2.5 mm2")
    d.remove("XP1")
    rated = {"configuration": "CEE16-3-6h", "connector": "CEE16-3-6h"}
    for name, size in (("WX1", "1.5 mm2"), ("WX2", "2.5 mm2")):
        d.part("cord_set", name, size=size, length="10 m", **rated)
    d.part("adapter", "XA1", **rated)
    for part, host in (("WX1", "XD1"), ("XA1", "WX1"), ("WX2", "XA1"), ("XI1", "WX2")):
        d.seat(part, host, "face")
    assert [f.subjects for f in found(d, RULE)] == [("WX1",)]
