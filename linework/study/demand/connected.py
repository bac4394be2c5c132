"""What a source or feeder must carry by what is connected to it (NFPA 70 215.2(A)(1), 430.24).

All loads together, a quarter more of those that run for three hours and are no motors, and a
quarter more of the largest motor.
"""

from __future__ import annotations

from linework.codes.demands import Demands
from linework.study.demand.lines import Calculation, Line
from linework.words import N_

ALL = N_("all drawn loads")
LONG = N_("a quarter more of what runs three hours and longer")
MOTOR = N_("a quarter more of the largest motor")


def connected(amps: float, long_a: float, motor_a: float, demands: Demands) -> Calculation:
    """In ampere; ``amps`` of all, of which ``long_a`` lasts and is no motor, and ``motor_a`` is
    the largest motor."""
    lasting, motor = demands.figure("continuous"), demands.figure("largest_motor")
    more = lasting.value - 1.0
    return Calculation(
        (
            Line(ALL, amps, amps),
            Line(LONG, long_a, more * long_a, lasting),
            Line(MOTOR, motor_a, motor.value * motor_a, motor),
        )
    )
