"""Motor circuits against a published example and the table's own ratios."""

from __future__ import annotations

from itertools import pairwise

import pytest

from linework.codes import CodesError
from linework.codes.na.motors import (
    code_letter,
    motor_current,
    motor_device,
)
from linework.codes.tables import rows


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
    assert motor_device(motor_current("5", 240.0), kind).value == amps


@pytest.mark.parametrize("row", rows("na/motor_current_430_248"), ids=lambda r: r["hp"])
def test_columns_keep_their_ratios(row):
    """115 V is twice 230 V; 208 V 1.10 and 200 V 1.15 times it."""
    base = float(row["flc_230V_A"])
    assert float(row["flc_115V_A"]) == pytest.approx(2 * base)
    assert float(row["flc_208V_A"]) == pytest.approx(1.10 * base, abs=0.06)
    assert float(row["flc_200V_A"]) == pytest.approx(1.15 * base, abs=0.06)


def test_code_letters_leave_no_gap():
    table = rows("na/motor_code_letters_430_7_B")
    for one, other in pairwise(table):
        assert float(other["kva_per_hp_low"]) == pytest.approx(float(one["kva_per_hp_high"]) + 0.01)
    low, high = code_letter("V")
    assert low.value == high.value == 22.4
    assert not code_letter("A")[0].confirmed


@pytest.mark.parametrize(
    "ask",
    [
        lambda: motor_current("6", 230.0),
        lambda: motor_current("5", 460.0),
        lambda: motor_device(motor_current("5", 230.0), "wire"),
        lambda: motor_device(motor_current("5", 230.0), motor="steam"),
        lambda: code_letter("I"),
    ],
)
def test_unanswerable_questions_are_errors(ask):
    with pytest.raises(CodesError):
        ask()
