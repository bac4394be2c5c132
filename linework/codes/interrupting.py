"""How much fault current a device can break where nothing is marked on it."""

from __future__ import annotations

from typing import Literal

from linework.codes.errors import CodesError, not_in_table
from linework.codes.tables import confidence_of, rows
from linework.codes.value import Sourced
from linework.words import say

_CLAUSE = "NFPA 70 110.9, 240.83(C); UL 248; ISO 8820; makers"
DEVICE_NAMES = {
    "breaker": "breaker",
    "class_t": "Class T",
    "class_j": "Class J",
    "class_cc": "Class CC",
    "class_g": "Class G",
    "class_rk1": "Class RK1",
    "class_rk5": "Class RK5",
    "class_k5": "Class K5",
    "class_h": "Class H",
    "plug_fuse": "plug fuse",
    "anl": "ANL",
    "mrbf": "MRBF",
    "mega": "MEGA",
    "midi": "MIDI",
    "maxi": "MAXI",
    "ato": "ATO",
    "mini": "MINI",
}


def interrupting_rating(curve: str, kind: Literal["ac", "dc"], system_v: float) -> Sourced[float]:
    """The interrupting rating in ampere that may be counted on without a marking.

    ``curve``: a word of :data:`linework.codes.trip.CURVES`. Of several figures that makers give
    the lowest. CodesError where nothing may be counted on: a breaker not marked for direct
    current, a voltage above the family's, a family rated "by maker".
    """
    name = DEVICE_NAMES.get(curve)
    mine = [r for r in rows("common/interrupting_ratings") if r["device"] == name]
    if not mine:
        raise not_in_table(f"'{curve}'", "the interrupting ratings", DEVICE_NAMES)
    fitting = [
        r
        for r in mine
        if r["kind"] == kind and (not r["up_to_V"] or system_v <= float(r["up_to_V"]))
    ]
    if not fitting:
        raise CodesError(_nothing_counts(str(name), kind, system_v))
    row = fitting[0]
    limit = f"up to {row['up_to_V']} V {kind}" if row["up_to_V"] else kind
    return Sourced(
        float(row["interrupting_A"]),
        "A",
        _CLAUSE,
        f"{name}, {limit}",
        confidence_of(row),
        row["sources"],
        note=row["note"],
    )


def _nothing_counts(name: str, kind: str, system_v: float) -> str:
    if kind == "dc":
        return say(
            "no interrupting rating of {device} on {volts} V direct current may be counted on; "
            "only a marking on the part tells",
            device=name,
            volts=f"{system_v:g}",
        )
    return say(
        "no interrupting rating of {device} on {volts} V alternating current may be counted on; "
        "only a marking on the part tells",
        device=name,
        volts=f"{system_v:g}",
    )
