"""Motors by their horsepower: the current of the table, not the watts of the shaft."""

from __future__ import annotations

from itertools import pairwise

import pytest

from linework.data import read_csv
from linework.kinds import kinds
from linework.kinds.code_letter import locked_rotor_a
from linework.kinds.horsepower import direct_a, scaled_a, table_a
from linework.kinds.motor import running_a, sized_a
from linework.wiring import Draw
from tests.kinds.cases import rated
from tests.kinds.test_devices import sorts

MOTOR = kinds()["motor"]


@pytest.mark.parametrize(
    ("hp", "volts", "amps"),
    [
        # quoted by people who ask about the table: 1/2 hp 9.8 A, 1 hp 16 A at 115 V; a published
        # exercise: 5 hp 28 A at 230 V
        (0.5, 115.0, 9.8),
        (1.0, 120.0, 16.0),
        (5.0, 230.0, 28.0),
        (1.2, 240.0, 10.0),  # between two rows the larger
        (1.0 / 3.0, 115.0, 7.2),
        (0.33, 115.0, 7.2),
        (12.0, 230.0, None),
        (1.0, 480.0, None),
    ],
)
def test_full_load_currents_of_single_phase_motors(
    hp: float, volts: float, amps: float | None
) -> None:
    assert table_a(hp, volts) == amps


@pytest.mark.parametrize(
    "row", read_csv("tables/na/motor_current_430_248.csv"), ids=lambda r: r["hp"]
)
def test_the_columns_of_the_table_keep_their_ratios(row: dict[str, str]) -> None:
    """115 V is twice 230 V; 208 V 1.10 and 200 V 1.15 times it."""
    base = float(row["flc_230V_A"])
    assert float(row["flc_115V_A"]) == pytest.approx(2 * base)
    assert float(row["flc_208V_A"]) == pytest.approx(1.10 * base, abs=0.06)
    assert float(row["flc_200V_A"]) == pytest.approx(1.15 * base, abs=0.06)


def test_a_motor_of_one_horsepower_takes_the_current_of_the_table() -> None:
    values = rated(MOTOR, power="1 hp", voltage="120 V", power_factor="0.8")
    assert sized_a(values) == running_a(values) == 16.0
    (draw,) = sorts(MOTOR, values, Draw)
    assert draw.watts == pytest.approx(16.0 * 120.0 * 0.8)
    assert draw.start_a == pytest.approx(96.0)  # six times, common practice


def test_what_its_plate_says_is_what_it_takes_and_the_table_what_it_is_sized_by() -> None:
    """430.6(A)(1)."""
    values = rated(MOTOR, power="1 hp", voltage="120 V", running_current="12.4 A")
    assert running_a(values) == 12.4
    assert sized_a(values) == 16.0
    in_watts = rated(MOTOR, power="1 kW", voltage="120 V", running_current="12.4 A")
    assert running_a(in_watts) == sized_a(in_watts) == 12.4


def test_watts_are_what_it_takes() -> None:
    values = rated(MOTOR, power="746 W", voltage="120 V", power_factor="0.8")
    assert running_a(values) == pytest.approx(746.0 / 96.0)


@pytest.mark.parametrize(
    ("hp", "volts", "amps"),
    [
        # 430.248: 10 hp 50 A, 1/6 hp 2.2 A at 230 V; 1 hp 8 A
        (20.0, 230.0, 100.0),
        (1.0, 460.0, 4.0),
        (0.1, 115.0, 4.4),
    ],
)
def test_beyond_the_table_a_motor_takes_in_proportion(hp: float, volts: float, amps: float) -> None:
    assert scaled_a(hp, volts) == pytest.approx(amps)
    values = rated(MOTOR, power=f"{hp} hp", voltage=f"{volts} V", power_factor="0.8")
    assert running_a(values) == pytest.approx(amps)
    assert sized_a(values) * volts * 0.8 > 746.0 * hp


@pytest.mark.parametrize(
    ("hp", "volts", "amps"),
    [
        # table 430.247: 1 hp 9.5 A, 1 1/2 hp 13.2 A at 120 V; so many watts at 12 V
        (1.0, 120.0, 9.5),
        (1.5, 12.0, 132.0),
        (0.6, 12.0, 76.0),  # between two rows the larger
        (0.125, 12.0, 15.5),
        (20.0, 240.0, 76.0),
    ],
)
def test_full_load_currents_of_motors_on_direct_current(
    hp: float, volts: float, amps: float
) -> None:
    assert direct_a(hp, volts) == pytest.approx(amps)
    assert direct_a(hp, volts) > 746.0 * hp / volts  # nothing gives more than it takes


@pytest.mark.parametrize(
    "row", read_csv("tables/na/motor_current_430_247.csv")[:5], ids=lambda r: r["hp"]
)
def test_both_columns_of_the_table_take_the_same_power(row: dict[str, str]) -> None:
    power = 90.0 * float(row["flc_90V_A"])
    assert power == pytest.approx(120.0 * float(row["flc_120V_A"]), rel=0.06)


def test_a_motor_on_direct_current_takes_more_than_its_shaft_gives() -> None:
    values = rated(MOTOR, power="1.5 hp", voltage="12 V", circuit="dc")
    assert sized_a(values) == running_a(values) == pytest.approx(132.0)
    (draw,) = sorts(MOTOR, values, Draw)
    assert draw.watts == pytest.approx(1584.0)
    marked = rated(MOTOR, power="1.5 hp", voltage="12 V", circuit="dc", running_current="110 A")
    (draw,) = sorts(MOTOR, marked, Draw)
    assert draw.watts == pytest.approx(1320.0)


def test_code_letters_leave_no_gap() -> None:
    table = read_csv("tables/na/motor_code_letters_430_7_B.csv")
    for one, other in pairwise(table):
        assert float(other["kva_per_hp_low"]) == pytest.approx(float(one["kva_per_hp_high"]) + 0.01)


def test_a_code_letter_tells_the_locked_rotor_current() -> None:
    """A published example (sizing a generator for motor starting, scribd.com/doc/173080812): 20 hp
    code G on three phases of 460 V draw 158.5 A; by the square root of three more on one."""
    assert locked_rotor_a("G", 20.0, 460.0) == pytest.approx(158.5 * 3**0.5, rel=0.005)
    values = rated(MOTOR, power="1 hp", voltage="115 V", code_letter="K")
    (draw,) = sorts(MOTOR, values, Draw)
    assert draw.start_a == pytest.approx(8.99 * 1000 / 115, rel=0.005)
    (marked,) = sorts(
        MOTOR, rated(MOTOR, power="1 hp", code_letter="K", start_current="50 A"), Draw
    )
    assert marked.start_a == 50.0


def test_a_code_letter_says_nothing_of_a_motor_in_watts() -> None:
    values = rated(MOTOR, power="960 W", voltage="120 V", power_factor="0.8", code_letter="K")
    (draw,) = sorts(MOTOR, values, Draw)
    assert draw.start_a == pytest.approx(60.0)


def test_a_soft_starter_holds_the_start_down() -> None:
    values = rated(MOTOR, power="1 kW", start_current="60 A", soft_start="25 A")
    (draw,) = sorts(MOTOR, values, Draw)
    assert draw.start_a == 25.0
