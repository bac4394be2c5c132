"""How much energy a conductor survives while a fault lasts: k, k2S2, limit temperatures."""

from __future__ import annotations

from functools import cache
from math import log, sqrt

from linework.codes.errors import CodesError, closest, not_among, not_in_table
from linework.codes.materials import material_of, metal_constant
from linework.codes.sizes import area_mm2
from linework.codes.tables import by, confidence_of, rows
from linework.codes.value import Sourced, weakest
from linework.data import Confidence
from linework.words import say

FORMULA = "IEC 60949; IEC 60364-5-54 annex A"
LIMIT_C = {"thermoplastic": 150.0, "rubber": 200.0, "cross-linked": 250.0}
"""Temperature that insulation survives for a few seconds, in C (ICEA P-32-382 and
IEC 60364-4-43 table 43A, from memory)."""


@cache
def k_factor(material: str, initial_c: float, final_c: float) -> Sourced[float]:
    """The adiabatic constant k in A s**0.5 per mm2.

    k = sqrt(Qc (beta + 20) / rho20 x ln((beta + final) / (beta + initial))), formula and
    constants of IEC 60949 and IEC 60364-5-54 annex A. CodesError unless ``final_c`` is above
    ``initial_c``.
    """
    if final_c <= initial_c:
        raise CodesError(
            say(
                "a conductor at {initial} C has no reserve up to {final} C",
                initial=f"{initial_c:g}",
                final=f"{final_c:g}",
            )
        )
    metal = material_of(material).core
    heat = metal_constant("heat capacity at 20 C", metal)
    beta = metal_constant("reciprocal temperature coefficient at 0 C", metal)
    rho = metal_constant("resistivity at 20 C", metal)
    ratio = (beta.value + final_c) / (beta.value + initial_c)
    square = heat.value * (beta.value + 20.0) / (rho.value * 1e3) * log(ratio)
    return Sourced(
        sqrt(square),
        "A s^0.5/mm2",
        FORMULA,
        f"{metal}, {initial_c:g} to {final_c:g} C",
        weakest(heat.confidence, beta.confidence, rho.confidence),
        heat.source,
    )


@cache
def withstand_a2s(size: str, material: str, initial_c: float, final_c: float) -> Sourced[float]:
    """The energy k2 S2 that a conductor survives, in A2 s, while no heat leaves it (to 5 s)."""
    k = k_factor(material, initial_c, final_c)
    area = area_mm2(size)
    return k.became((k.value * area) ** 2, "A2 s", f"{k.row}: ({k.value:.1f} x {area:.4g} mm2)^2")


def least_area_mm2(current_a: float, time_s: float, k: float) -> float:
    """S = I sqrt(t) / k in mm2 (IEC 60364-5-54, 543.1.2)."""
    return current_a * sqrt(time_s) / k


def tabulated_k(application: str, insulation: str, material: str) -> Sourced[float]:
    """k as IEC 60364-4-43 and 5-54 print it, in A s**0.5 per mm2.

    ``application``: "in cable", "separate", "bare", "bare, fire risk", "bare on PVC sheath",
    "bare on polyethylene sheath" or "armour". CodesError, naming the insulations there are.
    """
    metal = material_of(material).core
    fitting = [row for row in rows("common/adiabatic_k") if row["application"] == application]
    for row in fitting:
        if row["insulation"] == insulation and row["material"] == metal:
            return Sourced(
                float(row["k_a_sqrt_s_per_mm2"]),
                "A s^0.5/mm2",
                row["table"],
                f"{application}, {insulation}, {metal}",
                confidence_of(row),
                row["sources"],
            )
    known = dict.fromkeys(row["insulation"] for row in fitting)
    raise not_in_table(f"{application}, {insulation}, {metal}", "the tables of k", known)


def limit_temperature_c(family: str) -> Sourced[float]:
    """Short-circuit limit of an insulation in C: "thermoplastic", "rubber" or "cross-linked".

    The lowest of the usual figures (thermoplastic 150 by ICEA, 160 by IEC). CodesError for other
    words.
    """
    if family not in LIMIT_C:
        raise not_among(family, LIMIT_C)
    return Sourced(
        LIMIT_C[family],
        "C",
        "ICEA P-32-382; IEC 60364-4-43 table 43A",
        family,
        Confidence.MEMORY,
        "from memory",
    )


def insulation_type(name: str) -> Sourced[float]:
    """Rated temperature in C of a wire or cable type ("THHN", "NM-B", "SOOW", "boat cable" ...).

    ``note`` names its insulation family, for :func:`limit_temperature_c`. CodesError for others.
    """
    table = by("na/insulation_types", "type")
    row = table.get(name)
    if row is None:
        raise not_in_table(name, "the table of wire types", closest(name, table))
    return Sourced(
        float(row["rated_C"]),
        "C",
        "NFPA 70 table 310.4(1), UL 62, SAE J1128",
        f"{name}: {row['use']}",
        confidence_of(row),
        row["sources"],
        note=row["material"],
    )
