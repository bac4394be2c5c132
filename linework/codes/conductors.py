"""Resistance and reactance of one conductor, in ohm per meter."""

from __future__ import annotations

from typing import Literal

from linework.codes.errors import CodesError, not_among, not_in_table
from linework.codes.materials import Material, material_of, metal_constant
from linework.codes.sizes import area_mm2, by_construction, nearest_sizes, size_of
from linework.codes.tables import Row, by, confidence_of, number
from linework.codes.value import Sourced, weakest
from linework.data import Confidence
from linework.words import say

METERS_PER_KFT = 304.8
COLD_C = 20.0
"""Conductor temperature for the largest fault current."""
HOT_C = 75.0
"""Conductor temperature for the smallest fault current and for voltage drop; that of table 8."""

TABLE_8 = "NFPA 70 chapter 9 table 8"
TABLE_9 = "NFPA 70 chapter 9 table 9"
IEC_60228 = "IEC 60228 tables 1 to 3"
STRANDINGS = ("stranded", "solid", "flexible")

# Note 2 of table 8; equal to 1 / (234.5 + 75) and 1 / (228 + 75) of IEC 60949.
_ALPHA_75C = {Material.COPPER: 0.00323, Material.ALUMINUM: 0.00330}
# Strands lie in a helix: about two percent longer than the cable. From memory, and what the
# stranded and the solid rows of table 8 differ by.
_LAY = 1.02
_OTHERWISE_OHM_M = 0.08e-3

Raceway = Literal["steel", "aluminum", "pvc"]


def resistance(
    size: str,
    material: str = "copper",
    stranding: str = "stranded",
    temperature_c: float = HOT_C,
) -> Sourced[float]:
    """Direct-current resistance of one conductor, in ohm per meter.

    From chapter 9 table 8 for AWG and kcmil, IEC 60228 for square millimeters;
    a size that neither lists, from geometry and resistivity (``clause`` says
    which). ``stranding``: "stranded", "solid" or "flexible" (fine strands: the
    stranded row of table 8 stands in, marked as unconfirmed). Corrected in a
    straight line to ``temperature_c``. CodesError for words not known.
    """
    metal = material_of(material)
    if stranding not in STRANDINGS:
        raise not_among(stranding, STRANDINGS)
    canonical = size_of(size).text
    found = _from_table_8(canonical, metal, stranding) or _from_60228(canonical, metal, stranding)
    if found is None:
        return resistance_from_geometry(size, material, stranding, temperature_c)
    value, at_c = found
    return _at_temperature(value, metal, at_c, temperature_c)


def _from_table_8(
    size: str, metal: Material, stranding: str
) -> tuple[Sourced[float], float] | None:
    built = "stranded" if stranding == "flexible" else stranding
    row = by_construction().get((size, built))
    if row is None or metal is Material.STEEL:
        return None
    column = {
        Material.COPPER: "dc_r_cu_uncoated_75C_ohm_per_kft",
        Material.TINNED: "dc_r_cu_coated_75C_ohm_per_kft",
        Material.ALUMINUM: "dc_r_al_75C_ohm_per_kft",
        # Between aluminum and copper; the aluminum column is the higher resistance.
        Material.CLAD: "dc_r_al_75C_ohm_per_kft",
    }[metal]
    stands_in = stranding == "flexible" or metal is Material.CLAD
    value = Sourced(
        float(row[column]) / METERS_PER_KFT,
        "ohm/m",
        TABLE_8,
        f"{size}, {built}, {metal}, 75 C: {row[column]} ohm per 1000 ft",
        Confidence.MEMORY if stands_in else confidence_of(row),
        row["sources"],
        note=say("the nearest row stands in") if stands_in else "",
    )
    return value, 75.0


