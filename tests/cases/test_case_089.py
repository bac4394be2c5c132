# Generator L14-30R neutral breaker violation per NEC 240.22, industrialmonitordirect.com
"""A generator outlet with one breaker, in its neutral."""

from __future__ import annotations

import pytest

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.judged import Judged
from tests.cases.reading import amps


def drawn() -> Draft:
    d = Draft(place="field")
    d.part("generator", "G1", circuit="split", power="7.2 kVA", neutral="floating")
    d.part("breaker", "QF1", "in the neutral", circuit="split", rating="30 A", poles="neutral")
    d.seat("QF1", "G1", "1")
    d.part("outlet", "XD1", circuit="split", configuration="L14-30")
    d.seat("XD1", "QF1", "load")
    d.part("plug", "XP1", circuit="split", configuration="L14-30")
    d.seat("XP1", "XD1", "face")
    d.part("junction_box", "XJ1", "loads", circuit="split")
    cord = {"size": "10 AWG", "installation": "cord", "length": "25 ft"}
    d.run("XP1.cord", "XJ1.a", "c", **cord)
    # a balanced load of 40 A on each leg
    for name, line, side in (("EA1", "L1", "b"), ("EA2", "L2", "c")):
        d.part("load", name, power="4800 W")
        d.run(f"XJ1.{side}", f"{name}.in", f"m{name}", poles=f"{line}>L N PE", **cord)
    return d


CASE = Case(
    "overcurrent",
    "fault",
    drawn,
    expected=(
        Expected("OCPD_IN_NEUTRAL", "danger", "G1 QF1"),
        Expected(
            "OCPD_MISSING",
            "danger",
            "G1 c XD1",
            number=Number(0.0, 1.0, lambda judged, _: amps(judged, "G1=running XP1=XD1", "c", "N")),
        ),
    ),
    never=(Never("NEUTRAL_OVERLOAD"),),
    surprising=True,
    scope=("overcurrent",),
)


def test_it_is_told() -> None:
    CASE.holds()


def test_a_balanced_load_puts_nothing_in_the_neutral() -> None:
    judged = Judged(drawn())
    assert amps(judged, "G1=running XP1=XD1", "c", "N") == pytest.approx(0.0, abs=0.1)
