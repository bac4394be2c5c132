# RV Electricity - Possible tester failure on 30-amp outlets,
# https://www.rvtravel.com/rv-electricity-possible-tester-failure-on-30-amp-outlets/
"""A home outlet for a vehicle with a hot on both blades."""

from __future__ import annotations

import pytest

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import service
from tests.cases.judged import Judged
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", circuit="ac240", rating="30 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", configuration="TT-30")
    d.run("QF1.load", "XD1.feed", "w", poles="L1>L L2>N PE", size="10 AWG", length="60 ft")
    d.part("adapter", "XA1", configuration="TT-30", connector="5-15")
    d.seat("XA1", "XD1", "face")
    return d


CASE = Case(
    "plugs",
    "fault",
    drawn,
    expected=(
        Expected(
            "VOLTAGE_WRONG",
            "danger",
            at="XD1",
            number=Number(240.0, 12.0, evidence("voltage between its contacts")),
        ),
        Expected("NEUTRAL_ABSENT", "danger warning", at="w"),
    ),
    never=(Never("POLARITY_REVERSED"),),
    surprising=True,
)


def test_twice_the_voltage_is_the_finding_and_not_an_exchange() -> None:
    CASE.holds()


def test_a_meter_tells_it() -> None:
    reading = next(x for x in Judged(drawn()).report("GS1=live").readings if x.owner == "XD1")
    assert reading.picture == "too_high"
    assert reading.meter_v[0] == pytest.approx(240.0, abs=12.0)
