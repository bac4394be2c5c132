# Getting It Right, http://www.powerandmotoryacht.com/node/160165
"""A 1,000 W inverter on a boat: 4 AWG by voltage drop, 175 A fuse by its maker.

The insulation is not told; 90 degrees is what the cable's 135 A belong to.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never


def drawn() -> Draft:
    d = Draft(place="boat")
    d.part("battery", "GB1", voltage="12 V", capacity="200 Ah", fault_current="4 kA")
    d.part("fuse", "F1", rating="175 A", type="class_t", interrupting="20 kA")
    d.part("inverter", "TB1", power="1 kVA", dc_voltage="12 V", neutral="floating")
    lead = {"size": "4 AWG", "insulation": "90", "terminals": "90"}
    d.run("GB1.dc", "F1.line", "a", poles="+", length="0.4 ft", **lead)
    d.run("F1.load", "TB1.dc", "b", poles="+", length="3 ft", **lead)
    d.run("GB1.dc", "TB1.dc", "n", poles="-", length="3.5 ft", **lead)
    return d


CASE = Case(
    "dc",
    "fault",
    drawn,
    expected=(Expected("OCPD_OVER_CONDUCTOR", "warning danger note", at="b"),),
    never=(Never("VDROP_HIGH"), Never("OCPD_POSITION"), Never("OCPD_MISSING")),
    surprising=True,
    scope=("dc",),
    doubtful=True,
)


def test_the_fuse_is_above_the_cable() -> None:
    CASE.holds()
