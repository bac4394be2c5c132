# Designing a Solar Array Around Worst-Case Conditions (final design),
# https://r.arson.gg/r/SolarAmerica/comments/1rcph98/
"""Nine modules instead of ten in one string, at freezing point."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import solar_input


def drawn() -> Draft:
    d = Draft(place="building")
    solar_input(d, series="9")
    return d


CASE = Case(
    "pv",
    "fine",
    drawn,
    never=(Never("PV_VOC_HIGH"), Never("PV_STRING_FUSE")),
    scope=("pv",),
)


def test_it_is_sound() -> None:
    CASE.holds()
