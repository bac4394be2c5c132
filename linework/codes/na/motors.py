"""Motor circuits (NFPA 70 article 430)."""

from __future__ import annotations

from typing import Literal

from linework.codes.errors import not_among, not_in_table
from linework.codes.na.edition import LATEST, cite, constant
from linework.codes.na.protection import standard_up
from linework.codes.tables import by, confidence_of
from linework.codes.value import Sourced, Worked, Working
from linework.words import say

DeviceKind = Literal[
    "inverse time breaker", "time-delay fuse", "fuse", "instantaneous trip breaker"
]
CONDUCTOR_FACTOR = 1.25

_PERCENT = {
    "inverse time breaker": "inverse_time_breaker_pct",
    "time-delay fuse": "dual_element_time_delay_fuse_pct",
    "fuse": "nontime_delay_fuse_pct",
    "instantaneous trip breaker": "instantaneous_trip_breaker_pct",
}


def conductor_factor(edition: str = LATEST) -> Sourced[float]:
    """Least ampacity of a continuous motor's conductors over its current: 1.25 (430.22)."""
    return constant("G21", CONDUCTOR_FACTOR, "", edition)


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
    mark, where = confidence_of(row), f"{motor}, {kind}: {share:.0%}"
    work = Working(say("Motor current"), current)
    factor = Sourced(share, "", clause, where, mark, row["sources"], edition)
    work.times(say("Motor device"), factor)
    if kind != "instantaneous trip breaker":
        rating = standard_up(work.value, "fuse" if kind.endswith("fuse") else "breaker", edition)
        rule = constant("G22", rating.value, "A", edition)
        work.set(say("Standard rating"), rule)
    return work.done()
