# ELCI Breaker with an Inverter/Charger,
# https://www.pysystems.ca/resources/articles/elci-breaker-with-an-inverter-charger/
"""A boat with one neutral bus for shore loads and inverter loads.

The bus is drawn as a junction box: busbars carry plus, minus or ground. For the ten seconds in
which the inverter-charger looks at its input its link stays closed.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import CORD
from tests.cases.judged import Judged
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="boat")
    d.part("supply", "GS1", "shore", breaker="30 A", prospective="2 kA")
    d.part("outlet", "XD1", configuration="L5-30")
    d.seat("XD1", "GS1", "1")
    d.part("plug", "XP1", configuration="L5-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="L5-30")
    d.run("XP1.cord", "XI1.outside", "cord", length="50 ft", **CORD)
    d.part("breaker", "QF1", "ELCI", rating="30 A", poles="all", ground_fault="rcd_30")
    d.run("XI1.inside", "QF1.line", "s", size="10 AWG", length="6 ft")
    d.part("inverter_charger", "TB1", power="2 kVA", dc_voltage="12 V", neutral="relay")
    d.part("battery", "GB1", voltage="12 V", capacity="400 Ah", chemistry="agm")
    d.part("fuse", "F1", rating="250 A", type="class_t", interrupting="20 kA")
    lead = {"size": "2/0 AWG", "insulation": "105", "terminals": "75"}
    d.run("GB1.dc", "F1.line", "dc1", length="0.5 ft", **lead)
    d.part("battery_disconnect", "QB1", rating="300 A")
    d.run("F1.load", "QB1.line", "dc2", length="1 ft", **lead)
    d.run("QB1.load", "TB1.dc", "dc3", length="3 ft", **lead)
    d.run("QF1.load", "TB1.ac_in", "i", size="10 AWG", length="6 ft")
    d.part("junction_box", "XJ1", "neutral bus")
    d.run("QF1.load", "XJ1.a", "a", poles="N", size="10 AWG", length="6 ft")
    d.run("TB1.ac_out", "XJ1.b", "o", poles="N", size="10 AWG", length="6 ft")
    d.part("breaker", "QF2", rating="20 A")
    d.run("QF1.load", "QF2.line", "h0", size="10 AWG", length="1 ft")
    d.part("heater", "EH1", power="1200 W", continuous="no")
    d.run("QF2.load", "EH1.in", "h", size="12 AWG", length="15 ft")
    # AC ground and DC negative are tied, engine and all; not told, taken as present
    d.part("body", "XB1", name="engine")
    d.run("TB1.case", "XB1.tie", "e", size="1/0 AWG", length="4 ft", installation="jumper")
    minus = {"size": "1/0 AWG", "length": "4 ft", "installation": "jumper"}
    d.run("GB1.dc", "XB1.tie", "m", poles="->body", **minus)
    return d


SETTLED, INVERTING = "GS1=live TB1=on XP1=XD1", "TB1=on XP1=unplugged"
PLUGGED_IN = "XP1=XD1 while"

CASE = Case(
    "bonding",
    "fault",
    drawn,
    expected=(
        Expected("NG_BOND_MULTIPLE", "warning danger", at="XJ1 TB1", state=PLUGGED_IN),
        Expected("NEUTRALS_JOINED", "warning", at="XJ1 TB1 a o"),
        Expected(
            "GFCI_TRIPS_NORMAL",
            "warning",
            at="QF1",
            state=PLUGGED_IN,
            number=Number(30.0, 0.0, lambda j, f: 1000.0 * evidence("must trip from")(j, f)),
        ),
    ),
    never=(
        Never("NG_BOND_MULTIPLE", state=SETTLED),
        Never("NG_BOND_MISSING", state=INVERTING),
    ),
    surprising=True,
)


def test_it_is_told() -> None:
    CASE.holds()


def test_with_a_bus_for_each_side_nothing_of_it_is_told() -> None:
    d = drawn()
    d.cut("a")
    judged = Judged(d)
    judged.lacks("NG_BOND_MULTIPLE", "NEUTRALS_JOINED", "GFCI_TRIPS_NORMAL")


def test_one_that_takes_its_input_at_once_trips_nothing() -> None:
    d = drawn()
    d.rate("TB1", accept="0.1 s")
    Judged(d).lacks("GFCI_TRIPS_NORMAL")
