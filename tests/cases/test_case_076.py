# Power outage wiki: connecting the inverter to the panel,
# https://wiki.jmehan.com/pages/diffpagesbyversion.action?pageId=80871431
"""An inverter plugged into a wall outlet to feed the house, a load on the way."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import branch, inverter, service
from tests.cases.reading import amps


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", "on the way", configuration="5-15")
    d.part("outlet", "XD2", "injected here", configuration="5-15")
    d.run("QF1.load", "XD1.feed", "b", size="14 AWG", length="30 ft")
    d.run("XD1.onward", "XD2.feed", "c", size="14 AWG", length="10 ft")
    d.part("plug_load", "EP1", power="1440 W", configuration="5-15")
    d.seat("EP1", "XD1", "face")
    branch(d, "QP1", "2", "11", "1800 W")
    inverter(d, "3.5 kVA", "floating")
    d.part("plug", "XP1", configuration="5-15")
    d.run("TB1.ac_out", "XP1.cord", "x", size="12 AWG", length="10 ft", installation="cord")
    d.seat("XP1", "XD2", "face")
    return d


OUTAGE = "GS1=dead TB1=on XP1=XD2"

CASE = Case(
    "sources",
    "fault",
    drawn,
    expected=(
        Expected(
            "OCPD_OVER_CONDUCTOR",
            "danger",
            at="c",
            also=("CONDUCTOR_OVERLOAD", "OCPD_MISSING"),
            # 27 A less what the lower voltage at the loads takes away
            number=Number(27.0, 1.5, lambda j, _: amps(j, OUTAGE, "c", "L")),
        ),
        Expected("LIVE_PINS", "danger", at="XP1"),
        # the program names the two sources that nothing keeps apart
        Expected("NO_INTERLOCK", "danger", at="GS1 TB1 QP1"),
    ),
    never=(Never("OCPD_OVER_CONDUCTOR", at="b"),),
    surprising=True,
)


def test_pins_interlock_and_the_overloaded_wire_are_found() -> None:
    CASE.holds()
