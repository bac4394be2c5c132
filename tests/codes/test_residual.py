"""Ground-fault devices: class A of UL 943 and the IEC ones."""

from __future__ import annotations

from math import inf

import pytest

from linework.codes import CodesError, ground_fault_device
from linework.codes.tables import rows
from linework.kinds.gfci import STYLES

TIMES = [row for row in rows("na/gfci_class_a_ul943") if row["max_trip_time_s"]]


@pytest.mark.parametrize("row", TIMES, ids=lambda r: r["fault_mA"])
def test_class_a_rows_follow_the_formula(row):
    """UL 943: (20 / mA)**1.43 s from 6 to 264 mA, 25 ms above."""
    found = ground_fault_device("class_a").opens_by(float(row["fault_mA"]))
    assert found.value == pytest.approx(float(row["max_trip_time_s"]), rel=0.01)


def test_class_a_threshold():
    device = ground_fault_device("class_a")
    assert device.never_ma == 4.0
    assert device.opens_by_s(5.99) == inf
    assert device.opens_by_s(6.0) == pytest.approx(5.594, abs=0.005)
    assert device.opens_by_s(263.9) == pytest.approx(0.025, rel=0.01)
    assert device.opens_by_s(1e6) == 0.025
    assert device.senses_link


@pytest.mark.parametrize(
    ("style", "ma", "seconds"),
    [
        # IEC 61008-1: 0.3, 0.15 and 0.04 s at 1, 2 and 5 times the rated residual current.
        ("rcd_30", 29.9, inf),
        ("rcd_30", 30.0, 0.3),
        ("rcd_30", 59.0, 0.3),
        ("rcd_30", 60.0, 0.15),
        ("rcd_30", 150.0, 0.04),
        ("rcd_30", 5000.0, 0.04),
        ("rcd_100", 100.0, 0.3),
        ("rcd_100_s", 100.0, 0.5),
        ("rcd_100_s", 500.0, 0.15),
        ("leakage_30", 30.0, 0.1),
    ],
)
def test_iec_and_marine_times(style, ma, seconds):
    device = ground_fault_device(style)
    assert device.opens_by_s(ma) == seconds
    assert not device.senses_link


@pytest.mark.parametrize("style", STYLES)
def test_every_device_that_can_be_drawn_is_known_alike(style):
    trip, senses_link = STYLES[style]
    device = ground_fault_device(style)
    assert (device.never_ma, device.always_ma) == (trip.low, trip.high)
    assert device.senses_link is senses_link


def test_unknown_styles_are_refused():
    with pytest.raises(CodesError, match="class_a"):
        ground_fault_device("class_b")
