"""Standard ratings, and the largest device that a conductor allows (NFPA 70 article 240)."""

from __future__ import annotations

from typing import Literal

from linework.codes.errors import not_in_table
from linework.codes.materials import material_of
from linework.codes.na.allowances import limit
from linework.codes.na.edition import LATEST, cite, constant, fact, valid_in
from linework.codes.sizes import size_of
from linework.codes.tables import confidence_of, rows
from linework.codes.value import Sourced, Worked, Working
from linework.data import Confidence
from linework.words import say

Device = Literal["breaker", "fuse"]
CONTINUOUS = 1.25
_ROUNDING_STOPS_A = 800.0

_COLUMN = {
    "breaker": "standard_for_inverse_time_breakers",
    "fuse": "standard_for_fuses",
}


def standard_ratings(
    device: Device = "breaker", edition: str = LATEST
) -> tuple[Sourced[float], ...]:
    """The standard ratings of 240.6(A) in ampere, rising."""
    clause = cite("Table 240.6(A)" if edition >= "2020" else "240.6(A)", edition)
    found = {
        float(row["rating_A"]): Sourced(
            float(row["rating_A"]),
            "A",
            clause,
            f"{row['rating_A']} A, {device}",
            confidence_of(row),
            row["sources"],
            edition,
        )
        for row in rows("na/standard_ratings_240_6")
        if row[_COLUMN[device]] == "yes" and valid_in(row, edition)
    }
    return tuple(found[amps] for amps in sorted(found))


def standard_up(amps: float, device: Device = "breaker", edition: str = LATEST) -> Sourced[float]:
    """The least standard rating not below ``amps``. CodesError above 6000 A."""
    for rating in standard_ratings(device, edition):
        if rating.value >= amps:
            return rating
    raise not_in_table(f"{amps:g} A", cite("240.6(A)", edition), ("6000 A",))


def standard_down(amps: float, device: Device = "breaker", edition: str = LATEST) -> Sourced[float]:
    """The greatest standard rating not above ``amps``. CodesError below the least."""
    fitting = [each for each in standard_ratings(device, edition) if each.value <= amps]
    if not fitting:
        least = standard_ratings(device, edition)[0].value
        raise not_in_table(f"{amps:g} A", cite("240.6(A)", edition), (f"{least:g} A",))
    return fitting[-1]


def small_conductor_limit(
    size: str, material: str = "copper", edition: str = LATEST
) -> Sourced[float] | None:
    """The greatest device in ampere for a small conductor (240.4(D)), None for larger ones.

    ``note`` names a condition that goes with it. Motors, air conditioners, welders and taps have
    rules of their own.
    """
    metal, text = material_of(material), size_of(size).text
    word = "copper" if metal.is_copper else str(metal)
    for row in rows("na/small_conductors_240_4_D"):
        if (row["size"], row["material"]) == (text, word) and valid_in(row, edition):
            return Sourced(
                float(row["max_device_A"]),
                "A",
                cite("240.4(D)", edition),
                f"{text}, {word}",
                confidence_of(row),
                row["sources"],
                edition,
                row["condition"],
            )
    return None


def largest_device(
    ampacity: Worked[float] | Sourced[float],
    size: str,
    material: str = "copper",
    *,
    device: Device = "breaker",
    several_outlets: bool = False,
    edition: str = LATEST,
) -> Worked[float]:
    """The largest device in ampere that protects a conductor of this ampacity, with its steps.

    A standard rating equal to the ampacity, else the next one up (240.4(B)), which is not open
    above 800 A (240.4(C)) nor to a branch circuit with ``several_outlets`` for cords and plugs;
    there the next one down. Then at most the limit of 240.4(D). A device that is not of a
    standard rating is allowed when it is not above the result. CodesError above 6000 A.
    """
    start = _as_start(ampacity, edition)
    work = Working(say("Ampacity of the conductor"), start)
    up = standard_up(start.value, device, edition)
    if up.value > start.value:
        rule, rating = _rounded(start.value, up, device, several_outlets, edition)
        work.set(
            say("Standard rating"), rule.became(rating.value, "A", rating.row, rating.confidence)
        )
    limit = small_conductor_limit(size, material, edition)
    if limit is not None:
        work.at_most(say("Small conductor"), limit)
    return work.done()


def _rounded(
    amps: float, up: Sourced[float], device: Device, several_outlets: bool, edition: str
) -> tuple[Sourced[str], Sourced[float]]:
    if up.value > _ROUNDING_STOPS_A:
        return fact("G06", edition), _down(amps, device, edition)
    if several_outlets:
        return fact("G05", edition), _down(amps, device, edition)
    return fact("G05", edition), up


def _down(amps: float, device: Device, edition: str) -> Sourced[float]:
    """The standard rating below, or the ampacity itself where there is none."""
    ratings = standard_ratings(device, edition)
    if amps >= ratings[0].value:
        return standard_down(amps, device, edition)
    return ratings[0].became(amps, "A", "below the least standard rating: the ampacity itself")


def _as_start(ampacity: Worked[float] | Sourced[float], edition: str) -> Sourced[float]:
    if isinstance(ampacity, Sourced):
        return ampacity
    by_step = ampacity.decided_by.figure
    return Sourced(
        ampacity.value,
        ampacity.unit,
        by_step.clause,
        by_step.row,
        ampacity.confidence,
        by_step.source,
        edition,
    )


def design_current(
    steady_a: float, continuous_a: float, *, full_rated: bool = False, edition: str = LATEST
) -> Worked[float]:
    """The current in ampere that a device must be rated for (210.20(A), 215.3), with its steps.

    The load that runs under three hours plus 125 % of what runs longer; 100 % of both where the
    assembly is listed for it (``full_rated``).
    """
    key = "G02" if full_rated else "G01"
    work = Working(say("Load under three hours"), _load(steady_a))
    factor = 1.0 if full_rated else CONTINUOUS
    extra = constant(key, continuous_a * factor, "A", edition)
    work.plus(say("Load over three hours"), extra)
    return work.done()


def appliance_device(amps: float, edition: str = LATEST) -> Sourced[float]:
    """The largest device in ampere before a single appliance without a motor (422.11(E)): 20 A up
    to 13.3 A, else the standard rating next above 150 % of its current."""
    small, most = limit("appliance_small", edition), limit("appliance_small_device", edition)
    if amps <= small.value:
        return most
    share = limit("appliance_share", edition)
    up = standard_up(share.value * amps, "breaker", edition)
    return share.became(up.value, "A", f"150 % of {amps:.3g} A, {up.row}", share.confidence)


def _load(amps: float) -> Sourced[float]:
    return Sourced(amps, "A", "design", "drawn loads", Confidence.DERIVED, "design")
