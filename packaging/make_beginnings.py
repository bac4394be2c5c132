"""Writes resources/beginnings/: sound beginnings of a new sheet, to be filled in.

Run it from the checkout after one was changed. Each draws the sources, what keeps them apart, their
protection and one or two circuits; what a person has to look up stays open and is told.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from linework.design import Draft
from linework.kinds import Answer, Band
from linework.sheet.arranging import lay_out
from linework.storage import save

FOLDER = Path(__file__).resolve().parent.parent / "resources" / "beginnings"
DC12 = {"circuit": "dc", "voltage": "12 V"}
LEAD = {"terminals": "75", "insulation": "90"}


class Sheet(Draft):
    """A draft with the words in which these are drawn."""

    def wire(self, a: str, b: str, size: str, length: str, poles: str = "", **more: Answer) -> None:
        """A cable or single conductors."""
        self.run(a, b, "", poles, size=size, length=length, **more)

    def breaker(self, name: str, board: str, place: str, amps: int, **more: Answer) -> None:
        """A breaker in a place of a board."""
        self.part("breaker", name, rating=f"{amps} A", interrupting="10 kA", **more)
        self.seat(name, board, place)

    def blade(self, name: str, board: str, place: str, amps: float) -> None:
        """A blade fuse in a place of a board on 12 V."""
        rated = {"voltage": "32 V", "interrupting": "1 kA"}
        self.part("fuse", name, rating=f"{amps:g} A", type="ato", **rated)
        self.seat(name, board, place)

    def class_t(self, name: str, amps: int) -> None:
        """A class T fuse in a holder."""
        rated = {"voltage": "125 V", "interrupting": "20 kA"}
        self.part("fuse", name, rating=f"{amps} A", type="class_t", **rated)


# North America


def set_with_inlet() -> Sheet:
    """A portable set outdoors, its cord into an inlet, a board with two circuits."""
    d = Sheet(place="vehicle", sheet="A3")
    _set(d, "bonded", "25 ft")
    _board(d, "XI1.inside")
    _chassis(d, "QP1.ground")
    return d


def _set(d: Sheet, neutral: str, length: str) -> None:
    """A set with an outlet of 30 A, its cord into an inlet."""
    d.part("generator", "G1", power="3.6 kVA", neutral=neutral, bond_allowed="yes")
    d.breaker("QF9", "G1", "1", 30)
    d.part("outlet", "XD9", configuration="L5-30")
    d.seat("XD9", "QF9", "load")
    d.part("plug", "XP1", configuration="L5-30")
    d.seat("XP1", "XD9", "face")
    d.part("inlet", "XI1", configuration="L5-30", expects=neutral)
    d.wire("XP1.cord", "XI1.outside", "10 AWG", length, installation="cord")


def _board(d: Sheet, feed: str) -> None:
    """A board of 30 A with an outlet and a lamp."""
    d.part("panel", "QP1", main="30 A", bus="60 A", bond="absent", places="4")
    d.wire(feed, "QP1.feed", "10 AWG", "6 ft")
    d.breaker("QF1", "QP1", "1", 20, ground_fault="class_a")
    d.breaker("QF2", "QP1", "2", 15)
    d.part("outlet", "XD1", configuration="5-20")
    d.wire("QF1.load", "XD1.feed", "12 AWG", "10 ft")
    d.part("lamp", "EL1", power="60 W")
    d.wire("QF2.load", "EL1.in", "14 AWG", "12 ft")


def _chassis(d: Sheet, *grounds: str) -> None:
    d.part("body", "XB1", name="chassis")
    for ground in grounds:
        d.wire(ground, "XB1.tie", "8 AWG", "3 ft", installation="jumper")


def _shore(d: Sheet) -> None:
    """A pedestal of 30 A, the cord, the inlet."""
    d.part("supply", "GS1", breaker="30 A", prospective=Band("500 A", "1.5 kA", "4 kA"))
    d.part("outlet", "XD9", configuration="TT-30")
    d.seat("XD9", "GS1", "1")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XD9", "face")
    d.part("inlet", "XI1", configuration="TT-30")
    d.wire("XP1.cord", "XI1.outside", "10 AWG", "25 ft", installation="cord")


def shore_with_bank() -> Sheet:
    """Shore power, an inverter-charger and a lithium bank of 12 V: one board for both."""
    d = Sheet(place="recreational", sheet="A3")
    _shore(d)
    d.part("inverter_charger", "TB1", power="1000 VA", dc_voltage="12 V", charge="50 A")
    d.rate("TB1", transfer="30 A", neutral="relay", bond_allowed="no", neutral_through="switched")
    d.wire("XI1.inside", "TB1.ac_in", "10 AWG", "6 ft")
    _board(d, "TB1.ac_out")
    _bank(d, 200, 150, "1/0 AWG")
    d.wire("WC1.1", "TB1.dc", "1/0 AWG", "4 ft", "+", **LEAD)
    d.wire("WC2.1", "TB1.dc", "1/0 AWG", "4 ft", "-", **LEAD)
    _small_board(d)
    _chassis(d, "QP1.ground")
    d.wire("WC2.4", "XB1.tie", "1/0 AWG", "2 ft", "->body", installation="jumper")
    d.wire("TB1.case", "XB1.tie", "1/0 AWG", "3 ft", installation="jumper")
    return d


def _bank(d: Sheet, hours: int, fuse: int, size: str, chemistry: str = "lithium") -> None:
    """A battery, its fuse and switch, a bar for plus and one for minus."""
    kiloamps = Band("2.5 kA", "3.75 kA", "5 kA") if chemistry == "lithium" else None
    more: dict[str, Answer] = {"fault_current": kiloamps} if kiloamps else {}
    d.part("battery", "GB1", voltage="12 V", capacity=f"{hours} Ah", chemistry=chemistry, **more)
    d.class_t("F1", fuse)
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="32 V")
    d.part("busbar", "WC1", bar="plus", rating="200 A", taps="4")
    d.part("busbar", "WC2", bar="minus", rating="200 A", taps="6")
    d.wire("GB1.dc", "F1.line", size, "0.5 ft", "+", **LEAD)
    d.wire("F1.load", "QB1.line", size, "1 ft", "+", **LEAD)
    d.wire("QB1.load", "WC1.feed", size, "1 ft", "+", **LEAD)
    d.wire("GB1.dc", "WC2.feed", size, "2 ft", "-", **LEAD)


def _small_board(d: Sheet) -> None:
    """A board of 12 V behind a fuse, with two circuits."""
    d.class_t("F2", 30)
    d.wire("WC1.2", "F2.line", "10 AWG", "0.5 ft", "+")
    d.part("panel", "QP2", bus="60 A", places="4", bond="absent", **DC12)
    d.wire("F2.load", "QP2.feed", "10 AWG", "12 ft", "+")
    d.wire("WC2.2", "QP2.feed", "10 AWG", "12 ft", "-")
    d.blade("F3", "QP2", "1", 5)
    d.blade("F4", "QP2", "2", 10)
    d.part("lamp", "EL9", power="20 W", **DC12)
    d.part("motor", "MA1", power="60 W", **DC12)
    d.wire("F3.load", "EL9.in", "14 AWG", "8 ft")
    d.wire("F4.load", "MA1.in", "14 AWG", "8 ft")


def low_voltage() -> Sheet:
    """A battery of 12 V, a solar array, a board of 12 V: no mains at all."""
    d = Sheet(place="vehicle", sheet="A3")
    _bank(d, 100, 100, "2 AWG")
    _small_board(d)
    d.part("solar_array", "GP1", voc="24 V", isc="6 A", vmp="20 V", imp="5.6 A")
    d.rate("GP1", voc_per_degree="-0.3 %", series="1", strings="1", coldest="-25 degC")
    marked = {"voltage": "150 V", "direct": "yes", "poles": "all", "rating": "16 A"}
    d.part("isolator", "QB9", circuit="dc", **marked)
    d.part("solar_controller", "TC1", current="10 A", dc_voltage="12 V", type="mppt")
    d.rate("TC1", pv_voltage="100 V", pv_current="20 A")
    d.class_t("F9", 15)
    sun = {"insulation": "90", "ambient": "50 degC"}
    d.wire("GP1.dc", "QB9.line", "10 AWG", "12 ft", **sun)
    d.wire("QB9.load", "TC1.pv", "10 AWG", "3 ft", **sun)
    d.wire("TC1.dc", "F9.load", "10 AWG", "3 ft", "+")
    d.wire("F9.line", "WC1.3", "10 AWG", "0.5 ft", "+")
    d.wire("TC1.dc", "WC2.3", "10 AWG", "3 ft", "-")
    _chassis(d)
    d.wire("WC2.4", "XB1.tie", "2 AWG", "2 ft", "->body", installation="jumper")
    d.wire("TC1.case", "XB1.tie", "8 AWG", "3 ft", installation="jumper")
    d.wire("GP1.frame", "TC1.case", "8 AWG", "14 ft", installation="jumper")
    return d


def cabin_with_set() -> Sheet:
    """A cabin: a set outdoors, an inverter-charger on a bank of 48 V, one board, rods."""
    d = Sheet(place="building", sheet="A3")
    _set(d, "floating", "30 ft")
    d.part("inverter_charger", "TB1", power="3 kVA", dc_voltage="48 V", charge="30 A")
    d.rate("TB1", transfer="30 A", neutral="floating", bond_allowed="yes")
    d.rate("TB1", neutral_through="common")
    d.wire("XI1.inside", "TB1.ac_in", "10 AWG", "10 ft")
    d.part("panel", "QP1", main="30 A", bus="100 A", bond="fitted", places="6", lived_in="no")
    d.wire("TB1.ac_out", "QP1.feed", "10 AWG", "6 ft")
    d.part("electrode", "XE1", resistance="25 ohm")
    d.wire("QP1.ground", "XE1.ground", "6 AWG", "10 ft", installation="jumper")
    d.breaker("QF1", "QP1", "1", 20, ground_fault="class_a")
    d.part("outlet", "XD1", configuration="5-20", area="kitchen")
    d.wire("QF1.load", "XD1.feed", "12 AWG", "20 ft")
    d.breaker("QF2", "QP1", "2", 15)
    d.part("lamp", "EL1", power="100 W")
    d.wire("QF2.load", "EL1.in", "14 AWG", "30 ft")
    kiloamps = Band("2 kA", "3 kA", "4 kA")
    d.part("battery", "GB1", voltage="48 V", capacity="100 Ah", chemistry="lithium")
    d.rate("GB1", fault_current=kiloamps)
    d.class_t("F1", 125)
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="80 V")
    d.wire("GB1.dc", "F1.line", "1 AWG", "0.5 ft", "+", **LEAD)
    d.wire("F1.load", "QB1.line", "1 AWG", "1 ft", "+", **LEAD)
    d.wire("QB1.load", "TB1.dc", "1 AWG", "4 ft", "+", **LEAD)
    d.wire("GB1.dc", "TB1.dc", "1 AWG", "5 ft", "-", **LEAD)
    return d


def boat() -> Sheet:
    """A boat: shore power behind a leakage breaker, a charger, a bank and a board of 12 V."""
    d = Sheet(place="boat", sheet="A3")
    d.part("supply", "GS1", breaker="30 A", prospective=Band("500 A", "1.5 kA", "4 kA"))
    d.part("outlet", "XD9", configuration="L5-30")
    d.seat("XD9", "GS1", "1")
    d.part("plug", "XP1", configuration="L5-30")
    d.seat("XP1", "XD9", "face")
    d.part("inlet", "XI1", configuration="L5-30")
    d.wire("XP1.cord", "XI1.outside", "10 AWG", "50 ft", installation="cord")
    d.part("breaker", "QF10", rating="30 A", poles="all", ground_fault="rcd_30")
    d.rate("QF10", interrupting="5 kA")
    d.wire("XI1.inside", "QF10.line", "10 AWG", "5 ft")
    d.part("panel", "QP1", bus="60 A", bond="absent", places="4")
    d.wire("QF10.load", "QP1.feed", "10 AWG", "3 ft")
    d.breaker("QF1", "QP1", "1", 20)
    d.breaker("QF2", "QP1", "2", 20, ground_fault="class_a")
    d.part("charger", "TB1", current="30 A", dc_voltage="12 V")
    d.wire("QF1.load", "TB1.ac_in", "12 AWG", "10 ft")
    d.part("outlet", "XD1", configuration="5-20", area="kitchen")
    d.wire("QF2.load", "XD1.feed", "12 AWG", "14 ft")
    _bank(d, 100, 100, "2 AWG", "agm")
    d.rate("GB1", fault_current=Band("1.5 kA", "2.2 kA", "3 kA"))
    d.class_t("F5", 40)
    d.wire("WC1.3", "F5.line", "8 AWG", "0.5 ft", "+")
    d.wire("F5.load", "TB1.dc", "8 AWG", "5 ft", "+")
    d.wire("WC2.3", "TB1.dc", "8 AWG", "5 ft", "-")
    _small_board(d)
    d.part("body", "XB1", name="engine")
    d.wire("WC2.4", "XB1.tie", "2 AWG", "3 ft", "->body", installation="jumper")
    d.wire("QP1.ground", "XB1.tie", "8 AWG", "5 ft", installation="jumper")
    d.wire("TB1.case", "XB1.tie", "8 AWG", "5 ft", installation="jumper")
    d.part("electrode", "XE1", resistance="5 ohm")
    d.wire("XB1.tie", "XE1.ground", "8 AWG", "3 ft", "body>PE", installation="jumper")
    return d


BEGINNINGS: dict[str, Callable[[], Sheet]] = {
    "na-portable": set_with_inlet,
    "na-shore": shore_with_bank,
    "na-direct": low_voltage,
    "na-cabin": cabin_with_set,
    "na-boat": boat,
}
"""By the names of their files."""


def main() -> None:
    """Write all of them, laid out."""
    FOLDER.mkdir(exist_ok=True)
    for name, make in BEGINNINGS.items():
        save(lay_out(make().design), FOLDER / f"{name}.linework")


if __name__ == "__main__":
    main()
