"""A device smaller than what it carries."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import PLATE, van
from tests.findings.camps import camp, house, levels
from tests.findings.told import cured, found, gaps, number, places

RULE = "device-below-load"
MARKED = {"voltage": "600 V"}


def test_a_load_beyond_its_breaker() -> None:
    draft = house()
    draft.rate("EA1", power="2700 W")  # 22.5 A on 20 A
    assert levels(draft, RULE) == {("QF1",): Level.WARNING}
    assert number(found(draft, RULE)[0], "rated") == 20.0
    assert number(found(draft, RULE)[0], "current") > 20.0


def test_at_its_rating_it_carries() -> None:
    # boundary: 210.20(B) lets a load that does not run for hours have the whole rating
    draft = house()
    draft.rate("EA1", power="2400 W")
    assert found(draft, RULE) == []


def test_a_larger_breaker_where_the_wire_allows_it() -> None:
    draft = house()
    draft.rate("EA1", power="2700 W")
    draft.rate_run("W2", size="10 AWG")
    assert cured(draft, found(draft, RULE)[0]).silent


def test_none_is_proposed_where_it_does_not() -> None:
    draft = house()
    draft.rate("EA1", power="2700 W")
    assert found(draft, RULE)[0].mend is None


def test_the_breaker_of_an_overloaded_set_is_its_consequence() -> None:
    draft = camp(breaker="20 A", power="2.4 kVA")
    draft.rate("EA1", power="2600 W")
    (cause,) = found(draft, "source-overloaded")
    assert (RULE, ("G1",)) in {(c.rule, c.where) for c in cause.consequences}


def test_a_load_of_unknown_power_is_not_judged_but_told() -> None:
    draft = house()
    draft.rate("EA1", power=None)
    assert found(draft, RULE) == []
    assert gaps(draft, "value-missing") != []


@pytest.mark.parametrize(("rating", "told"), [("10 A", False), ("9 A", True)])
def test_a_fuse_of_a_solar_array(rating: str, told: bool) -> None:
    """NFPA 70 690.8, 690.9(B): 156 % of 6 A are 9.4 A."""
    draft = van()
    draft.part("fuse", "F9", rating=rating, type="class_t")
    draft.cut("W1")
    draft.run("GP1.dc", "F9.line", "W1", size="10 AWG", length="1 ft")
    draft.run("F9.load", "QB2.line", "W31", size="10 AWG", length="9 ft")
    assert places(draft, RULE) == ({("F9",)} if told else set())


@pytest.mark.parametrize(("rating", "told"), [("25 A", False), ("20 A", True)])
def test_the_fuse_at_the_output_of_a_controller(rating: str, told: bool) -> None:
    """125 % of 20 A that flow for hours (NFPA 70 690.8(B))."""
    draft = van()
    draft.rate("F2", rating=rating)
    assert places(draft, RULE) == ({("F2",)} if told else set())
    if told:
        (hit,) = found(draft, RULE)
        assert hit.mend is not None
        cured(draft, hit)


@pytest.mark.parametrize(("watts", "told"), [("1920 W", False), ("1950 W", True)])
def test_what_reads_as_its_rating_is_within_it(watts: str, told: bool) -> None:
    """An electronic load of 16.0 A by its plate takes a thousandth more where the wire loses as
    much: 16.0 A on 16 A would be told as too much."""
    draft = house()
    draft.remove("EA1")
    draft.part("electronic_load", "EE1", power=watts, power_factor="1")
    draft.run("QF1.load", "EE1.in", "W2", size="10 AWG", length="1 ft")
    draft.rate("QF1", rating="16 A")
    draft.rate("GS1", prospective="100 kA")
    assert bool(found(draft, RULE)) is told


def side_by_side(common: str, fuse: str = "15 A") -> Draft:
    """Two strings of 6 A and one of 9 A, each behind a fuse, on one breaker before a controller."""
    draft = van()
    draft.cut("W1")
    draft.part("breaker", "QF8", circuit="dc", rating=common, voltage="150 V", direct="yes")
    draft.run("QF8.load", "QB2.line", "C1", size="8 AWG", length="1 ft")
    for n, isc in ((1, "6 A"), (2, "6 A"), (3, "9 A")):
        if n > 1:
            draft.part("solar_array", f"GP{n}", **PLATE, series="2")
        draft.rate(f"GP{n}", isc=isc)
        draft.part("fuse", f"F{n}0", rating=fuse if n == 3 else "10 A", type="class_cc", **MARKED)
        draft.run(f"GP{n}.dc", f"F{n}0.line", f"P{n}", poles="+", size="10 AWG", length="9 ft")
        draft.run(f"F{n}0.load", "QF8.line", f"Q{n}", poles="+", size="10 AWG", length="1 ft")
        draft.run(f"GP{n}.dc", "QF8.line", f"M{n}", poles="-", size="10 AWG", length="9 ft")
    return draft


@pytest.mark.parametrize(
    ("common", "fuse", "told"),
    [
        # NFPA 70 690.8, 690.9(B): 156 % of 21 A are 32.8 A for the breaker that all come through,
        # of 6 A 9.4 A and of 9 A 14.1 A for the fuse of each
        ("35 A", "15 A", set()),
        ("30 A", "15 A", {("QF8",)}),
        ("35 A", "10 A", {("F30",)}),
    ],
)
def test_several_arrays_on_one_controller(common: str, fuse: str, told: set[tuple[str]]) -> None:
    assert places(side_by_side(common, fuse), RULE) == told
