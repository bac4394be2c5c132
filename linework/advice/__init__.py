"""Proposals that are edits: mends tried out on a copy before they are offered."""

from linework.advice.mends import proven, with_proven_mends, without_mends

__all__ = ["proven", "with_proven_mends", "without_mends"]
