"""Devices of motor circuits against a published example."""

from __future__ import annotations

import pytest

from linework.codes import CodesError
from linework.codes.na.motors import motor_device
from tests.examples.test_motor import FIVE_HORSEPOWER


@pytest.mark.parametrize(
    ("kind", "amps"),
    [
        ("inverse time breaker", 70.0),
        ("time-delay fuse", 50.0),  # 28 x 1.75 = 49
        ("fuse", 90.0),  # 28 x 3 = 84
        ("instantaneous trip breaker", 224.0),  # 28 x 8, not a standard rating
    ],
)
def test_devices_of_one_motor(kind, amps):
    assert motor_device(FIVE_HORSEPOWER, kind).value == amps


@pytest.mark.parametrize(
    "ask",
    [
        lambda: motor_device(FIVE_HORSEPOWER, "wire"),
        lambda: motor_device(FIVE_HORSEPOWER, motor="steam"),
    ],
)
def test_unanswerable_questions_are_errors(ask):
    with pytest.raises(CodesError):
        ask()
