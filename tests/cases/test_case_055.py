# Wandering with Waddles: Preparing, https://wanderingwithwaddles.blogspot.com/
"""A teardrop trailer's refrigerator on 18 ft of 16 AWG fails on its battery alone.

36 ft x 4.016 ohm per 1000 ft x 10 A is 1.45 V of the battery's 12.2 V.
"""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.judged import Judged
from tests.cases.reading import evidence


def drawn(size: str = "16 AWG") -> Draft:
    d = Draft(place="recreational")
    d.part("supply", "GS1", "shore", breaker="20 A", prospective="2 kA")
    d.part("battery", "GB1", voltage="12.2 V", capacity="80 Ah", chemistry="agm")
    d.part("fuse", "F1", rating="15 A", type="ato", interrupting="4 kA")
    d.seat("F1", "GB1", "post")
    compressor = {"start_current": "10 A", "least_voltage": "10.9 V"}
    d.part("motor", "MA1", "refrigerator", circuit="dc", power="48 W", **compressor)
    d.run("F1.load", "MA1.in", "a", poles="+", size=size, length="18 ft")
    d.run("GB1.dc", "MA1.in", "a2", poles="-", size=size, length="18 ft")
    d.part("charger", "TB1", current="15 A", dc_voltage="12 V")
    d.part("outlet", "XD1", configuration="5-15", ground_fault="class_a")
    d.seat("XD1", "GS1", "1")
    d.part("plug", "XP1", configuration="5-15")
    d.seat("XP1", "XD1", "face")
    d.run("XP1.cord", "TB1.ac_in", "w", size="14 AWG", length="6 ft", installation="cord")
    d.part("fuse", "F2", rating="20 A", type="ato", interrupting="4 kA")
    d.run("GB1.dc", "F2.line", "c", poles="+", size="12 AWG", length="0.5 ft")
    d.run("F2.load", "TB1.dc", "c2", poles="+", size="12 AWG", length="3 ft")
    d.run("GB1.dc", "TB1.dc", "c3", poles="-", size="12 AWG", length="3 ft")
    return d


ALONE, CHARGING = "XP1=unplugged", "XP1=XD1"

CASE = Case(
    "voltage-drop",
    "fault",
    drawn,
    expected=(
        Expected(
            "VDROP_HIGH",
            "warning danger",
            "a",
            ALONE,
            number=Number(1.6, 0.3, evidence("lost on the way while it starts")),
        ),
        Expected(
            "VOLTAGE_BELOW_CUTOUT",
            "warning danger",
            "MA1",
            ALONE,
            number=Number(10.6, 0.3, evidence("voltage at it while it starts")),
        ),
    ),
    # the percentage may be told, as a note
    never=(Never("VOLTAGE_BELOW_CUTOUT", state=CHARGING, up_to=Level.NOTE),),
    surprising=True,
    scope=("voltage-drop",),
)


def test_it_fails_on_the_battery_alone() -> None:
    CASE.holds()


def test_ten_awg_cured_it() -> None:
    Judged(drawn("10 AWG")).lacks("VOLTAGE_BELOW_CUTOUT", up_to=Level.NOTE)
