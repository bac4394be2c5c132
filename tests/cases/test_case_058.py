# Mains Hook-up Cable Considerations, http://www.aandncaravanservices.co.uk/hookup-leads.php
"""A caravan's 25 m hook-up lead of 1.5 mm2 on a 16 A post with a residual-current device.

Wires in the van and the chassis bond are ours, short and of 2.5 mm2.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.reading import evidence

FAMILY = "INT"


def drawn(family: str = FAMILY) -> Draft:
    d = Draft(place="recreational", family=family, voltage="230 V", frequency="50 Hz")
    d.part("supply", "GS1", "site", breaker="16 A", prospective="1 kA")
    d.part("breaker", "QF1", "on the post", rating="16 A", ground_fault="rcd_30", poles="all")
    d.seat("QF1", "GS1", "1")
    d.part("outlet", "XD1", configuration="CEE16-3-6h")
    d.seat("XD1", "QF1", "load")
    d.part("plug", "XP1", configuration="CEE16-3-6h")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="CEE16-3-6h")
    d.run("XP1.cord", "XI1.outside", "c", size="1.5 mm2", length="25 m", installation="cord")
    d.part("panel", "QP1", "van", main="16 A", bond="absent")
    d.run("XI1.inside", "QP1.feed", "i", size="2.5 mm2", length="1 m")
    d.part("breaker", "QF2", rating="16 A")
    d.seat("QF2", "QP1", "1")
    d.part("load", "EA1", "heater, kettle, charger", power="3680 W")
    d.run("QF2.load", "EA1.in", "l", size="2.5 mm2", length="2 m")
    d.part("body", "XB1", name="chassis")
    d.run("QP1.ground", "XB1.tie", "e", size="4 mm2", length="1 m", installation="jumper")
    return d


CASE = Case(
    "voltage-drop",
    "fault",
    drawn,
    expected=(
        Expected(
            "CONDUCTOR_UNDERSIZED",
            "warning danger",
            at="c",
            number=Number(2.5, 1e-6, evidence("area needed")),
        ),
        Expected(
            "VDROP_HIGH",
            "note warning",
            at="c",
            # 9.5 to 12 V in the lead alone
            number=Number(10.75, 1.25, lambda j, _: j.report("XP1=XD1").run_drop_v["c"]),
        ),
    ),
    never=(Never("RCD_ABSENT"), Never("PLUG_MISMATCH")),
    scope=("voltage-drop", "overcurrent"),
)


def test_the_lead_is_too_thin() -> None:
    CASE.holds()
