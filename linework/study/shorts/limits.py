"""How long sources hold their current into a fault."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from linework.circuit.network import Reals
from linework.wiring import Source

_DRIVES = 1e-3
"""A source that gives less than this share of the most that one gives drives no fault."""


@dataclass(frozen=True, slots=True)
class Fall:
    """Scales of the linear solution at first and after ``later_s`` seconds.

    All sources are off after ``off_s`` (None: never).
    """

    scale: float
    later_scale: float
    later_s: float
    off_s: float | None


STEADY = Fall(1.0, 1.0, 0.0, None)


def falls_of(sources: Sequence[Source], amps: Reals, strong: bool) -> list[Fall]:
    """The fall of each fault; ``amps``: linear current of each source (row) into it (column).

    Each source holds what its limit lets through of its linear current, one without a limit all
    of it; the solution is scaled by what all hold together over what they would give. That is
    exact for one source, and for several that feed one point.
    """
    first = np.array([_first_a(source, strong) for source in sources])[:, None]
    lasting = np.array([_lasting_a(source, strong) for source in sources])[:, None]
    held = np.minimum(amps, first)
    later = np.minimum(held, lasting)
    total = amps.sum(axis=0)
    safe = np.where(total > 0.0, total, 1.0)
    scale = np.where(total > 0.0, held.sum(axis=0) / safe, 1.0)
    later_scale = np.where(total > 0.0, later.sum(axis=0) / safe, 1.0)
    drives = (amps > 0.0) & (amps >= _DRIVES * amps.max(axis=0, initial=0.0))
    return [
        _fall([s for s, on in zip(sources, drives[:, i], strict=True) if on], *both)
        for i, both in enumerate(zip(scale.tolist(), later_scale.tolist(), strict=True))
    ]


def _fall(driving: list[Source], scale: float, later_scale: float) -> Fall:
    limits = [source.limit for source in driving if source.limit is not None]
    if not limits:
        return STEADY
    offs = [limit.off_s for limit in limits if limit.off_s is not None]
    return Fall(
        scale,
        later_scale,
        max(limit.decay_s for limit in limits),
        max(offs) if len(offs) == len(driving) else None,
    )


def _first_a(source: Source, strong: bool) -> float:
    if source.limit is None or source.limit.first_a is None:
        return np.inf
    return source.limit.first_a.high if strong else source.limit.first_a.low


def _lasting_a(source: Source, strong: bool) -> float:
    if source.limit is None:
        return np.inf
    lasting = source.limit.sustained_a
    return lasting.high if strong else lasting.low
