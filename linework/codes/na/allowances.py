"""What NFPA 70 allows beyond its tables: cords, parallel conductors, taps, dwellings."""

from __future__ import annotations

from linework.codes.na.edition import LATEST, cite
from linework.codes.sizes import size_of
from linework.codes.stated import stated
from linework.codes.value import Sourced
from linework.data import Confidence

_CORD_LEAST = "16 AWG"
_LEAST_PARALLEL = "1/0 AWG"
_TAPS = ("tap_short", "tap_long")


def limit(key: str, edition: str = LATEST) -> Sourced[float]:
    """A single figure of the table of limits, its clause with standard and edition."""
    figure = stated("na", key, edition)
    return figure.of(cite(figure.clause, edition))


def cord_device(size: str, ampacity_a: float, edition: str = LATEST) -> Sourced[float] | None:
    """The device in ampere that may protect a cord of less ampacity (240.5(B)): 20 A from 16 AWG
    on; None for thinner ones and where the ampacity reaches it."""
    most = limit("cord_device", edition)
    thin = size_of(size).cmil < size_of(_CORD_LEAST).cmil
    return None if thin or ampacity_a >= most.value else most


def parallel(size: str, number: int, edition: str = LATEST) -> Sourced[float] | None:
    """How many times the ampacity of one equal conductors in parallel have (310.10(G), from
    memory); None for those thinner than 1/0 AWG, which do not count."""
    if size_of(size).cmil < size_of(_LEAST_PARALLEL).cmil:
        return None
    clause, where = cite("310.10(G)", edition), f"{number} equal conductors in parallel"
    return Sourced(float(number), "", clause, where, Confidence.MEMORY, "from memory")


def taps(edition: str = LATEST) -> tuple[tuple[Sourced[float], Sourced[float]], ...]:
    """Longest taps in meter, and how many times their ampacity the device before them may be
    (240.21(B)(1) and (2))."""
    return tuple((limit(key, edition), limit(f"{key}_times", edition)) for key in _TAPS)


def dwelling_service(device_a: float, edition: str = LATEST) -> Sourced[float] | None:
    """Least ampacity in ampere of a dwelling's service conductors (310.12): 83 % of the rating
    from 100 to 400 A; None for other ratings."""
    least, most = limit("dwelling_least", edition), limit("dwelling_most", edition)
    if not least.value <= device_a <= most.value:
        return None
    share = limit("dwelling_share", edition)
    return share.became(share.value * device_a, "A", f"{share.value:.0%} of {device_a:g} A")


def set_outlet_protection(
    volts: float, amps: float, set_va: float, edition: str = LATEST
) -> Sourced[bool]:
    """Whether the maker of a bonded portable set protects such an outlet of it (445.20(B))."""
    power = limit("set_outlet_power", edition)
    asked = (
        set_va <= power.value
        and volts <= limit("set_outlet_voltage", edition).value
        and amps <= limit("set_outlet_current", edition).value
    )
    return power.became(asked, "", f"{volts:g} V, {amps:g} A, {set_va:g} VA", power.confidence)
