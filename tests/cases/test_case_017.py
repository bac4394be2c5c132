# Designing a Solar Array Around Worst-Case Conditions,
# https://r.arson.gg/r/SolarAmerica/comments/1rcph98/
"""Modules of 49.5 V in one string on an input of 500 V, at freezing point.

The hybrid inverter is drawn as the charge controller in it, and its bank.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import solar_input
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="building")
    solar_input(d, series="10")
    return d


CASE = Case(
    "pv",
    "fault",
    drawn,
    expected=(
        Expected(
            "PV_VOC_HIGH",
            "danger",
            at="GP1 TC1",
            number=Number(529.7, 5.0, evidence("open-circuit voltage on the coldest day")),
        ),
    ),
    never=(Never("PV_STRING_FUSE"),),
    scope=("pv",),
)


def test_ten_are_too_many() -> None:
    CASE.holds()
