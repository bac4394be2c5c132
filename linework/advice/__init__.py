"""Proposals that are edits: mends tried out on a copy before they are offered."""

from linework.advice.mends import proven, settled, together, with_proven_mends, without_mends
from linework.advice.proof import Proof, Tried, flat

__all__ = [
    "Proof",
    "Tried",
    "flat",
    "proven",
    "settled",
    "together",
    "with_proven_mends",
    "without_mends",
]