def _from_60228(size: str, metal: Material, stranding: str) -> tuple[Sourced[float], float] | None:
    row = by("common/conductor_resistance_iec60228", "size").get(size)
    if row is None:
        return None
    cls = "class5" if stranding == "flexible" else "class2"
    metal_column = {
        Material.COPPER: f"cu_plain_{cls}",
        Material.TINNED: f"cu_tinned_{cls}",
        Material.ALUMINUM: "al_class2",
    }.get(metal)
    text = row.get(f"r20_max_{metal_column}_ohm_per_km", "")
    if not text:
        return None
    value = Sourced(
        float(text) / 1000.0,
        "ohm/m",
        IEC_60228,
        f"{size}, {metal_column}, greatest at 20 C: {text} ohm/km",
        confidence_of(row),
        row["sources"],
    )
    return value, 20.0


def _at_temperature(
    value: Sourced[float], metal: Material, from_c: float, to_c: float
) -> Sourced[float]:
    if from_c == to_c:
        return value
    alpha = temperature_coefficient(metal, from_c)
    factor = 1.0 + alpha.value * (to_c - from_c)
    if factor <= 0.0:
        raise CodesError(say("{value} C is no temperature for a conductor", value=f"{to_c:g}"))
    return value.became(
        value.value * factor,
        "ohm/m",
        f"{value.row}; x (1 + {alpha.value:.5f} x ({to_c:g} - {from_c:g}))",
        alpha.confidence,
    )


def temperature_coefficient(material: str, at_c: float = HOT_C) -> Sourced[float]:
    """Temperature coefficient of resistance per kelvin, referred to ``at_c``.

    At 75 C the figure of note 2 of table 8 (from memory, and derived: equal to
    1 / (beta + 75)); elsewhere 1 / (beta + t), beta from IEC 60949.
    """
    metal = material_of(material).core
    if at_c == 75.0 and metal in _ALPHA_75C:
        return Sourced(
            _ALPHA_75C[metal],
            "1/K",
            TABLE_8,
            f"note 2, {metal}",
            Confidence.DERIVED if metal is Material.COPPER else Confidence.PUBLISHED,
            "from memory; equals 1 / (beta + 75)",
        )
    beta = metal_constant("reciprocal temperature coefficient at 0 C", metal)
    return beta.became(1.0 / (beta.value + at_c), "1/K", f"1 / ({beta.value:g} + {at_c:g})")


def resistance_from_geometry(
    size: str,
    material: str = "copper",
    stranding: str = "stranded",
    temperature_c: float = HOT_C,
) -> Sourced[float]:
    """Resistance in ohm per meter from area and resistivity: a cross-check of the tables.

    rho20 / area, two percent more for the lay of strands (from memory), and
    (beta + t) / (beta + 20) for the temperature; constants of IEC 60028, 60889, 60949.
    """
    metal = material_of(material)
    rho = metal_constant("resistivity at 20 C", metal)
    beta = metal_constant("reciprocal temperature coefficient at 0 C", metal)
    lay = 1.0 if stranding == "solid" else _LAY
    warm = (beta.value + temperature_c) / (beta.value + 20.0)
    return Sourced(
        rho.value * 1e6 / area_mm2(size) * lay * warm,
        "ohm/m",
        rho.clause,
        f"resistivity {rho.value:g} ohm m over the area of {size}, x {lay:g} for the lay, "
        f"x {warm:.4f} for {temperature_c:g} C",
        weakest(
            rho.confidence, beta.confidence, Confidence.MEMORY if lay > 1.0 else Confidence.DERIVED
        ),
        rho.source,
    )


def drop_constant(
    material: str = "copper", stranding: str = "stranded", temperature_c: float = HOT_C
) -> Sourced[float]:
    """The constant K = R x area of one conductor, in ohm circular mil per foot.

    Taken at 12 AWG of table 8. 12.9 for stranded copper at 75 C; the marine
    constant 10.75 belongs to about 24 C and the trade's 12 to about 55 C.
    """
    one = resistance("12 AWG", material, stranding, temperature_c)
    per_foot = one.value * METERS_PER_KFT / 1000.0
    return one.became(per_foot * float(size_of("12 AWG").cmil), "ohm cmil/ft", "R x area")


