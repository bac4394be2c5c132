# Help me not burn my truck down,
# https://forum.expeditionportal.com/threads/help-me-not-burn-my-truck-down.248842/post-3226349
"""A 12 V lithium pack with a terminal fuse of 10 kA.

Four cells of 3.5 V and 0.75 mohm with three links of 0.25 mohm: 14 V / 3.75 mohm, 3733 A.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never


def drawn() -> Draft:
    d = Draft(place="vehicle")
    d.part("battery", "GB1", voltage="12.8 V", capacity="60 Ah", fault_current="3733 A")
    d.part("fuse", "F1", rating="150 A", type="mrbf", interrupting="10 kA", voltage="32 V")
    d.seat("F1", "GB1", "post")
    d.part("busbar", "WC1", bar="plus", rating="150 A")
    d.part("busbar", "WC2", bar="minus", rating="150 A")
    d.run("F1.load", "WC1.feed", "b", poles="+", size="2/0 AWG", length="3 ft")
    d.run("GB1.dc", "WC2.feed", "n", poles="-", size="2/0 AWG", length="3 ft")
    d.part("load", "EA1", circuit="dc", power="500 W")
    d.part("fuse", "F2", rating="60 A", type="anl", interrupting="6 kA")
    lead = {"size": "4 AWG", "length": "1 ft"}
    d.run("WC1.1", "F2.line", "c", poles="+", **lead)
    d.run("F2.load", "EA1.in", "p", poles="+", size="6 AWG", length="6 ft")
    d.run("WC2.1", "EA1.in", "m", poles="-", size="6 AWG", length="6 ft")
    return d


CASE = Case(
    "dc",
    "fine",
    drawn,
    never=(Never("OCPD_INTERRUPT_LOW", at="F1"), Never("OCPD_POSITION")),
    surprising=True,
    scope=("dc",),
)


def test_it_is_sound() -> None:
    CASE.holds()
