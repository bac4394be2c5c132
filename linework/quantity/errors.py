"""The refusal of a text or figure, told in a sentence."""

from __future__ import annotations

from difflib import SequenceMatcher

_SHOWN = 40
_ALIKE = 0.6


class QuantityError(ValueError):
    """What was typed, why it is refused, and an example of what to write."""


def quoted(text: str) -> str:
    """A typed text as a message may repeat it: printable, and not too long."""
    clean = "".join(sign if sign.isprintable() else " " for sign in text)
    return clean if len(clean) <= _SHOWN else clean[: _SHOWN - 3] + "..."


def nearest(slip: str, spellings: dict[str, str]) -> str | None:
    """The value of the key of ``spellings`` that looks most like ``slip``, case aside.

    Only keys with the same first letter: "milliampere" is not offered "ampere",
    a thousand times as much.
    """
    folded = slip.casefold()
    likeness = {
        # Equally alike, the one with the same capital: M is mega and m is milli.
        spelling: SequenceMatcher(None, spelling.casefold(), folded).ratio()
        + 0.01 * (spelling[0] == slip[0])
        for spelling in spellings
        if spelling[0].casefold() == folded[0]
    }
    best = max(likeness, key=likeness.__getitem__, default=None)
    return spellings[best] if best is not None and likeness[best] >= _ALIKE else None
