# The Masthead, Know It All solution, http://www.westlawn.edu/news/Masthead23/
"""A stronger bow thruster, 290 A, on 1 AWG cables of 105 degrees.

10.75 x 290 A x 33.66 ft / 83690 cmil is 1.25 V; 1 AWG carries 245 A.
"""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.judged import Judged
from tests.cases.reading import evidence


def drawn(amps: float = 290.0) -> Draft:
    d = Draft(place="boat")
    d.part("battery", "GB1", voltage="12 V", capacity="200 Ah", chemistry="flooded")
    d.part("fuse", "F1", "assumed", rating="300 A", type="anl")
    d.seat("F1", "GB1", "post")
    d.part("motor", "MA1", "thruster", circuit="dc", duty="brief", power=f"{amps * 12:g} W")
    lead = {"size": "1 AWG", "insulation": "105", "length": "16.83 ft"}
    d.run("F1.load", "MA1.in", "p", poles="+", **lead)
    d.run("GB1.dc", "MA1.in", "n", poles="-", **lead)
    return d


CASE = Case(
    "voltage-drop",
    "fault",
    drawn,
    expected=(
        Expected(
            "VDROP_HIGH",
            "warning",
            "p n",
            number=Number(
                1.25,
                0.25,
                lambda judged, finding: 12.0 * evidence("voltage drop")(judged, finding),
            ),
        ),
        Expected(
            "CONDUCTOR_OVERLOAD",
            "warning danger note",
            "p n",
            number=Number(245.0, 5.0, evidence("ampacity as installed")),
        ),
    ),
    never=(Never("OCPD_MISSING", up_to=Level.NOTE),),
    scope=("voltage-drop", "overcurrent"),
)


def test_the_cables_are_too_thin() -> None:
    CASE.holds()


def test_the_old_motor_was_within_both() -> None:
    Judged(drawn(205.0)).lacks("VDROP_HIGH", "CONDUCTOR_OVERLOAD")
