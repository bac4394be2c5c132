# Will an existing 10-3 w/ground electrical wire handle a 50 amp 220 volt welder,
# https://life-improver.com/diy/electrical-will-an-existing-10-3-w-ground-electrical-wire-handle-a-50-amp-220-volt-welder
"""A garage board fed by 10 AWG behind 60 A; a welder of 50 A, 20 % duty, on 10 AWG behind 50 A.

A welder is a load whose plate gives an effective current below what it takes: 50 A x 0.45.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import branch, service
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", circuit="split", rating="60 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("panel", "QP2", "garage", circuit="split", bond="absent")
    d.run("QF1.load", "QP2.feed", "f", size="10 AWG", length="60 ft")
    d.part("breaker", "QF2", circuit="ac240", rating="50 A", interrupting="10 kA")
    d.seat("QF2", "QP2", "1")
    d.part("load", "EA1", "welder", circuit="ac240", power="12 kW", least_ampacity="22.5 A")
    d.run("QF2.load", "EA1.in", "w", size="10 AWG", length="40 ft")
    branch(d, "QP2", "2", "11", "600 W")
    branch(d, "QP2", "4", "12", "600 W")
    return d


CASE = Case(
    "overcurrent",
    "fault",
    drawn,
    expected=(
        Expected(
            "OCPD_OVER_CONDUCTOR",
            "danger",
            at="f",
            number=Number(30.0, 0.0, evidence("ampacity as installed")),
        ),
    ),
    never=(Never("OCPD_OVER_CONDUCTOR", at="w"), Never("NG_BOND_MULTIPLE")),
    scope=("overcurrent",),
)


def test_the_feeder_is_too_thin() -> None:
    CASE.holds()
