"""The judge's own small tables. Each names where its figures stand."""

from __future__ import annotations

import math

SIZES = (
    *("18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1"),
    *("1/0", "2/0", "3/0", "4/0"),
)
"""Gauges from thin to thick."""

COPPER: dict[str, tuple[int, int, int]] = {
    # NFPA 70 (2023) table 310.16, copper: 60, 75, 90 degrees; it has 18 and 16 AWG at 90 degrees
    # only, so the limits of 240.4(D) stand in the other columns
    "18": (7, 7, 14),
    "16": (10, 10, 18),
    "14": (15, 20, 25),
    "12": (20, 25, 30),
    "10": (30, 35, 40),
    "8": (40, 50, 55),
    "6": (55, 65, 75),
    "4": (70, 85, 95),
    "3": (85, 100, 115),
    "2": (95, 115, 130),
    "1": (110, 130, 145),
    "1/0": (125, 150, 170),
    "2/0": (145, 175, 195),
    "3/0": (165, 200, 225),
    "4/0": (195, 230, 260),
}
ALUMINIUM: dict[str, tuple[int, int, int]] = {
    # the same table, aluminium
    "12": (15, 20, 25),
    "10": (25, 30, 35),
    "8": (35, 40, 45),
    "6": (40, 50, 55),
    "4": (55, 65, 75),
    "3": (65, 75, 85),
    "2": (75, 90, 100),
    "1": (85, 100, 115),
    "1/0": (100, 120, 135),
    "2/0": (115, 135, 150),
    "3/0": (130, 155, 175),
    "4/0": (150, 180, 205),
}
AFLOAT: dict[str, tuple[int, int, int, int]] = {
    # 33 CFR 183.425 table 5 (as ABYC E-11 has it), copper, outside engine spaces at 30 degrees:
    # insulation for 60, 75, 90 and 105 degrees
    "18": (10, 10, 20, 20),
    "16": (15, 15, 25, 25),
    "14": (20, 20, 30, 35),
    "12": (25, 25, 40, 45),
    "10": (40, 40, 55, 60),
    "8": (55, 65, 70, 80),
    "6": (80, 95, 100, 120),
    "4": (105, 125, 135, 160),
    "3": (120, 145, 155, 180),
    "2": (140, 170, 180, 210),
    "1": (165, 195, 210, 245),
    "1/0": (195, 230, 245, 285),
    "2/0": (225, 265, 285, 330),
    "3/0": (260, 310, 330, 385),
    "4/0": (300, 360, 385, 445),
}
OVER_AFLOAT = 1.5
"""Largest device afloat over the ampacity, where the next standard rating is further up (ABYC
E-11)."""

CORD = {"18": 10, "16": 13, "14": 18, "12": 25, "10": 30, "8": 40, "6": 55, "4": 70, "2": 95}
"""Flexible cord with two conductors that carry current (NFPA 70 table 400.5(A)(1), column B)."""
CORD_CIRCUIT = 20.0
"""From 16 AWG on a cord set may lie on a circuit of this rating (NFPA 70 240.5(B)(3))."""

TAPS = ((10.0, 10.0), (25.0, 3.0))
"""Longest taps in feet, with how many times their ampacity the device before them may be (NFPA 70
240.21(B)(1) and (2))."""

STORED_WH, STORED_V = 1000.0, 60.0
"""Above either a bank ashore must have a switch of its own (NFPA 70 706.1, 706.15; 480.7)."""
SWITCHED_AFLOAT_AH = 100.0
"""A bank of about 800 cranking amperes, from which on a switch is asked afloat (ABYC E-11; the
capacity from memory)."""

THIN = {"18": 7, "16": 10, "14": 15, "12": 20, "10": 30}
"""Largest device of small copper conductors (NFPA 70 240.4(D))."""
THIN_ALUMINIUM = {"12": 15, "10": 25}

LOW_VOLTAGE = {"18": 6, "16": 8, "14": 15, "12": 20, "10": 30}
"""Largest device of low-voltage wires in vehicles (NFPA 70 table 552.10(E)(1))."""

STANDARD = (
    *(10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225),
    *(250, 300, 350, 400, 450, 500, 600, 700, 800),
)
"""Standard ratings in ampere (NFPA 70 table 240.6(A))."""

GROUND_WIRE = ((15, "14"), (20, "12"), (60, "10"), (100, "8"), (200, "6"), (300, "4"), (400, "3"))
"""Least copper ground wire by device (NFPA 70 table 250.122)."""

DC_BREAKS: dict[str, tuple[tuple[float, float], ...]] = {
    # kind of fuse: up to this voltage it breaks this current (makers' data, lowest figures)
    "class_t": ((125.0, 20000.0),),
    "anl": ((32.0, 6000.0),),
    "mrbf": ((14.0, 10000.0), (32.0, 5000.0), (58.0, 2000.0)),
    "mega": ((32.0, 2000.0),),
    "midi": ((32.0, 1000.0),),
    "maxi": ((32.0, 1000.0),),
    "ato": ((32.0, 1000.0),),
    "mini": ((32.0, 1000.0),),
}

