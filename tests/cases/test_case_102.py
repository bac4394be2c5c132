# RVelectricity - J.A.M.: Avoid dangerous 15-amp outlet overload,
# https://www.rvtravel.com/rv-electricity-jam-15-amp-outlet-overload/
"""Two 15 A duplex outlets on a post, wired to a 30 A breaker."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", breaker="60 A", prospective="4 kA")
    d.part("panel", "QP1", circuit="split", bus="100 A", bond="absent")
    d.run("GS1.out", "QP1.feed", "f", size="6 AWG", length="100 ft")
    d.part("breaker", "QF1", rating="30 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    for name in ("XD1", "XD2"):
        d.part("outlet", name, configuration="5-15", area="outside")
    d.run("QF1.load", "XD1.feed", "a", size="10 AWG", length="6 ft")
    d.run("XD1.onward", "XD2.feed", "b", size="10 AWG", length="2 ft")
    d.part("plug_load", "EP1", "trailer", power="3000 W", configuration="5-15")
    d.seat("EP1", "XD1", "face")
    return d


CASE = Case(
    "overcurrent",
    "fault",
    drawn,
    expected=(
        Expected(
            "OUTLET_UNDER_OCPD",
            "danger",
            "XD1 XD2",
            number=Number(30.0, 0.0, evidence("rating of the device")),
        ),
        Expected("GFCI_ABSENT", "warning danger note", "XD1 XD2"),
    ),
    never=(Never("OCPD_OVER_CONDUCTOR"), Never("NG_BOND_MULTIPLE")),
    scope=("overcurrent", "gfci"),
)


def test_it_is_told() -> None:
    CASE.holds()
