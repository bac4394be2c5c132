"""Published examples of motor circuits."""

from __future__ import annotations

import pytest

from linework.codes import standard_sizes
from linework.codes.na.ampacity import base_ampacity
from linework.codes.na.motors import (
    code_letter,
    locked_rotor_a,
    motor_conductor,
    motor_current,
    motor_device,
)
from tests.examples.published import published


@published("068", "Motor overcurrent protection", "electricianmath.com/motorovercurrentprotection")
def test_five_horsepower_at_230_v() -> None:
    # 28 A, conductors 35 A, which is 10 AWG at 75 C, breaker 70 A.
    current = motor_current("5", 230.0)
    least = motor_conductor(current).value
    assert (current.value, least, motor_device(current).value) == (28.0, 35.0, 70.0)
    thin = ("14 AWG", "12 AWG", "10 AWG")
    assert set(thin) < set(standard_sizes())
    carries = [base_ampacity(size, "copper", 75).value >= least for size in thin]
    assert carries == [False, False, True]


@published("071", "Sizing a generator for three-phase motor starting", "scribd.com/doc/173080812")
def test_locked_rotor_currents() -> None:
    # 460 V, three phases: 20 hp code G 159 A (158.5 rounded up from a rounded factor), 5 hp code J
    # 44.7 to 50.2 A, 47.1 A in the middle. (Its generator kW are just these kVA by 0.8.)
    assert locked_rotor_a(20, 6.29, 460, 3) == pytest.approx(158.5, abs=1.0)
    low, high = (kva.value for kva in code_letter("J"))
    for kva, amps in ((low, 44.7), (7.5, 47.1), (high, 50.2)):
        assert locked_rotor_a(5, kva, 460, 3) == pytest.approx(amps, abs=0.15)
