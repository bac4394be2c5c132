"""Time-current bands: the earliest and the latest moment at which a device may open.

Clearing is judged by the slow edge, nuisance trips by the fast one. The
standards fix only a few gates. What lies between is an assumption and is marked
as unconfirmed: straight lines on logarithmic scales between two gates, constant
I2t beyond the last one, and never below a floor.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise
from math import exp, inf, log

from linework.codes.errors import CodesError, not_in_table
from linework.codes.tables import confidence_of, rows
from linework.codes.value import Sourced
from linework.data import Confidence
from linework.wiring import Three
from linework.words import say

MAGNETIC_SLOW_S = 0.025
"""Latest opening of a breaker's magnetic release: one and a half periods of 60 Hz, from memory."""
MAGNETIC_FAST_S = 0.008
"""Earliest: half a period, from memory."""

# Ratios like 20.25 / 15 must meet the gate at 1.35 in spite of binary rounding.
_SLACK = 1.0 + 1e-9


@dataclass(frozen=True, slots=True)
class Gate:
    """One point that a standard or a maker fixes: a multiple of the rating and a time in s."""

    multiple: float
    time_s: float
    confidence: Confidence
    source: str


@dataclass(frozen=True, slots=True)
class Edge:
    """One edge of a band: gates by rising multiple and falling time.

    Two gates of one multiple are a step; the later one holds from there on.
    """

    gates: tuple[Gate, ...]
    floor_s: float

    def __post_init__(self) -> None:
        pairs = list(pairwise(self.gates))
        rising = all(a.multiple <= b.multiple and a.time_s >= b.time_s for a, b in pairs)
        if not self.gates or not rising or self.gates[0].multiple <= 0.0 or self.floor_s <= 0.0:
            raise CodesError(
                say("a time-current curve needs points of rising current and falling time")
            )

    @property
    def first(self) -> float:
        """Multiple of the rating of the first gate."""
        return self.gates[0].multiple

    def place(self, multiple: float) -> int:
        """Index of the last gate at or below ``multiple``; -1 below the first."""
        return bisect_right([gate.multiple for gate in self.gates], multiple * _SLACK) - 1

    def time_s(self, multiple: float) -> float:
        """Time at a multiple of the rating, in s; infinite below the first gate."""
        at = self.place(multiple)
        if at < 0:
            return inf
        here = self.gates[at]
        if at + 1 == len(self.gates):
            square = (here.multiple / multiple) ** 2 if multiple > here.multiple else 1.0
            return max(here.time_s * square, min(here.time_s, self.floor_s))
        return _between(here, self.gates[at + 1], multiple)

    def evidence(self, multiple: float) -> tuple[str, Confidence, str]:
        """Row, confidence and source of the time at ``multiple``."""
        at = self.place(multiple)
        if at < 0:
            gate = self.gates[0]
            row = f"below {gate.multiple:g} x rating it need not open"
            return row, gate.confidence, gate.source
        here = self.gates[at]
        if abs(here.multiple / multiple - 1.0) < 1e-9:
            row = f"{here.multiple:g} x rating: {here.time_s:g} s"
            return row, here.confidence, here.source
        if at + 1 == len(self.gates):
            row = f"constant I2t beyond {here.multiple:g} x rating, at least {self.floor_s:g} s"
            return row, Confidence.MEMORY, f"assumption from: {here.source}"
        there = self.gates[at + 1]
        row = f"between {here.multiple:g} and {there.multiple:g} x rating, logarithmic"
        return row, Confidence.MEMORY, f"assumption between: {here.source}; {there.source}"


def _between(here: Gate, there: Gate, multiple: float) -> float:
    if multiple <= here.multiple:
        return here.time_s
    share = log(multiple / here.multiple) / log(there.multiple / here.multiple)
    return here.time_s * exp(share * log(there.time_s / here.time_s))


