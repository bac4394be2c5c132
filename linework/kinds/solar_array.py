"""Solar array: modules in series, such strings in parallel; the sun limits its current."""

from __future__ import annotations

from linework.data import Confidence
from linework.kinds.common import POLES, about
from linework.kinds.habit import SUN_HABIT
from linework.kinds.kind import Kind
from linework.kinds.ratings import Band, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Element,
    Inside,
    Limit,
    Metal,
    Pole,
    Selector,
    Source,
    SourceGroup,
    Terminal,
    Three,
    When,
)
from linework.words import N_

DAY: When = (("sun", frozenset({"day"})),)

STANDARD_C = 25.0
"""The temperature for which a module's plate is printed (IEC 60904-3)."""

BRIGHT = 1.25
"""Current in the brightest sun over the short-circuit current of the plate (NFPA 70
690.8(A)(1))."""

_KNEE_V, _KNEE_A = 0.82, 0.94
"""Voltage and current of greatest power over those of the open and the shorted module, usual for
crystalline silicon (from memory)."""


def _usual_vmp(values: Values) -> str | None:
    return about(_KNEE_V * values.num("voc"), "voltage") if values.has("voc") else None


def _usual_imp(values: Values) -> str | None:
    if values.given("power") and values.has("vmp"):
        return about(values.num("power") / values.num("vmp"), "current")
    return about(_KNEE_A * values.num("isc"), "current") if values.has("isc") else None


def _usual_power(values: Values) -> str | None:
    if not (values.has("vmp") and values.has("imp")):
        return None
    return about(values.num("vmp") * values.num("imp"), "power")


RATINGS = (
    Rating(
        "voc",
        N_("Open-circuit voltage of a module"),
        "voltage",
        low=0.5,
        high=1000.0,
        needed=True,
        help=N_("On the plate at its back: Voc."),
    ),
    Rating(
        "isc",
        N_("Short-circuit current of a module"),
        "current",
        low=0.01,
        high=100.0,
        needed=True,
        help=N_("On the plate at its back: Isc."),
    ),
    Rating(
        "vmp",
        N_("Voltage of a module at its power"),
        "voltage",
        source=Origin(N_("82 % of the open-circuit voltage, from memory"), Confidence.MEMORY),
        low=0.5,
        derive=_usual_vmp,
        help=N_("On the plate at its back: Vmp or Vmpp."),
    ),
    Rating(
        "imp",
        N_("Current of a module at its power"),
        "current",
        source=Origin(N_("94 % of the short-circuit current, from memory"), Confidence.MEMORY),
        low=0.01,
        derive=_usual_imp,
        help=N_("On the plate at its back: Imp or Impp."),
    ),
    Rating(
        "power",
        N_("Power of a module"),
        "power",
        source=Origin(N_("its voltage times its current"), Confidence.DERIVED),
        low=0.1,
        quiet=True,
        derive=_usual_power,
    ),
    Rating(
        "voc_per_degree",
        N_("Change of the open-circuit voltage for each degree"),
        "ratio",
        "-0.4 %",
        Origin(
            N_("slope of NFPA 70 table 690.7(A) for crystalline silicon, from memory"),
            Confidence.MEMORY,
        ),
        low=-0.01,
        high=0.0,
        help=N_("From the data sheet, for example -0.28 %; the colder, the higher the voltage."),
    ),
    Rating("series", N_("Modules in series"), "count", "1", low=1, high=100),
    Rating("strings", N_("Strings in parallel"), "count", "1", low=1, high=100),
    Rating(
        "coldest",
        N_("Lowest temperature"),
        "temperature",
        Band("-40 degC", "-20 degC", "0 degC"),
        Origin(N_("common practice, no source: give that of your place"), Confidence.PRACTICE),
        low=-70.0,
        high=25.0,
        help=N_("The coldest morning at the place; a module is no warmer than the air at dawn."),
    ),
    Rating(
        "string_fuse",
        N_("Fuse of each string"),
        "current",
        None,
        low=0.5,
        quiet=True,
        help=N_("In the combiner box or in its leads; on the fuse itself, in A."),
    ),
    Rating(
        "largest_fuse",
        N_("Largest series fuse on the module's plate"),
        "current",
        None,
        low=0.5,
        quiet=True,
        help=N_("On the plate at its back: maximum series fuse."),
    ),
    *SUN_HABIT,
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """The output of all strings, and the frames."""
    return (Terminal("dc", POLES["dc"], "out"), Terminal("frame", (Pole.PE,), "tie"))


def at_c(values: Values, celsius: float) -> float:
    """Open-circuit voltage in V of a string whose cells have this temperature.

    Voc (1 + b (T - 25)) for each module (NFPA 70 690.7(A); IEC 62548).
    """
    rise = 1.0 + values.num("voc_per_degree") * (celsius - STANDARD_C)
    return values.num("voc") * values.num("series") * rise


def open_v(values: Values) -> Three:
    """Greatest open-circuit voltage in V: on the mildest, the usual and the coldest lowest
    temperature."""
    cold = values.three("coldest")
    return Three(at_c(values, cold.high), at_c(values, cold.usual), at_c(values, cold.low))


def working_v(values: Values, celsius: float) -> float:
    """Voltage in V of a string at its greatest power, its cells at this temperature: it changes by
    the share of the open-circuit voltage (common practice, no source)."""
    voc = values.num("voc") * values.num("series")
    return values.num("vmp") * values.num("series") * at_c(values, celsius) / voc


def short_a(values: Values) -> float:
    """Short-circuit current in A of all strings, by the plate."""
    return values.num("isc") * values.num("strings")


def modules(values: Values) -> float:
    """How many modules it has."""
    return values.num("series") * values.num("strings")


def inside(values: Values) -> Inside:
    """All strings behind the resistance that leaves their voltage of greatest power at its
    current, and never more than their short-circuit current."""
    elements: list[Element] = [Metal("frame", ("frame", Pole.PE))]
    if values.has("voc") and values.has("isc"):
        elements.append(_strings(values))
    return Inside(tuple(elements), (Selector("sun", ("day", "night"), "day", "source"),))


def _strings(values: Values) -> Source:
    volts, most = open_v(values).usual, short_a(values)
    amps = values.num("imp") * values.num("strings")
    lost = volts - values.num("vmp") * values.num("series")
    held = Three(most, most, BRIGHT * most)
    return Source(
        "strings",
        ("dc", Pole.POS),
        ("dc", Pole.NEG),
        volts,
        0.0,
        Three.exactly(max(lost, 0.01 * volts) / amps),
        Three.exactly(0.0),
        rated_a=amps,
        limit=Limit(held, 0.0, None, held),
        group=SourceGroup.SOLAR,
        when=DAY,
    )


KIND = Kind(
    key="solar_array",
    name=N_("solar array"),
    letters="GP",
    strip="sources",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "solar_array",
    captions=("power", "series", "strings"),
    columns=(
        "power",
        "voc",
        "isc",
        "vmp",
        "imp",
        "voc_per_degree",
        "coldest",
        "series",
        "strings",
        "string_fuse",
        "largest_fuse",
    ),
    search=N_("solar array photovoltaic panel module PV string"),
    source=SourceGroup.SOLAR,
    pieces=lambda values: round(modules(values)),
    piece=N_("module of a solar array"),
)
