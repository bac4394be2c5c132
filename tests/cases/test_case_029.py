# Electric Space Heater Tragedy ... (reader comments),
# https://rvelectricity.substack.com/p/electric-space-heater-tragedy-in/comments
"""A heater of 1,500 W on 100 ft of 16 AWG, which lies coiled and covered.

That the cord is coiled under papers cannot be drawn.
"""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Finding
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import service
from tests.cases.judged import Judged
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", configuration="5-15")
    d.run("QF1.load", "XD1.feed", "w", size="14 AWG", length="20 ft")
    d.part("cord_set", "WX1", configuration="5-15", size="16 AWG", length="100 ft", marked="10 A")
    d.seat("WX1", "XD1", "face")
    heater = {"power": "1500 W", "configuration": "5-15", "continuous": "yes"}
    d.part("plug_load", "EP1", "space heater", **heater)
    d.seat("EP1", "WX1", "face")
    return d


def lost_v(judged: Judged, _: Finding) -> float:
    """Volt lost in the cord alone: the finding tells what is lost from the source on."""
    volts = next(iter(judged.report("GS1=live", "WX1=XD1").volts.values()))
    one, other = (
        abs(volts[part, terminal, "L"] - volts[part, terminal, "N"])
        for part, terminal in (("WX1", "pins"), ("WX1", "face"))
    )
    return one - other


CASE = Case(
    "voltage-drop",
    "fault",
    drawn,
    expected=(
        Expected("CORD_OVERLOAD", "danger warning", at="WX1", also=("CONDUCTOR_OVERLOAD",)),
        Expected("VDROP_HIGH", "warning", at="WX1", number=Number(10.75, 1.75, lost_v)),
        Expected(
            "CORD_HEAT",
            "danger warning",
            at="WX1",
            number=Number(130.0, 25.0, evidence("heat along it")),
        ),
    ),
    never=(Never("OCPD_OVER_CONDUCTOR", at="w"),),
    scope=("voltage-drop", "overcurrent"),
)


def test_the_cord_is_found() -> None:
    CASE.holds()
