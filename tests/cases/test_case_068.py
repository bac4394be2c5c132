# 630.12 over current protection for welders,
# https://forums.mikeholt.com/threads/630-12-over-current-protection-for-welders.2559497
"""A welder of 50 A and 20 % duty on 10 AWG NM behind 50 A.

Its effective current, 50 A x 0.45, is given as on its plate; that is less than it takes, so that it
works by turns. That nothing else may use the outlet is told beside what is sound.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import service
from tests.findings.told import praise


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", circuit="ac240", rating="50 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", circuit="ac240", configuration="6-50")
    d.run("QF1.load", "XD1.feed", "w", size="10 AWG", length="50 ft", insulation="90")
    d.part(
        "plug_load",
        "EP1",
        "welder",
        circuit="ac240",
        power="12 kW",
        least_ampacity="22.5 A",
        configuration="6-50",
    )
    d.seat("EP1", "XD1", "face")
    return d


CASE = Case(
    "overcurrent",
    "fine",
    drawn,
    expected=(Expected("DEDICATED_USE", "note", at="XD1"),),
    never=(Never("OCPD_OVER_CONDUCTOR"),),
    surprising=True,
    scope=("overcurrent",),
)


def test_it_is_sound() -> None:
    CASE.holds()


def test_it_is_said_that_this_holds_for_the_welder_alone() -> None:
    said = [item.message for item in praise(drawn(), "device-above-ampacity")]
    assert any("as long as nothing but the welder EP1 is fed by it" in text for text in said)