LEAD_IN = {"boat": 7.0, "recreational": 18.0, "vehicle": 18.0, "building": 18.0, "field": 18.0}
"""Inches of lead that need no device before them (ABYC E-11; NFPA 70 552.10(E)(4); else common
practice, no source)."""

PATTERNS: dict[str, tuple[float, float]] = {
    # ANSI/NEMA WD 6: volt to ground or between hots as used, ampere
    "1-15": (120, 15),
    "5-15": (120, 15),
    "5-20": (120, 20),
    "TT-30": (120, 30),
    "L5-20": (120, 20),
    "L5-30": (120, 30),
    "6-50": (240, 50),
    "L14-30": (240, 30),
    "14-30": (240, 30),
    "14-50": (240, 50),
}
ALSO_MATE = {("5-15", "5-20"), ("1-15", "5-15"), ("1-15", "5-20")}
"""Plug and outlet of unlike names that are made to mate (ANSI/NEMA WD 6)."""

WET = {"sink", "kitchen", "bath", "outside", "wet", "garage", "engine"}
"""Where an outlet of 120 V up to 20 A needs protection of class A (NFPA 70 210.8, 551.41(C))."""

_CIRCULAR_MILS = {
    "18": 1620,
    "16": 2580,
    "14": 4110,
    "12": 6530,
    "10": 10380,
    "8": 16510,
    "6": 26240,
    "4": 41740,
    "3": 52620,
    "2": 66360,
    "1": 83690,
    "1/0": 105600,
    "2/0": 133100,
    "3/0": 167800,
    "4/0": 211600,
}
"""NFPA 70 chapter 9 table 8."""
_OHM_CMIL_PER_FT = {"copper": 12.9, "aluminium": 21.2}
"""Ohm times circular mil for each foot at 75 degrees (common practice, no source)."""
COLD = 0.82
"""Resistance at 20 over that at 75 degrees: 1 / (1 + 0.00393 x 55) (IEC 60028)."""


def ohm(size: str, metres: float, material: str = "copper") -> float:
    """Resistance in ohm of one conductor at 75 degrees."""
    return _OHM_CMIL_PER_FT[material] * metres / 0.3048 / _CIRCULAR_MILS[size]


def ampacity(size: str, material: str, column: int, insulation: int, ambient: float) -> float:
    """Ampere of a conductor: the column of its terminals, or that of its insulation made smaller
    by sqrt((Tc - Ta) / (Tc - 30)) in warm places, whichever is less."""
    row = (COPPER if material == "copper" else ALUMINIUM)[size]
    columns = {60: 0, 75: 1, 90: 2, 105: 2}
    warm = 1.0
    if ambient > 30.0:
        warm = math.sqrt(max(insulation - ambient, 0.0) / (insulation - 30.0))
    return min(row[columns[min(column, insulation)]], row[columns[insulation]] * warm)


def largest_device(size: str, material: str, amps: float) -> float:
    """The largest device for a conductor of this ampacity: the next standard rating, less for
    small conductors (NFPA 70 240.4(B), (D))."""
    above = next_standard(amps)
    small = THIN if material == "copper" else THIN_ALUMINIUM
    return min(above, small.get(size, above))


def afloat(size: str, insulation: int, ambient: float) -> float:
    """Ampere of a low-voltage conductor aboard: table 5 of 33 CFR 183.425, in warmer places made
    smaller as the table's own two columns are."""
    amps = AFLOAT[size][{60: 0, 75: 1, 90: 2, 105: 3}[insulation]]
    warm = max(insulation - max(ambient, 30.0), 0.0) / (insulation - 30.0)
    return amps * math.sqrt(warm)


def next_standard(amps: float) -> float:
    """The least standard rating not below this."""
    return next((rated for rated in STANDARD if rated >= amps - 1e-6), amps)


def largest_afloat(amps: float) -> float:
    """The largest device for such a conductor: the next standard rating within 150 %."""
    return min(next_standard(amps), OVER_AFLOAT * amps)


def largest_before_cord(size: str, amps: float) -> float:
    """The largest device before a cord: its ampacity, without rounding up (240.4 leaves cords to
    240.5), and 20 A from 16 AWG on."""
    return amps if thinner(size, "16") else max(amps, CORD_CIRCUIT)


def ground_wire(device_a: float) -> str:
    """Least ground wire for a device."""
    return next((size for most, size in GROUND_WIRE if device_a <= most), "1/0")


def thinner(one: str, other: str) -> bool:
    """Whether a gauge is thinner than another."""
    return SIZES.index(one) < SIZES.index(other)
