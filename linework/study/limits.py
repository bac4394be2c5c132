"""How long a source holds its current into a fault."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from linework.wiring import Source

_STIFF = 1e9


@dataclass(frozen=True, slots=True)
class Fall:
    """Scale of the linear solution at first and later, and when; off after ``off_s`` (None: never)."""

    scale: float
    later_scale: float
    later_s: float
    off_s: float | None


STEADY = Fall(1.0, 1.0, 0.0, None)


def fall_of(fed: Sequence[tuple[Source, float]], strong: bool) -> Fall:
    """The fall of a fault fed by sources with these linear currents (ampere).

    A source without a limit holds its current for good. Beside a stiff source a
    limited one adds what its impedance lets through, which is on the safe side
    for withstand; alone, the tightest limit scales the whole solution, which is
    exact for one source.
    """
    driving = [(source, amps) for source, amps in fed if amps > 1e-12]
    if not driving or any(source.limit is None for source, _ in driving):
        return STEADY
    falls = [_one(source, amps, strong) for source, amps in driving]
    offs = [fall.off_s for fall in falls]
    return Fall(
        min(fall.scale for fall in falls),
        min(fall.later_scale for fall in falls),
        max(fall.later_s for fall in falls),
        None if any(off is None for off in offs) else max(off for off in offs if off is not None),
    )


def _one(source: Source, amps: float, strong: bool) -> Fall:
    limit = source.limit
    assert limit is not None
    first_a = _STIFF
    if limit.first_a is not None:
        first_a = limit.first_a.high if strong else limit.first_a.low
    later_a = limit.sustained_a.high if strong else limit.sustained_a.low
    scale = min(1.0, first_a / amps)
    return Fall(scale, min(scale, later_a / amps), limit.decay_s, limit.off_s)