def reactance(size: str, raceway: Raceway | None, frequency_hz: float) -> Sourced[float]:
    """Reactance of one conductor to neutral, in ohm per meter; zero for direct current.

    ``raceway``: what surrounds it, None for cable, cord or free air. In a
    raceway from chapter 9 table 9 (60 Hz, in proportion at 50 Hz); otherwise, and
    for sizes not in the table, 0.08 milliohm per meter (IEC 60364-5-52 annex G,
    from memory). CodesError for frequencies above 60 Hz.
    """
    if frequency_hz == 0.0:
        return Sourced(0.0, "ohm/m", "direct current", "no reactance", Confidence.DEFINED, "")
    if not 0.0 < frequency_hz <= 60.0:
        raise CodesError(
            say("the tables hold for 50 and 60 Hz, not for {hertz} Hz", hertz=f"{frequency_hz:g}")
        )
    row = by("na/ac_impedance_ch9_9", "size").get(size_of(size).text) if raceway else None
    if row is None:
        return Sourced(
            _OTHERWISE_OHM_M,
            "ohm/m",
            "IEC 60364-5-52 annex G",
            "0.08 milliohm per meter where nothing else is known",
            Confidence.MEMORY,
            "from memory",
        )
    column = _reactance_column(raceway)
    return Sourced(
        float(row[column]) / METERS_PER_KFT * frequency_hz / 60.0,
        "ohm/m",
        TABLE_9,
        f"{row['size']}, {column}: {row[column]} at 60 Hz, x {frequency_hz:g}/60",
        confidence_of(row),
        row["sources"],
    )


def _reactance_column(raceway: Raceway | None) -> str:
    if raceway == "steel":
        return "xl_steel_conduit_ohm_per_kft"
    return "xl_pvc_or_al_conduit_ohm_per_kft"


def effective_impedance(
    size: str, material: str, raceway: Raceway, power_factor: float
) -> Sourced[float]:
    """R cos(phi) + X sin(phi) of chapter 9 table 9 (note 2), in ohm per meter to neutral, 75 C.

    ``power_factor`` lagging, 0 to 1. CodesError for sizes outside the table.
    """
    metal = material_of(material)
    row = _table_9_row(size)
    column = f"r_{'cu' if metal.is_copper else 'al'}_{_raceway_word(raceway)}_ohm_per_kft"
    ohms = number(row[column])
    if ohms is None:
        raise not_in_table(f"{size}, {metal}", TABLE_9, ())
    sine = float((1.0 - power_factor**2) ** 0.5)
    ohm_x = float(row[_reactance_column(raceway)])
    return Sourced(
        (ohms * power_factor + ohm_x * sine) / METERS_PER_KFT,
        "ohm/m",
        TABLE_9,
        f"{row['size']}, {raceway}: {ohms:g} x {power_factor:g} + {ohm_x:g} x {sine:.3f}",
        confidence_of(row),
        row["sources"],
    )


def _table_9_row(size: str) -> Row:
    table = by("na/ac_impedance_ch9_9", "size")
    row = table.get(size_of(size).text)
    if row is None:
        raise not_in_table(size, TABLE_9, nearest_sizes(size, table))
    return row


def _raceway_word(raceway: Raceway) -> str:
    return {"steel": "steel", "aluminum": "al_conduit", "pvc": "pvc"}[raceway]


def area_for_drop_cmil(current_a: float, path_ft: float, drop_v: float, constant: float) -> float:
    """Circular mils for a permitted drop: constant x current x path / drop.

    ``path_ft`` counts the conductor out and back. With the constant 10.75 this is
    the sizing formula of ABYC E-11, with 12.9 that of copper at 75 C.
    """
    return constant * current_a * path_ft / drop_v
