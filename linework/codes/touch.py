"""What voltage touchable metal may keep, and for how long (IEC 60364-4-41)."""

from __future__ import annotations

from math import inf
from typing import Literal

from linework.codes.errors import not_among
from linework.codes.tables import confidence_of, number, rows
from linework.codes.value import Sourced
from linework.data import Confidence

System = Literal["TN", "TT"]
TABLE_41_1 = "IEC 60364-4-41 (2005 + A1:2017) table 41.1"

_TOUCH_V = {
    (False, False): 50.0,
    (False, True): 25.0,
    (True, False): 120.0,
    (True, True): 60.0,
}


def touch_limit_v(dc: bool, wet: bool) -> Sourced[float]:
    """Voltage in V that touchable metal may keep for good: 50 AC, 120 DC; wet 25 and 60.

    IEC 60364-4-41; NFPA 70 has no such limit. From memory.
    """
    where = f"{'direct' if dc else 'alternating'} current{', wet' if wet else ''}"
    clause = "IEC 60364-4-41 411.3.2.5, 411.5.3; taken as practice"
    return Sourced(_TOUCH_V[dc, wet], "V", clause, where, Confidence.MEMORY, "from memory")


def disconnection_s(
    to_ground_v: float, *, dc: bool = False, system: System = "TN", final: bool = True
) -> Sourced[float]:
    """Longest time in s for which a fault may leave metal above the touch limit.

    IEC 60364-4-41 table 41.1 for final circuits (0.8 s at 120 V AC in a TN system), 5 s (TN) or
    1 s (TT) for others; infinite where it asks for none. NFPA 70 has no times: there this is
    practice taken from that table. CodesError for another ``system``.
    """
    if system not in ("TN", "TT"):
        raise not_among(system, ("TN", "TT"))
    if to_ground_v <= 50.0:
        return Sourced(
            inf, "s", TABLE_41_1, "up to 50 V", Confidence.PUBLISHED, "the table starts above 50 V"
        )
    if not final:
        value, where = (5.0, "TN, distribution") if system == "TN" else (1.0, "TT, distribution")
        return Sourced(
            value,
            "s",
            "IEC 60364-4-41 411.3.2.3, 411.3.2.4",
            where,
            Confidence.PUBLISHED,
            "one source",
        )
    kind = "dc" if dc else "ac"
    for row in rows("common/disconnection_times_41_1"):
        top = number(row["u0_up_to_v"])
        if row["system"] == system and (top is None or to_ground_v <= top):
            longest = number(row[f"max_time_{kind}_s"])
            where = f"{system}, {row['u0_over_v']} to {row['u0_up_to_v'] or 'any'} V {kind}"
            mark = confidence_of(row, f"confidence_{kind}")
            seconds = inf if longest is None else longest
            return Sourced(seconds, "s", TABLE_41_1, where, mark, row["sources"])
    raise AssertionError("table 41.1 has no last row")


def person_ohm() -> Sourced[float]:
    """Resistance in ohm of a person between two pieces of metal: common practice, no source."""
    return Sourced(
        1000.0, "ohm", "practice", "person", Confidence.MEMORY, "common practice, no source"
    )
