"""Ground-fault devices: which residual current opens them, and how soon."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import inf

from linework.codes.errors import not_among
from linework.codes.tables import rows
from linework.codes.value import Sourced
from linework.data import Confidence

CLASS_A_NEVER_MA = 4.0
CLASS_A_ALWAYS_MA = 6.0
CLASS_A_FLOOR_MA = 264.0
CLASS_A_FLOOR_S = 0.025


@dataclass(frozen=True, slots=True)
class ResidualDevice:
    """One ground-fault device.

    Up to ``never_ma`` it must not, from ``always_ma`` on it must open. ``senses_link``: it also
    opens on a neutral-ground link on its load side without any load (UL 943); an IEC device does
    so only when a load drives current through the link. ``smooth_dc_ma``: direct residual current
    that it tolerates without being blinded, None where nothing is promised.
    """

    style: str
    never_ma: float
    always_ma: float
    senses_link: bool
    smooth_dc_ma: float | None
    clause: str
    confidence: Confidence
    source: str
    _latest_s: Callable[[float], float]

    def opens_by_s(self, residual_ma: float) -> float:
        """Latest opening at a residual current in mA; infinite below ``always_ma``."""
        return inf if residual_ma < self.always_ma else self._latest_s(residual_ma)

    def opens_by(self, residual_ma: float) -> Sourced[float]:
        """As :meth:`opens_by_s`, with its source."""
        return Sourced(
            self.opens_by_s(residual_ma),
            "s",
            self.clause,
            f"{self.style}, {residual_ma:g} mA",
            self.confidence,
            self.source,
        )


def class_a_time_s(residual_ma: float) -> float:
    """Latest opening of a class A device: (20 / I)**1.43 s from 6 to 264 mA (UL 943).

    Above that 25 ms, the value of the formula at 264 mA.
    """
    if residual_ma >= CLASS_A_FLOOR_MA:
        return CLASS_A_FLOOR_S
    return float((20.0 / residual_ma) ** 1.43)


def _iec_time_s(kind: str, idn_ma: float) -> Callable[[float], float]:
    steps = [
        (float(row["multiple_of_idn"]), float(row["max_break_time_s"]))
        for row in rows("common/rcd_times_iec61008")
        if row["kind"] == kind
    ]

    def latest(residual_ma: float) -> float:
        # Between two rows the longer time of the lower one: nothing shorter is promised.
        return min(time for multiple, time in steps if multiple * idn_ma <= residual_ma)

    return latest


def _rcd(style: str, idn_ma: float, kind: str) -> ResidualDevice:
    return ResidualDevice(
        style,
        0.5 * idn_ma,
        idn_ma,
        False,
        6.0,
        "IEC 61008-1 / 61009-1",
        Confidence.PUBLISHED,
        "tester manuals; type A assumed (6 mA smooth direct current)",
        _iec_time_s(kind, idn_ma),
    )


def ground_fault_device(style: str) -> ResidualDevice:
    """The device of a style.

    "class_a" (UL 943), "rcd_30", "rcd_100" (IEC 61008-1, general), "rcd_100_s" (delayed), and
    "leakage_30", the leakage breaker at a boat's inlet (ABYC E-11: 30 mA, 100 ms; from memory).
    CodesError for other words.
    """
    makers: dict[str, Callable[[], ResidualDevice]] = {
        "class_a": _class_a,
        "rcd_30": lambda: _rcd("rcd_30", 30.0, "general"),
        "rcd_100": lambda: _rcd("rcd_100", 100.0, "general"),
        "rcd_100_s": lambda: _rcd("rcd_100_s", 100.0, "S"),
        "leakage_30": _leakage_30,
    }
    if style not in makers:
        raise not_among(style, makers)
    return makers[style]()


def _class_a() -> ResidualDevice:
    return ResidualDevice(
        "class_a",
        CLASS_A_NEVER_MA,
        CLASS_A_ALWAYS_MA,
        True,
        None,
        "UL 943",
        Confidence.AGREED,
        "S93;S94;S95; above 264 mA S96",
        class_a_time_s,
    )


def _leakage_30() -> ResidualDevice:
    return ResidualDevice(
        "leakage_30",
        15.0,
        30.0,
        False,
        None,
        "ABYC E-11",
        Confidence.MEMORY,
        "from memory",
        lambda _: 0.1,
    )