@dataclass(frozen=True, slots=True)
class TripBand:
    """The band of one device of one rating, in ampere and seconds."""

    curve: str
    rating_a: float
    slow: Edge
    fast: Edge
    clause: str

    def opens_by_s(self, current_a: float) -> float:
        """Latest opening at a steady current; infinite where it need never open."""
        return self.slow.time_s(current_a / self.rating_a)

    def may_open_s(self, current_a: float) -> float:
        """Earliest opening at a steady current; infinite where it must hold."""
        multiple = current_a / self.rating_a
        earliest = self.fast.time_s(multiple) if multiple > self.fast.first * _SLACK else inf
        return min(earliest, self.opens_by_s(current_a))

    def opens_by(self, current_a: float) -> Sourced[float]:
        """As :meth:`opens_by_s`, with its source; between and beyond gates unconfirmed."""
        row, confidence, source = self.slow.evidence(current_a / self.rating_a)
        return Sourced(self.opens_by_s(current_a), "s", self.clause, row, confidence, source)

    def with_magnetic(self, magnetic_a: Three) -> TripBand:
        """The band of a breaker whose maker promises a magnetic release.

        From the high figure on it must, from the low figure on it may open at
        once (within 25 ms and after 8 ms: practice, from memory).
        """
        low, high = magnetic_a.low / self.rating_a, magnetic_a.high / self.rating_a
        source = say("magnetic release as stated for the part; times from memory")
        slow = _with_step(self.slow, high, Gate(high, MAGNETIC_SLOW_S, Confidence.MEMORY, source))
        thermal = replace(self.fast, gates=_without_steps(self.fast.gates))
        fast = _with_step(thermal, low, Gate(low, MAGNETIC_FAST_S, Confidence.MEMORY, source))
        return replace(self, slow=slow, fast=fast)


def _without_steps(gates: tuple[Gate, ...]) -> tuple[Gate, ...]:
    kept = [gates[0]]
    kept += [b for a, b in pairwise(gates) if b.multiple > a.multiple]
    return tuple(kept)


def _with_step(edge: Edge, multiple: float, step: Gate) -> Edge:
    """The edge up to ``multiple``, and the step there."""
    before = tuple(gate for gate in edge.gates if gate.multiple < multiple)
    if not before:
        return Edge((step,), min(edge.floor_s, step.time_s))
    time_s = max(edge.time_s(multiple), step.time_s)
    reach = Gate(multiple, time_s, Confidence.MEMORY, step.source)
    return Edge((*before, reach, step), min(edge.floor_s, step.time_s))


@dataclass(frozen=True, slots=True)
class _Curve:
    """The gates by which a curve word is drawn, and the shortest times that we assume."""

    slow: str
    fast: str
    slow_floor_s: float
    fast_floor_s: float
    clause: str


def _fuse(slow: str, fast: str, clause: str) -> _Curve:
    # A fuse's wire melts without inertia: hundredths of a second are the makers' last figures.
    return _Curve(slow, fast, 0.01, 0.001, clause)


_UL_248 = _fuse("UL 248 time-delay fuse", "UL 248 fast fuse", "UL 248")
_BLADE = _fuse("ISO 8820-3 blade type C", "ISO 8820-3 blade type C", "ISO 8820-3")
_BOLTED = _fuse("ISO 8820-5 bolt-down", "ISO 8820-5 bolt-down", "ISO 8820-5")

_CURVES: dict[str, _Curve] = {
    # A thermal release bends a strip: it is not taken to be faster than a tenth of a second.
    "breaker": _Curve("UL 489 breaker", "UL 489 breaker", 0.1, 0.008, "UL 489"),
    "class_t": _fuse("Class T fuse", "Class T fuse", "UL 248-15"),
    "class_j": _UL_248,
    "class_cc": _UL_248,
    "class_g": _UL_248,
    "class_rk1": _UL_248,
    "class_rk5": _UL_248,
    "class_k5": _UL_248,
    "class_h": _UL_248,
    "plug_fuse": _UL_248,
    "ato": _BLADE,
    "mini": _BLADE,
    "maxi": _fuse("ISO 8820-3 blade type E", "ISO 8820-3 blade type E", "ISO 8820-3"),
    "mega": _BOLTED,
    "midi": _BOLTED,
    # No figures of their own are known: the bolt-down band stands in.
    "anl": _BOLTED,
    "mrbf": _BOLTED,
} | {
    f"iec_{letter}": _Curve(
        f"IEC 60898 type {letter.upper()}",
        f"IEC 60898 type {letter.upper()}",
        0.1,
        0.005,
        "IEC 60898-1",
    )
    for letter in "bcd"
}

