"""Touch voltages, times, tester lamps."""

from __future__ import annotations

from math import inf

import pytest

from linework.codes import (
    CodesError,
    disconnection_s,
    ground_fault_button_ohm,
    lamp_of_tester,
    person_ohm,
    touch_limit_v,
)
from linework.codes.na.limits import marine_drop_limit


@pytest.mark.parametrize(
    ("volts", "options", "seconds"),
    [
        # IEC 60364-4-41 table 41.1.
        (50.0, {}, inf),
        (50.1, {}, 0.8),
        (120.0, {}, 0.8),
        (120.1, {}, 0.4),
        (230.0, {}, 0.4),
        (277.0, {}, 0.2),
        (480.0, {}, 0.1),
        (120.0, {"system": "TT"}, 0.3),
        (230.0, {"system": "TT"}, 0.2),
        (120.0, {"final": False}, 5.0),
        (120.0, {"final": False, "system": "TT"}, 1.0),
        (120.0, {"dc": True}, inf),
        (200.0, {"dc": True}, 1.0),
        (48.0, {"dc": True}, inf),
    ],
)
def test_times(volts, options, seconds):
    assert disconnection_s(volts, **options).value == seconds


def test_disputed_times_are_not_confirmed():
    assert disconnection_s(120.0).confirmed
    assert not disconnection_s(200.0, dc=True).confirmed
    with pytest.raises(CodesError, match="TN"):
        disconnection_s(120.0, system="IT")


@pytest.mark.parametrize(
    ("dc", "wet", "volts"),
    [(False, False, 50), (False, True, 25), (True, False, 120), (True, True, 60)],
)
def test_touch_limits(dc, wet, volts):
    assert touch_limit_v(dc, wet).value == volts


def test_practice_figures_are_called_practice():
    assert person_ohm().value == 1000.0
    assert "no source" in person_ohm().source
    assert (marine_drop_limit(critical=True).value, marine_drop_limit(critical=False).value) == (
        3,
        10,
    )


@pytest.mark.parametrize(
    ("volts", "seen"),
    [
        (0.0, "dark"),
        (45.9, "dark"),
        (46.0, "dim"),
        (60.0, "dim"),
        (67.0, "dim"),
        (67.1, "lit"),
        (120.0, "lit"),
    ],
)
def test_tester_lamps(volts, seen):
    """Neon lamps strike between 65 and 95 V peak: 46 and 67 V rms."""
    assert lamp_of_tester(120.0).seen(volts) == seen


def test_the_tester_is_a_load_below_a_ground_fault_threshold():
    """Its lamps draw less than 4 mA, its button 7 to 9 mA at 120 V."""
    assert 120.0 / lamp_of_tester(120.0).ohm < 0.004
    assert 0.006 < 120.0 / ground_fault_button_ohm().value < 0.009
    with pytest.raises(CodesError, match="230"):
        lamp_of_tester(230.0)
