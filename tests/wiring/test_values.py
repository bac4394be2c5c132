from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linework.wiring import (
    EARTH_POINT,
    Pole,
    Three,
    body_point,
    is_ac,
    is_dc,
    is_protective,
    is_ungrounded,
)

FIGURE = st.floats(min_value=-1e9, max_value=1e9)


@pytest.mark.parametrize("pole", Pole)
def test_a_pole_carries_one_sort_of_current_or_protects(pole: Pole) -> None:
    assert [is_ac(pole), is_dc(pole), is_protective(pole)].count(True) == 1


@pytest.mark.parametrize(
    ("letters", "test"),
    [
        # IEC 60445: line conductors L1 to L3, neutral N; DC conductors L+ and L-, midpoint M.
        ({"L", "L1", "L2", "L3", "N"}, is_ac),
        ({"+", "M", "-"}, is_dc),
        ({"PE", "PEN", "body", "earth"}, is_protective),
        ({"L", "L1", "L2", "L3", "+"}, is_ungrounded),
    ],
)
def test_letters_by_what_they_carry(letters, test) -> None:
    assert {pole.value for pole in Pole if test(pole)} == letters


def test_what_the_sheet_shares_has_one_point() -> None:
    assert body_point("trailer") == body_point("trailer") != body_point("tow vehicle")
    assert EARTH_POINT[0] == body_point("trailer")[0] == "@"
    assert body_point("earth") != EARTH_POINT


@given(FIGURE, FIGURE, FIGURE)
def test_a_band_rises_or_is_refused(low: float, usual: float, high: float) -> None:
    if low <= usual <= high:
        band = Three(low, usual, high)
        assert band.scaled(2.0) == Three(2.0 * low, 2.0 * usual, 2.0 * high)
    else:
        with pytest.raises(ValueError, match="do not rise"):
            Three(low, usual, high)


def test_no_band_holds_what_is_no_number() -> None:
    with pytest.raises(ValueError, match="do not rise"):
        Three.exactly(float("nan"))


def test_a_known_quantity_has_no_width() -> None:
    assert Three.exactly(3.0) == Three(3.0, 3.0, 3.0)