CURVES: tuple[str, ...] = tuple(_CURVES)
"""The curve words that :func:`trip_band` knows."""

_STAND_INS = frozenset({"anl", "mrbf"})


def trip_band(
    curve: str,
    rating_a: float,
    *,
    magnetic_a: Three | None = None,
    speed: str | None = None,
) -> TripBand:
    """The time-current band of a device of ``rating_a`` ampere.

    ``curve``: one of :data:`CURVES`. "breaker" is UL 489: 135 % in one or two
    hours, 200 % in the minutes of its table, **no** instantaneous trip on the
    slow edge unless ``magnetic_a`` is given; its fast edge is typical, from
    memory. Fuses of UL 248 take the slow edge of time-delay and the fast edge of
    fast ones unless ``speed`` is "fast" or "time-delay". "anl" and "mrbf" have no
    figures of their own; the band of bolt-down fuses (ISO 8820-5) stands in.
    CodesError for other words and for ratings beyond the tables.
    """
    chosen = _CURVES.get(curve)
    if chosen is None:
        raise not_in_table(f"'{curve}'", "the time-current curves", CURVES)
    if speed is not None and chosen.clause == "UL 248":
        gates = f"UL 248 {speed} fuse"
        chosen = replace(chosen, slow=gates, fast=gates)
    stands_in = curve in _STAND_INS
    band = TripBand(
        curve,
        rating_a,
        Edge(_gates(chosen.slow, "slow", rating_a, stands_in), chosen.slow_floor_s),
        Edge(_gates(chosen.fast, "fast", rating_a, stands_in), chosen.fast_floor_s),
        chosen.clause,
    )
    return band if magnetic_a is None else band.with_magnetic(magnetic_a)


@cache
def _gates(device: str, edge: str, rating_a: float, stands_in: bool) -> tuple[Gate, ...]:
    mine = [
        row
        for row in rows("common/time_current_gates")
        if row["device"] == device and row["edge"] == edge
    ]
    fitting = [
        row
        for row in mine
        if float(row["rating_over_A"]) < rating_a <= float(row["rating_up_to_A"])
    ]
    if not fitting:
        spans = dict.fromkeys(f"{r['rating_over_A']} to {r['rating_up_to_A']} A" for r in mine)
        raise not_in_table(f"{device}, {rating_a:g} A", "the time-current gates", spans)
    before = say("stands in for another family: ") if stands_in else ""
    return tuple(
        Gate(
            float(row["multiple"]),
            float(row["time_s"]),
            Confidence.MEMORY if stands_in else confidence_of(row),
            before + row["sources"],
        )
        for row in fitting
    )


def maker_band(
    rating_a: float,
    slow: Sequence[tuple[float, float]],
    fast: Sequence[tuple[float, float]],
    source: str,
) -> TripBand:
    """A band from the maker's curve: points (ampere, seconds) of both edges, by rising current.

    Beyond the last point the slow edge keeps its time, as nothing faster is promised; the fast one
    goes on with constant I2t. CodesError unless currents rise and times fall.
    """
    slow_edge = Edge(_points(slow, rating_a, source), slow[-1][1] if slow else 1.0)
    return TripBand(
        "maker", rating_a, slow_edge, Edge(_points(fast, rating_a, source), 0.001), source
    )


def _points(
    points: Sequence[tuple[float, float]], rating_a: float, source: str
) -> tuple[Gate, ...]:
    return tuple(
        Gate(amps / rating_a, time_s, Confidence.PUBLISHED, source) for amps, time_s in points
    )


def practice_fast_a(rating_a: float) -> Sourced[float] | None:
    """The current from which a 15 or 20 A breaker is usually fast: evidence only, never a verdict.

    300 A, a design figure of a report on arc faults; None for other ratings. UL 489 promises
    no instantaneous trip.
    """
    if rating_a not in (15.0, 20.0):
        return None
    row = next(
        row
        for row in rows("na/breaker_facts_ul489")
        if row["value"] == "300" and row["unit"] == "A rms"
    )
    return Sourced(300.0, "A", "practice", row["fact"], confidence_of(row), row["sources"])
