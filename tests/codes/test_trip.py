"""Time-current bands: the gates of the standards, order, steps, inversion."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linework.codes import (
    CURVES,
    CodesError,
    interrupting_rating,
    maker_band,
    practice_fast_a,
    trip_band,
)
from linework.kinds.fuse import CLASSES
from linework.wiring import Three

FUSES = [choice.value for choice in CLASSES]
RATING_OF = {"ato": 20.0, "mini": 10.0, "maxi": 60.0, "plug_fuse": 15.0}


@pytest.mark.parametrize(
    ("rating", "seconds_135", "seconds_200"),
    [
        # UL 489 calibration: 135 % in one hour up to 50 A, else two; 200 % in 2, 4, 6 ... minutes.
        (15, 3600, 120),
        (20, 3600, 120),
        (30, 3600, 120),
        (31, 3600, 240),
        (50, 3600, 240),
        (60, 7200, 360),
        (100, 7200, 360),
        (150, 7200, 480),
        (225, 7200, 600),
        (400, 7200, 720),
        (600, 7200, 840),
    ],
)
def test_breaker_gates(rating, seconds_135, seconds_200):
    band = trip_band("breaker", rating)
    assert band.opens_by_s(1.349 * rating) == inf
    assert band.opens_by_s(1.35 * rating) == pytest.approx(seconds_135)
    assert band.opens_by_s(2 * rating) == pytest.approx(seconds_200)
    assert band.may_open_s(rating) == inf
    assert band.may_open_s(1.01 * rating) < inf


def test_breaker_beyond_the_gates_is_an_assumption():
    band = trip_band("breaker", 20)
    assert band.opens_by(40.0).confirmed
    assert band.opens_by(80.0).value == pytest.approx(30.0)  # constant I2t: 120 s x (2 / 4)**2
    assert not band.opens_by(80.0).confirmed
    assert not band.opens_by(30.0).confirmed
    assert "assumption" in band.opens_by(30.0).source
    assert "need not open" in band.opens_by(20.0).row
    assert band.opens_by_s(1e5) == 0.1


def test_no_magnetic_trip_is_assumed():
    """A 20 A breaker at 288 A (100 ft of 12 AWG on a strong supply) is not fast by its standard."""
    band = trip_band("breaker", 20)
    assert band.opens_by_s(288.0) > 2.0
    assert practice_fast_a(20).value == 300.0
    assert not practice_fast_a(20).confirmed
    assert practice_fast_a(30) is None


def test_a_stated_magnetic_trip_moves_both_edges():
    band = trip_band("breaker", 20, magnetic_a=Three(120.0, 160.0, 200.0))
    plain = trip_band("breaker", 20)
    assert band.opens_by_s(199.0) == pytest.approx(plain.opens_by_s(199.0), rel=1e-6)
    assert band.opens_by_s(200.0) == 0.025
    assert band.opens_by_s(20000.0) == 0.025
    assert band.may_open_s(120.0) == 0.008
    assert band.may_open_s(119.0) > 1.0
    assert plain.may_open_s(100.0) == 0.008  # typical pick-up from five times the rating


def test_a_magnetic_trip_below_the_thermal_gates():
    band = trip_band("breaker", 100, magnetic_a=Three(60.0, 70.0, 80.0))
    assert band.opens_by_s(79.0) == inf
    assert band.opens_by_s(80.0) == 0.025
    assert band.may_open_s(61.0) == 0.008


@pytest.mark.parametrize(
    ("curve", "rating", "multiple", "least", "most"),
    [
        # ISO 8820-3 and -5, from memory.
        ("ato", 20, 1.35, 0.75, 600),
        ("ato", 20, 2.0, 0.15, 5),
        ("ato", 20, 6.0, 0.02, 0.1),
        ("maxi", 60, 2.0, 2, 60),
        ("mega", 200, 1.35, 120, 1800),
        ("midi", 100, 6.0, 0.1, 1.0),
        # UL 248, from memory.
        ("class_j", 30, 1.35, 100, 3600),
        ("class_j", 100, 2.0, 8, 360),
        # A maker's curve as stated in a forum.
        ("class_t", 200, 2.0, 5, 50),
        ("class_t", 200, 6.0, 0.002, 0.01),
        # IEC 60898-1 table 7.
        ("iec_b", 16, 1.45, 0, 3600),
        ("iec_c", 16, 2.55, 1, 60),
        ("iec_b", 16, 5.0, 0.005, 0.1),
        ("iec_c", 16, 10.0, 0.0, 0.1),
        ("iec_d", 16, 20.0, 0.0, 0.1),
    ],
)
def test_gates_of_other_devices(curve, rating, multiple, least, most):
    band = trip_band(curve, rating)
    assert band.opens_by_s(multiple * rating) == pytest.approx(most)
    if least:
        assert band.may_open_s(multiple * rating) >= least * (1 - 1e-6)


def test_stand_ins_and_speeds():
    assert not trip_band("anl", 200).opens_by(400.0).confirmed
    assert "stands in" in trip_band("anl", 200).opens_by(400.0).source
    fast = trip_band("class_j", 30, speed="fast")
    slow = trip_band("class_j", 30, speed="time-delay")
    either = trip_band("class_j", 30)
    assert either.opens_by_s(150.0) == slow.opens_by_s(150.0) > fast.opens_by_s(150.0)
    assert either.may_open_s(150.0) == fast.may_open_s(150.0) < slow.may_open_s(150.0)
    assert slow.may_open_s(150.0) == pytest.approx(10.0)


@pytest.mark.parametrize("curve", CURVES)
@given(multiple=st.floats(0.1, 200.0), more=st.floats(1.0, 3.0))
def test_more_current_is_never_slower_and_fast_never_after_slow(curve, multiple, more):
    rating = RATING_OF.get(curve, 30.0)
    band = trip_band(curve, rating)
    one, other = multiple * rating, multiple * more * rating
    assert band.opens_by_s(other) <= band.opens_by_s(one) * (1 + 1e-9)
    assert band.may_open_s(other) <= band.may_open_s(one) * (1 + 1e-9)
    assert band.may_open_s(one) <= band.opens_by_s(one)


def test_a_makers_curve_replaces_the_standard():
    band = maker_band(
        100.0, [(200.0, 30.0), (1000.0, 0.05)], [(110.0, 500.0), (500.0, 0.01)], "sheet"
    )
    assert band.opens_by_s(200.0) == 30.0
    assert band.opens_by_s(5000.0) == 0.05
    assert band.may_open_s(5000.0) < 0.01
    assert band.may_open_s(110.0) == inf
    assert band.may_open_s(111.0) < inf
    assert band.opens_by(1000.0).source == "sheet"


@pytest.mark.parametrize(
    ("slow", "fast"),
    [
        ([], [(110.0, 1.0)]),
        ([(200.0, 1.0), (100.0, 0.5)], [(110.0, 1.0)]),
        ([(200.0, 1.0), (300.0, 2.0)], [(110.0, 1.0)]),
        ([(0.0, 1.0)], [(110.0, 1.0)]),
    ],
)
def test_a_curve_that_is_none_is_refused(slow, fast):
    with pytest.raises(CodesError):
        maker_band(100.0, slow, fast, "sheet")


@pytest.mark.parametrize(
    ("curve", "rating", "named"),
    [("thermal", 20, "breaker"), ("breaker", 700, "400 to 600"), ("ato", 50, "0 to 40")],
)
def test_unknown_curves_and_ratings(curve, rating, named):
    with pytest.raises(CodesError, match=named):
        trip_band(curve, rating)


@pytest.mark.parametrize("curve", ["breaker", *FUSES])
def test_every_device_that_can_be_drawn_has_a_band(curve):
    band = trip_band(curve, RATING_OF.get(curve, 30.0))
    assert 0.0 < band.opens_by_s(1000.0 * 30.0) < 1.0


@pytest.mark.parametrize(
    ("curve", "kind", "volts", "amps", "sure"),
    [
        ("breaker", "ac", 120.0, 5000, False),
        ("class_t", "ac", 240.0, 200000, True),
        ("class_t", "dc", 48.0, 20000, False),
        ("mrbf", "dc", 12.8, 10000, False),
        ("mrbf", "dc", 25.6, 5000, False),
        ("mrbf", "dc", 51.2, 2000, False),
        ("mega", "dc", 12.0, 2000, True),
        ("midi", "dc", 12.0, 1000, False),
        ("ato", "dc", 12.0, 1000, False),
        ("plug_fuse", "ac", 120.0, 10000, False),
    ],
)
def test_interrupting_ratings(curve, kind, volts, amps, sure):
    found = interrupting_rating(curve, kind, volts)
    assert (found.value, found.confirmed) == (amps, sure)


@pytest.mark.parametrize(
    ("curve", "kind", "volts"),
    [
        ("breaker", "dc", 12.0),
        ("class_j", "dc", 48.0),
        ("mrbf", "dc", 60.0),
        ("ato", "dc", 48.0),
        ("plug_fuse", "ac", 240.0),
        ("iec_b", "ac", 230.0),
    ],
)
def test_where_nothing_may_be_counted_on(curve, kind, volts):
    with pytest.raises(CodesError):
        interrupting_rating(curve, kind, volts)
