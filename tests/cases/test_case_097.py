# 110 volt site transformer questions,
# https://www.homeownershub.com/uk-diy/110-volt-site-transformer-questions-257719-.htm
"""A transformer for tools whose secondary has its middle on earth: 55 V on either pin."""

from __future__ import annotations

import pytest

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.judged import Judged


def drawn() -> Draft:
    d = Draft(place="field", family="INT")
    d.part("supply", "GS1", voltage="230 V", breaker="16 A", prospective="1 kA", outage="no")
    d.part(
        "transformer",
        "TA1",
        voltage="230 V",
        secondary="ac240",
        secondary_voltage="110 V",
        power="1 kVA",
        neutral="bonded",
        breaker="10 A",
    )
    d.run("GS1.out", "TA1.primary", "p", size="1.5 mm2", length="5 m", installation="cord")
    d.part("load", "EA1", "drill", circuit="ac240", voltage="110 V", power="800 W")
    d.run("TA1.secondary", "EA1.in", "s", size="2.5 mm2", length="15 m", installation="cord")
    return d


CASE = Case(
    "bonding",
    "fine",
    drawn,
    never=(Never("NEUTRAL_ABSENT"), Never("NG_BOND_MISSING"), Never("POLARITY_REVERSED")),
    surprising=True,
    scope=("bonding", "overcurrent"),
)


def test_half_the_voltage_on_each_pin_is_right() -> None:
    CASE.holds()
    report = Judged(drawn()).report()
    volts = [x.volts for x in report.loads if x.part == "EA1"]
    assert volts == pytest.approx([110.0], abs=5.0)
