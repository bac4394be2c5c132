"""A switch between an array and what takes its current (NFPA 70 690.13)."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import Answer
from tests.findings.banks import van
from tests.findings.told import cured, found, number

RULE = "solar-disconnect-missing"


def bare(**array: Answer) -> Draft:
    draft = van(**array)
    draft.remove("QB2")
    draft.run("GP1.dc", "TC1.pv", "W1", size="10 AWG", length="12 ft")
    return draft


def test_nothing_cuts_the_array_off() -> None:
    (hit,) = found(bare(), RULE)
    assert hit.subjects == ("GP1",)
    # By hand: 44 V times 1.135 at -20 C with -0.3 % a degree.
    assert number(hit, "open-circuit voltage on the coldest day") == pytest.approx(49.94)


def test_a_switch_does() -> None:
    assert found(van(), RULE) == []


def test_a_fuse_does_not_and_a_breaker_does() -> None:
    draft = bare()
    draft.cut("W1")
    draft.part("fuse", "F9", rating="15 A", type="class_t")
    draft.run("GP1.dc", "F9.line", "W1", size="10 AWG", length="6 ft")
    draft.run("F9.load", "TC1.pv", "W2", size="10 AWG", length="6 ft")
    assert len(found(draft, RULE)) == 1
    draft.remove("F9")
    draft.part("breaker", "QF9", circuit="dc", rating="15 A", direct="yes", voltage="150 V")
    draft.run("GP1.dc", "QF9.line", "W1", size="10 AWG", length="6 ft")
    draft.run("QF9.load", "TC1.pv", "W2", size="10 AWG", length="6 ft")
    assert found(draft, RULE) == []


def test_a_switch_beside_another_way_does_not() -> None:
    draft = van()
    draft.run("GP1.dc", "TC1.pv", "W30", size="10 AWG", length="12 ft")
    assert len(found(draft, RULE)) == 1


def test_the_mend_is_a_switch_that_stands_it() -> None:
    draft = bare()
    (hit,) = found(draft, RULE)
    assert hit.mend is not None
    assert hit.mend.title == "Put a switch of 16 A and 60 V direct current into W1"
    after = cured(draft, hit)
    assert not [f for f in after.findings if f.rule in (RULE, "string-voltage-high")]


@pytest.mark.parametrize(
    ("common", "poles", "series", "level"),
    [
        # 3 x 22 V x 1.135 = 74.9 V in the cold; 690.13(E): all that is not solidly grounded
        ("none", "lines", "3", Level.WARNING),
        ("none", "lines", "2", Level.NOTE),  # 49.9 V
        ("none", "all", "3", None),
        ("minus", "lines", "3", None),  # the controller joins minus to the battery's on the chassis
    ],
)
def test_a_switch_in_one_pole(common: str, poles: str, series: str, level: Level | None) -> None:
    draft = van(series=series)
    draft.rate("TC1", common=common)
    draft.rate("QB2", poles=poles)
    assert [hit.level for hit in found(draft, RULE)] == ([] if level is None else [level])


def test_a_switch_in_one_pole_where_no_metal_is_joined_to_the_battery() -> None:
    draft = van(series="3")
    draft.rate("QB2", poles="lines")
    draft.cut("W9")
    assert [hit.level for hit in found(draft, RULE)] == [Level.WARNING]
