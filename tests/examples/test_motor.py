"""Published examples of motor circuits."""

from __future__ import annotations

import pytest

from linework.codes import Sourced, standard_sizes
from linework.codes.na.ampacity import base_ampacity
from linework.codes.na.motors import conductor_factor, motor_device
from linework.data import Confidence
from linework.kinds.code_letter import locked_rotor_a
from linework.kinds.horsepower import table_a
from tests.examples.published import published

FIVE_HORSEPOWER = Sourced(
    28.0, "A", "Table 430.248", "5 hp, 230 V", Confidence.AGREED, "the example; the table"
)


@published("068", "Motor overcurrent protection", "electricianmath.com/motorovercurrentprotection")
def test_five_horsepower_at_230_v() -> None:
    # 28 A (table 430.248), conductors 35 A, which is 10 AWG at 75 C, breaker 70 A.
    assert table_a(5.0, 230.0) == FIVE_HORSEPOWER.value
    least = FIVE_HORSEPOWER.value * conductor_factor().value
    assert (least, motor_device(FIVE_HORSEPOWER).value) == (35.0, 70.0)
    thin = ("14 AWG", "12 AWG", "10 AWG")
    assert set(thin) < set(standard_sizes())
    carries = [base_ampacity(size, "copper", 75).value >= least for size in thin]
    assert carries == [False, False, True]


@published("071", "Sizing a generator for three-phase motor starting", "scribd.com/doc/173080812")
def test_locked_rotor_currents_by_code_letter() -> None:
    # 460 V, three phases: 20 hp code G 159 A (158.5 rounded up from a rounded factor), 5 hp code J
    # up to 50.2 A; on one phase the square root of three more. (Its kW are these kVA by 0.8.)
    for letter, hp, amps in (("G", 20.0, 158.5), ("J", 5.0, 50.2)):
        found = locked_rotor_a(letter, hp, 460.0)
        assert found is not None
        assert found / 3.0**0.5 == pytest.approx(amps, rel=7e-3)
