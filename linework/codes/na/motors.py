"""Motor circuits (NFPA 70 article 430)."""

from __future__ import annotations

from math import sqrt
from typing import Literal

from linework.codes.errors import not_among, not_in_table
from linework.codes.na.edition import LATEST, cite, constant
from linework.codes.na.protection import standard_up
from linework.codes.tables import by, number
from linework.codes.value import Sourced, Worked, Working
from linework.words import say

DeviceKind = Literal[
    "inverse time breaker", "time-delay fuse", "fuse", "instantaneous trip breaker"
]
CONDUCTOR_FACTOR = 1.25

# The columns of 430.248 cover the nominal systems 110-120, 200, 208 and 220-240 V.
_VOLTS = (
    (110.0, 120.0, "115"),
    (200.0, 200.0, "200"),
    (208.0, 208.0, "208"),
    (220.0, 240.0, "230"),
)
_PERCENT = {
    "inverse time breaker": "inverse_time_breaker_pct",
    "time-delay fuse": "dual_element_time_delay_fuse_pct",
    "fuse": "nontime_delay_fuse_pct",
    "instantaneous trip breaker": "instantaneous_trip_breaker_pct",
}


def motor_current(horsepower: str, volts: float, edition: str = LATEST) -> Sourced[float]:
    """Full-load current in ampere of a single-phase motor, from table 430.248.

    ``horsepower`` as the table writes it: "1/6" to "10", "1-1/2". It counts for sizing in place
    of the nameplate (430.6(A)(1)). CodesError for other sizes and voltages.
    """
    clause = cite("Table 430.248", edition)
    table = by("na/motor_current_430_248", "hp")
    row = table.get(horsepower)
    if row is None:
        raise not_in_table(f"{horsepower} hp", clause, table)
    column = next((name for low, high, name in _VOLTS if low <= volts <= high), None)
    if column is None:
        near = ("110 to 120 V", "200 V", "208 V", "220 to 240 V")
        raise not_in_table(f"{volts:g} V", clause, near)
    return Sourced(
        float(row[f"flc_{column}V_A"]),
        "A",
        clause,
        f"{horsepower} hp, {column} V",
        row["confidence"],
        row["sources"],
        edition,
    )


def conductor_factor(edition: str = LATEST) -> Sourced[float]:
    """Least ampacity of a continuous motor's conductors over its current: 1.25 (430.22)."""
    return constant("G21", CONDUCTOR_FACTOR, "", edition)


def motor_conductor(current: Sourced[float], edition: str = LATEST) -> Worked[float]:
    """Least ampacity in ampere of the conductors of one continuous motor: 125 % (430.22)."""
    work = Working(say("Motor current"), current)
    work.times(say("Motor conductors"), conductor_factor(edition))
    return work.done()


def motor_device(
    current: Sourced[float],
    kind: DeviceKind = "inverse time breaker",
    motor: str = "single-phase",
    edition: str = LATEST,
) -> Worked[float]:
    """Largest short-circuit and ground-fault device in ampere of one motor, with its steps.

    Table 430.52(C)(1), then the next standard rating (exception 1). A motor that still will not
    start may have more (exception 2), which this does not grant. CodesError for other words.
    """
    clause = cite("Table 430.52(C)(1)" if edition >= "2023" else "Table 430.52", edition)
    table = by("na/motor_device_430_52", "motor_type")
    row = table.get(motor)
    if row is None:
        raise not_in_table(motor, clause, table)
    if kind not in _PERCENT:
        raise not_among(kind, _PERCENT)
    share = float(row[_PERCENT[kind]]) / 100.0
    mark, where = row["confidence"], f"{motor}, {kind}: {share:.0%}"
    work = Working(say("Motor current"), current)
    factor = Sourced(share, "", clause, where, mark, row["sources"], edition)
    work.times(say("Motor device"), factor)
    if kind != "instantaneous trip breaker":
        rating = standard_up(work.value, "fuse" if kind.endswith("fuse") else "breaker", edition)
        rule = constant("G22", rating.value, "A", edition)
        work.set(say("Standard rating"), rule)
    return work.done()


def code_letter(letter: str, edition: str = LATEST) -> tuple[Sourced[float], Sourced[float]]:
    """Locked-rotor kVA per horsepower of a nameplate code letter, low and high (430.7(B)).

    V has no upper end; its low figure stands for both. CodesError for other letters.
    """
    clause = cite("Table 430.7(B)", edition)
    table = by("na/motor_code_letters_430_7_B", "letter")
    row = table.get(letter)
    if row is None:
        raise not_in_table(f"'{letter}'", clause, table)
    low = float(row["kva_per_hp_low"])
    high = number(row["kva_per_hp_high"])
    low_kva, high_kva = (
        Sourced(
            value,
            "kVA/hp",
            clause,
            f"letter {letter}",
            row["confidence"],
            row["sources"],
            edition,
        )
        for value in (low, low if high is None else high)
    )
    return low_kva, high_kva


def locked_rotor_a(horsepower: float, kva_per_hp: float, volts: float, phases: int = 1) -> float:
    """Locked-rotor current in ampere: hp x kVA/hp x 1000 / (V, for three phases x sqrt 3)."""
    return horsepower * kva_per_hp * 1000.0 / (volts * (sqrt(3.0) if phases == 3 else 1.0))
