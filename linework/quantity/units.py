"""The closed list of kinds of quantity, their units and the spellings that are accepted.

A decimal prefix is a shift of the point and written here; every other factor
comes from pint (:mod:`linework.quantity.factors`), save for the trade figures
that differ from its definitions.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import inf
from types import MappingProxyType
from typing import TYPE_CHECKING

from linework.words import N_

if TYPE_CHECKING:
    from collections.abc import Mapping

KCMIL_MM2 = Fraction("0.5067075")
"""Area of 1000 circular mils in mm2: pi/4 * (0.0254 mm)**2 * 1000, to seven figures."""

_INCH_M = Fraction("0.0254")
"""By definition (international yard and pound agreement, 1959). Nearly every file has lengths in
feet: stated here, they are read without loading pint."""

_HP_W = Fraction(746)
"""Horsepower of a motor nameplate in watt: common practice, no source (exactly 745.70 W)."""


@dataclass(frozen=True, slots=True)
class Unit:
    """One accepted unit of a kind.

    ``text`` is its form in files, ``sign`` what people are shown. One unit is
    ``factor`` base units; where that is None, ``pint_names`` are pint's names
    of the unit and of the base unit.
    """

    text: str
    factor: Fraction | None = Fraction(1)
    spellings: tuple[str, ...] = ()
    sign: str = ""
    pint_names: tuple[str, str] = ("", "")

    @property
    def shown(self) -> str:
        """The unit as people are shown it."""
        return self.sign or self.text


@dataclass(frozen=True, slots=True)
class QuantityKind:
    """One kind of quantity.

    ``unit`` is the base unit, ``units`` every accepted unit as files have it,
    ``least`` the smallest possible value in the base unit.
    """

    name: str
    unit: str
    units: tuple[str, ...]
    example: str
    label: str
    least: float = 0.0


def _ten(power: int) -> Fraction:
    return Fraction(10) ** power


_MILLI, _MICRO, _KILO, _MEGA = _ten(-3), _ten(-6), _ten(3), _ten(6)

_UNITS: dict[str, tuple[Unit, ...]] = {
    "current": (
        Unit("A", spellings=("amp", "amps", "ampere", "amperes")),
        Unit("mA", _MILLI),
        Unit("kA", _KILO),
    ),
    "voltage": (
        Unit("V", spellings=("volt", "volts")),
        Unit("mV", _MILLI),
        Unit("kV", _KILO),
    ),
    "power": (
        Unit("W", spellings=("watt", "watts")),
        Unit("kW", _KILO),
        Unit("hp", _HP_W),
    ),
    # In watt at power factor 1; whoever knows another divides by it (kinds/values.py).
    "apparent_power": (
        Unit("VA"),
        Unit("kVA", _KILO),
        Unit("W", spellings=("watt", "watts")),
        Unit("kW", _KILO),
    ),
    "resistance": (
        Unit("ohm", spellings=("Ω", "ohms"), sign="Ω"),
        Unit("mohm", _MILLI, ("mΩ",), "mΩ"),
        Unit("kohm", _KILO, ("kΩ",), "kΩ"),
        Unit("Mohm", _MEGA, ("MΩ", "megohm", "megohms"), "MΩ"),
    ),
    "length": (
        Unit("m", spellings=("meter", "meters", "metre", "metres")),
        Unit("mm", _MILLI),
        Unit("cm", _ten(-2)),
        Unit("km", _KILO),
        Unit("ft", 12 * _INCH_M, ("feet", "foot", "'")),
        Unit("in", _INCH_M, ("inch", "inches", '"')),
    ),
    "area": (
        Unit("mm2", spellings=("mm²", "mm^2", "sq mm", "sqmm"), sign="mm²"),
        Unit("kcmil", KCMIL_MM2, ("MCM", "mcm")),
        Unit("in2", None, ("in²", "in^2", "sq in"), "in²", ("inch**2", "millimeter**2")),
    ),
    "floor_area": (
        Unit("m2", spellings=("m²", "m^2", "sq m"), sign="m²"),
        Unit("ft2", (12 * _INCH_M) ** 2, ("ft²", "ft^2", "sq ft"), "ft²"),
    ),
    "volume": (
        Unit("in3", spellings=("in³", "in^3", "cu in"), sign="in³"),
        Unit("cm3", None, ("cm³", "cm^3", "ml"), "cm³", ("centimeter**3", "inch**3")),
    ),
    "temperature": (
        Unit("degC", spellings=("°C", "deg C", "C"), sign="°C"),
        Unit("degF", None, ("°F", "deg F", "F"), "°F", ("degF", "degC")),
    ),
    "time": (
        Unit("s", spellings=("sec", "second", "seconds")),
        Unit("ms", _MILLI),
        Unit("min", None, ("minute", "minutes"), pint_names=("minute", "second")),
        Unit("h", None, ("hr", "hrs", "hour", "hours"), pint_names=("hour", "second")),
    ),
    "frequency": (Unit("Hz"), Unit("kHz", _KILO)),
    "charge": (Unit("Ah"), Unit("mAh", _MILLI)),
    "energy": (Unit("Wh"), Unit("kWh", _KILO)),
    "ratio": (Unit(""), Unit("%", _ten(-2), ("percent",))),
    "count": (Unit(""),),
    "capacitance": (
        Unit("F", spellings=("farad",)),
        Unit("uF", _MICRO, ("µF",), "µF"),
        Unit("nF", _ten(-9)),
        Unit("pF", _ten(-12)),
    ),
}


def _kind(name: str, label: str, example: str, least: float = 0.0) -> QuantityKind:
    units = tuple(unit.text for unit in _UNITS[name])
    return QuantityKind(name, units[0], units, example, label, least)


KINDS: Mapping[str, QuantityKind] = MappingProxyType(
    {
        kind.name: kind
        for kind in (
            _kind("current", N_("current"), "20 A", -inf),
            _kind("voltage", N_("voltage"), "120 V", -inf),
            _kind("power", N_("power"), "1500 W", -inf),
            _kind("apparent_power", N_("apparent power"), "2000 VA"),
            _kind("resistance", N_("resistance"), "0.5 ohm"),
            _kind("length", N_("length"), "25 ft"),
            _kind("area", N_("cross-section"), "2.5 mm2"),
            _kind("floor_area", N_("floor area"), "1200 ft2"),
            _kind("volume", N_("volume"), "18 in3"),
            _kind("temperature", N_("temperature"), "30 degC", -273.15),
            _kind("time", N_("time"), "0.5 s"),
            _kind("frequency", N_("frequency"), "60 Hz"),
            _kind("charge", N_("battery capacity"), "100 Ah"),
            _kind("energy", N_("energy"), "1200 Wh"),
            _kind("ratio", N_("ratio"), "80 %", -inf),
            _kind("count", N_("count"), "3"),
            _kind("capacitance", N_("capacitance"), "10 nF"),
        )
    }
)
"""Every kind of quantity by its name."""


def unit_of(kind: str, text: str) -> Unit:
    """The unit that files write as ``text``. KeyError if the kind has no such unit."""
    for unit in _UNITS[kind]:
        if unit.text == text:
            return unit
    raise KeyError(text)


def spellings_of(kind: str) -> dict[str, str]:
    """Every accepted spelling of the units of a kind, with the unit's text in files."""
    return {
        spelling: unit.text
        for unit in _UNITS[kind]
        for spelling in (unit.text, *unit.spellings)
        if spelling
    }
