# Think I have a bad 6000XP (page 3),
# https://diysolarforum.com/threads/think-i-have-a-bad-eg4-6000xp.77500/page-3
"""An array on the ground 150 ft from the house: a rod of its own, no ground wire back.

The hybrid inverter is drawn as what it holds: a charge controller and an inverter on one bank.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import branch, inverter


def drawn(tied: bool = False) -> Draft:
    d = Draft(place="building")
    inverter(d, "6 kVA", "floating", circuit="split", bond_allowed="yes")
    d.part("solar_controller", "TC1", dc_voltage="48 V", current="100 A", pv_voltage="500 V")
    d.part("fuse", "F2", rating="125 A", type="class_t", interrupting="20 kA")
    lead = {"size": "1/0 AWG", "terminals": "75", "insulation": "90"}
    d.run("QB1.load", "F2.line", "dc4", length="0.5 ft", **lead)
    d.run("F2.load", "TC1.dc", "dc5", length="3 ft", **lead)
    d.part("solar_array", "GP1", voc="49.5 V", isc="13 A", series="8", coldest="-10 degC")
    d.part("isolator", "QB2", circuit="dc", rating="32 A", voltage="600 V", direct="yes")
    d.run("GP1.dc", "QB2.line", "pv", size="10 AWG", length="150 ft", insulation="90")
    d.run("QB2.load", "TC1.pv", "pv2", size="10 AWG", length="3 ft", insulation="90")
    d.part("electrode", "XE2", "at the array")
    d.run("GP1.frame", "XE2.ground", "ga", size="6 AWG", length="6 ft", installation="jumper")
    d.part("panel", "QP1", "house", circuit="split", main="50 A", bond="fitted")
    d.run("TB1.ac_out", "QP1.feed", "a", size="6 AWG", length="10 ft")
    branch(d, "QP1", "1", "11", "1000 W")
    d.part("electrode", "XE1", "at the house")
    d.run("QP1.ground", "XE1.ground", "gh", size="6 AWG", length="10 ft", installation="jumper")
    d.run("QP1.ground", "TC1.case", "gi", size="8 AWG", length="6 ft", installation="jumper")
    if tied:
        d.run("GP1.frame", "TC1.case", "e", size="6 AWG", length="150 ft", installation="jumper")
    return d


CASE = Case(
    "grounding",
    "fault",
    drawn,
    expected=(
        Expected("ELECTRODE_NOT_TIED", "warning danger", at="XE2"),
        Expected("EGC_OPEN", "warning danger", at="GP1 TC1 pv"),
    ),
    never=(Never("ELECTRODE_MISSING"),),
)


def test_the_rod_and_the_frames_are_found() -> None:
    CASE.holds()
