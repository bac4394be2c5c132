# Wandering with Waddles: Preparing (fridge wiring),
# https://wanderingwithwaddles.blogspot.com/search/label/Preparing
"""A small trailer's compressor refrigerator at the end of 18 ft of 16 AWG.

The battery rests at 12.2 V; with a charger on it stands at 13.6 V, drawn as that battery.
"""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.cases.case import Case, Expected, Number
from tests.cases.judged import Judged
from tests.cases.reading import evidence


def drawn(volts: str = "12.2 V") -> Draft:
    d = Draft(place="recreational")
    d.part("battery", "GB1", voltage=volts, capacity="80 Ah", chemistry="agm")
    d.part("fuse", "F1", rating="15 A", interrupting="10 kA", voltage="32 V")
    d.seat("F1", "GB1", "post")
    fridge = {"power": "48 W", "start_current": "10 A", "least_voltage": "10.9 V"}
    d.part("motor", "MA1", "refrigerator", circuit="dc", **fridge)
    wire = {"size": "16 AWG", "length": "18 ft"}
    d.run("F1.load", "MA1.in", "a", poles="+", **wire)
    d.run("GB1.dc", "MA1.in", "n", poles="-", **wire)
    return d


CASE = Case(
    "voltage-drop",
    "fault",
    drawn,
    expected=(
        Expected(
            "VDROP_HIGH",
            "warning danger",
            at="a n",
            # 1.3 to 1.9 V
            number=Number(1.6, 0.3, evidence("lost on the way while it starts")),
        ),
        Expected(
            "VOLTAGE_BELOW_CUTOUT",
            "warning danger",
            at="MA1",
            # 10.3 to 10.9; the contact of the fuse and the cells take some hundredths more
            number=Number(10.6, 0.35, evidence("voltage at it while it starts")),
        ),
    ),
    surprising=True,
    scope=("voltage-drop",),
)


def test_it_is_not_started_on_the_battery_alone() -> None:
    CASE.holds()


def test_with_the_charger_on_it_starts() -> None:
    Judged(drawn("13.6 V")).lacks("VOLTAGE_BELOW_CUTOUT", up_to=Level.NOTE)
