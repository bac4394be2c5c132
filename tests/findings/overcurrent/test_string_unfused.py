"""What parallel strings drive back into a faulty one (NFPA 70 690.9, IEC 62548)."""

from __future__ import annotations

import pytest

from tests.findings.banks import PLATE, van
from tests.findings.told import cured, found, gaps, number

RULE = "string-unfused"


def test_three_strings_without_fuses() -> None:
    draft = van(strings="3", largest_fuse="10 A")
    (hit,) = found(draft, RULE)
    assert hit.subjects == ("GP1",)
    assert number(hit, "driven back") == pytest.approx(15.0)  # two others, 6 A each, 125 %


@pytest.mark.parametrize(("plate", "told"), [("15 A", False), ("14.9 A", True)])
def test_what_the_plate_allows(plate: str, told: bool) -> None:
    assert bool(found(van(strings="3", largest_fuse=plate), RULE)) is told


def test_fuses_in_the_strings() -> None:
    assert found(van(strings="3", largest_fuse="10 A", string_fuse="10 A"), RULE) == []


def test_a_fuse_larger_than_the_plate_allows() -> None:
    (hit,) = found(van(strings="3", largest_fuse="15 A", string_fuse="20 A"), RULE)
    assert "20 A" in hit.message


def test_the_mend_is_the_least_fuse_that_carries_bright_sun() -> None:
    """156 % of 6 A are 9.4 A: 10 A, where the plate allows it."""
    draft = van(strings="3", largest_fuse="12 A")
    (hit,) = found(draft, RULE)
    assert hit.mend is not None
    assert hit.mend.title == "Put a fuse of 10 A into each string of GP1"
    cured(draft, hit)
    assert found(van(strings="3", largest_fuse="9 A"), RULE)[0].mend is None


def test_without_the_plate_three_strings_are_not_judged_and_two_are_sound() -> None:
    (gap,) = gaps(van(strings="3"), RULE)
    assert gap.where == ("GP1",)
    assert gaps(van(strings="2"), RULE) == gaps(van(strings="1"), RULE) == []


def test_strings_drawn_as_parts_of_their_own_count_together() -> None:
    draft = van(strings="2", largest_fuse="10 A")
    assert found(draft, RULE) == []
    draft.part("solar_array", "GP2", **PLATE, series="2", largest_fuse="10 A")
    draft.run("GP2.dc", "QB2.line", "W30", size="10 AWG", length="10 ft")
    assert {hit.subjects for hit in found(draft, RULE)} == {("GP1",), ("GP2",)}


def test_four_strings_drive_more_than_any_plate_allows() -> None:
    # three others, 125 % of 6 A each: 22.5 A; no plate of such a module goes beyond 18 A
    (hit,) = found(van(strings="4"), RULE)
    assert "any module" in hit.message
    assert number(hit, "driven back") == pytest.approx(22.5)
    assert not found(van(strings="4", largest_fuse="25 A"), RULE)


@pytest.mark.parametrize(
    ("strings", "rating", "told"),
    [("1", "10 A", False), ("1", None, True), ("1", "15 A", True), ("2", "10 A", True)],
)
def test_a_fuse_drawn_in_a_string_is_one(strings: str, rating: str | None, told: bool) -> None:
    """Three arrays side by side, 10 A by their plate; a fuse before two strings guards neither."""
    draft = van(strings="1", largest_fuse="10 A", string_fuse="10 A")
    for n in (2, 3):
        draft.part("solar_array", f"GP{n}", **PLATE, series="2", strings="1", string_fuse="10 A")
    draft.rate("GP2", strings=strings, largest_fuse="10 A", string_fuse=None)
    draft.run("GP3.dc", "QB2.line", "W33", size="10 AWG", length="10 ft")
    if rating is None:
        draft.run("GP2.dc", "QB2.line", "W30", size="10 AWG", length="10 ft")
    else:
        draft.part("fuse", "F30", rating=rating, type="class_cc", voltage="600 V")
        draft.run("GP2.dc", "F30.line", "W30", poles="+", size="10 AWG", length="10 ft")
        draft.run("F30.load", "QB2.line", "W31", poles="+", size="10 AWG", length="1 ft")
        draft.run("GP2.dc", "QB2.line", "W32", poles="-", size="10 AWG", length="10 ft")
    assert (("GP2",) in {hit.subjects for hit in found(draft, RULE)}) is told


def test_the_fuse_of_the_battery_is_none_of_the_only_string() -> None:
    """10 A is the least device of the bank, the plate allows 8 A: nothing lies beside the string;
    nor beside either of two that have a controller each."""
    draft = van(strings="1", largest_fuse="8 A")
    assert found(draft, RULE) == []
    draft.part("solar_array", "GP2", **PLATE, series="2", strings="1", largest_fuse="8 A")
    draft.part("solar_controller", "TC2", current="30 A", pv_voltage="150 V", dc_voltage="12 V")
    draft.run("GP2.dc", "TC2.pv", "W30", size="10 AWG", length="10 ft")
    draft.run("TC2.dc", "TC1.dc", "W31", size="10 AWG", length="1 ft")
    assert found(draft, RULE) == []
