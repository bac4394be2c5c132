# Bow Thruster Cables, http://www.boatdesign.net/forums/archive/t-34829.html
"""A thruster of 2 kW on 1/0 AWG where its maker asks for 2/0.

10.75 x 167 A x 65 ft / 105600 cmil is 1.10 V, 9.2 % of 12 V.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never


def drawn(size: str = "1/0 AWG", length: str = "32.5 ft", amps: float = 2000 / 12) -> Draft:
    d = Draft(place="boat")
    d.part("battery", "GB1", voltage="12 V", capacity="150 Ah", chemistry="flooded")
    d.part("fuse", "F1", rating="250 A", type="anl")
    d.seat("F1", "GB1", "post")
    d.part("motor", "MA1", "thruster", circuit="dc", duty="brief", power=f"{amps * 12:g} W")
    d.run("F1.load", "MA1.in", "p", poles="+", size=size, length=length)
    d.run("GB1.dc", "MA1.in", "n", poles="-", size=size, length=length)
    return d


CASE = Case(
    "voltage-drop",
    "fine",
    drawn,
    expected=(Expected("MAKER_SIZE", "note", "p n"),),
    never=(Never("VDROP_HIGH"), Never("CONDUCTOR_OVERLOAD"), Never("OCPD_OVER_CONDUCTOR")),
    surprising=True,
    scope=("voltage-drop",),
)


def test_it_is_within_ten_percent() -> None:
    CASE.holds()
