"""Resistance and reactance of the conductors of a run, from the tables of the family."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from linework.codes.conductors import Raceway, reactance, resistance
from linework.kinds import Values
from linework.wiring import Pole, is_protective

COLD_C = 20.0
HOT_C = 75.0

_RACEWAYS: dict[str, Raceway] = {"conduit_steel": "steel", "conduit_pvc": "pvc"}

_STRAY_F_PER_M = 1e-10
"""Line to ground wire of a cable, 0.1 nF for each metre (from memory)."""
_INSULATION_S_PER_M = 1e-10
"""Insulation of a cable on direct current (from memory)."""

_LOST_OHM = 0.01
"""Stands in for a conductor of unknown size or length, only so that the drawing holds together."""


@dataclass(frozen=True, slots=True)
class WireOhm:
    """One conductor: resistance at 20 C and at 75 C, reactance, all in ohm."""

    cold: float
    hot: float
    x: float
    known: bool


def pole_size(values: Values, pole: Pole) -> str:
    """The size text of one pole of a run, empty where none is given."""
    if is_protective(pole) and values.has("ground_size"):
        return values.text("ground_size")
    if pole is Pole.N and values.has("neutral_size"):
        return values.text("neutral_size")
    return values.text("size") if values.has("size") else ""


def wire_ohm(values: Values, pole: Pole, hertz: float) -> WireOhm:
    """Resistance and reactance of one conductor of a run."""
    size = pole_size(values, pole)
    if not size or not values.has("length"):
        return WireOhm(_LOST_OHM, _LOST_OHM, 0.0, known=False)
    length = values.num("length")
    metal = values.pick("material"), values.pick("stranding")
    raceway = _RACEWAYS.get(values.pick("installation"))
    cold, hot, x = _ohm_per_m(size, *metal, raceway, hertz)
    direct = pole in (Pole.POS, Pole.NEG, Pole.MID, Pole.BODY, Pole.EARTH)
    return WireOhm(cold * length, hot * length, 0.0 if direct else x * length, known=True)


@cache
def _ohm_per_m(
    size: str, material: str, stranding: str, raceway: Raceway | None, hertz: float
) -> tuple[float, float, float]:
    """Resistance cold and hot, and reactance."""
    return (
        resistance(size, material, stranding, COLD_C).value,
        resistance(size, material, stranding, HOT_C).value,
        reactance(size, raceway, hertz).value,
    )


def run_leak(values: Values) -> tuple[float, float]:
    """Capacitance in farad and insulation conductance in siemens of a run, pole to pole."""
    length = values.num("length") if values.has("length") else 1.0
    return _STRAY_F_PER_M * length, _INSULATION_S_PER_M * length
