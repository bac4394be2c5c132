"""The plug-in outlet tester: three lamps and a ground-fault button (120 V pattern)."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import Literal

from linework.codes.errors import CodesError
from linework.codes.tables import by, confidence_of
from linework.codes.value import Sourced, weakest
from linework.data import Confidence
from linework.words import say

Lamp = Literal["dark", "dim", "lit"]

_TABLE = "na/tester_lamp_model"
_LIT = "impedance when lit at 120 V"


@dataclass(frozen=True, slots=True)
class LampModel:
    """One lamp of the tester as a solver sees it.

    Dark below ``dark_below_v``, lit above ``lit_above_v`` (V rms), between them "dark or dim":
    the spread of striking voltages of neon lamps, 65 to 95 V peak. ``ohm`` is its resistance when
    lit, to be put between the contacts as a load.
    """

    dark_below_v: float
    lit_above_v: float
    ohm: float
    confidence: Confidence
    source: str

    def seen(self, volts: float) -> Lamp:
        """What a person sees at ``volts`` V rms across the lamp."""
        if volts < self.dark_below_v:
            return "dark"
        return "lit" if volts > self.lit_above_v else "dim"


def lamp_of_tester(system_v: float = 120.0) -> LampModel:
    """The lamp of a 120 V tester. CodesError above 150 V: a 230 V tester is another instrument."""
    if system_v > 150.0:
        raise CodesError(
            say("no figures are known for a tester made for {volts} V", volts=f"{system_v:g}")
        )
    strikes, lit = by(_TABLE, "item")["striking voltage"], by(_TABLE, "item")[_LIT]
    return LampModel(
        round(float(strikes["low"]) / sqrt(2.0)),
        round(float(strikes["high"]) / sqrt(2.0)),
        float(lit["value"]),
        weakest(confidence_of(strikes), confidence_of(lit)),
        f"striking voltage {strikes['low']} to {strikes['high']} V peak: {strikes['sources']}",
    )


def ground_fault_button_ohm() -> Sourced[float]:
    """The resistance that a tester's button puts between line and ground contact, in ohm.

    About 7 to 9 mA at 120 V. Without a return path it trips nothing, so that on a floating
    source or an open ground it says nothing about the device.
    """
    row = by(_TABLE, "item")["ground-fault button"]
    return Sourced(
        float(row["value"]),
        row["unit"],
        "practice",
        row["item"],
        confidence_of(row),
        row["sources"],
        note=row["note"],
    )
