# calculating wall heater loads,
# https://forums.mikeholt.com/threads/calculating-wall-heater-loads.100953/
"""Fixed wall heaters of 4,800 W at 240 V on a 20 A circuit."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import service
from tests.cases.judged import Judged


def drawn(watts: str = "4800 W") -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", circuit="ac240", rating="20 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("heater", "EH1", circuit="ac240", power=watts)
    d.run("QF1.load", "EH1.in", "w", size="12 AWG", length="50 ft")
    return d


CASE = Case(
    "overcurrent",
    "fault",
    drawn,
    expected=(Expected("CONTINUOUS_OVERLOAD", "warning danger", at="QF1 QP1 w"),),
    never=(Never("OCPD_OVER_CONDUCTOR"), Never("VDROP_HIGH", up_to=Level.NOTE)),
    scope=("overcurrent",),
)


def test_it_is_more_than_a_circuit_may_carry_for_hours() -> None:
    CASE.holds()


def test_3840_w_are_the_most_and_ten_more_are_too_much() -> None:
    # 80 % of 20 A at 240 V; the drop on the way takes a little of a heater's current away.
    Judged(drawn("3840 W")).lacks("CONTINUOUS_OVERLOAD")
    assert Judged(drawn("3850 W")).said("CONTINUOUS_OVERLOAD")
