# 15 amps or 20 amp breaker, https://www.joshthesparky.com/sparkys-journal/15-amps-or-20-amp-breaker
"""A heater, a microwave oven and lights, 1,800 W in all, on one 20 A circuit for hours."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import service


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", rating="20 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("junction_box", "XJ1")
    d.run("QF1.load", "XJ1.a", "w", size="12 AWG", length="50 ft")
    for n, (title, watts) in enumerate(
        (("heater", "900 W"), ("microwave", "600 W"), ("lights", "300 W")), 1
    ):
        d.part("load", f"EA{n}", title, power=watts, continuous="yes")
        d.run("XJ1.b", f"EA{n}.in", f"w{n}", size="12 AWG", length="3 ft")
    return d


CASE = Case(
    "overcurrent",
    "fine",
    drawn,
    expected=(Expected("HEADROOM_SMALL", "note", at="w"),),
    never=(Never("CONTINUOUS_OVERLOAD"), Never("OCPD_OVER_CONDUCTOR")),
    scope=("overcurrent",),
)


def test_it_is_sound() -> None:
    CASE.holds()
