# The 7-Inch Rule: The Battery Fuse Finding I See on Almost Every Survey,
# https://www.datroymarinesurveying.com/blog-2-1/
"""A boat's house bank whose plus runs without a fuse through a switch to the board's breaker."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="boat")
    d.part("battery", "GB1", voltage="12 V", capacity="200 Ah")
    d.part("battery_disconnect", "QB1", rating="200 A")
    d.part("panel", "QP1", circuit="dc", main="100 A")
    d.run("GB1.dc", "QB1.line", "a", poles="+", size="2 AWG", length="6 ft", insulation="105")
    d.run("QB1.load", "QP1.feed", "b", poles="+", size="2 AWG", length="8 ft", insulation="105")
    d.run("GB1.dc", "QP1.feed", "n", poles="-", size="2 AWG", length="10 ft", insulation="105")
    return d


CASE = Case(
    "dc",
    "fault",
    drawn,
    expected=(
        Expected(
            "OCPD_POSITION",
            "danger warning",
            at="a",
            number=Number(7 * 0.0254, 0.001, evidence("allowed")),
        ),
    ),
    never=(Never("OCPD_OVER_CONDUCTOR"),),
    scope=("dc",),
)


def test_the_first_device_is_too_far_from_the_battery() -> None:
    CASE.holds()
