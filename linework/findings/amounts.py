"""Small currents in words: what nobody could measure is not told to three digits."""

from __future__ import annotations

from linework.words import say

_LEAST_MA = 0.1


def milliampere(amps: float) -> str:
    """A current in mA, without the unit; below a tenth only that it is less."""
    value = 1000.0 * abs(amps)
    if value < _LEAST_MA:
        return say("less than {least}", least=f"{_LEAST_MA:g}")
    return f"{value:.0f}" if value >= 100.0 else f"{value:.3g}"
