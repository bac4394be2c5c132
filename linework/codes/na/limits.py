"""Limits of NFPA 70 and of its practice that findings are judged by."""

from __future__ import annotations

from typing import Literal

from linework.codes.na.edition import LATEST, cite, constant, fact
from linework.codes.value import Sourced
from linework.data import Confidence
from linework.words import say

DropPart = Literal["branch", "feeder", "total"]

DANGER_MULTIPLE = 2.0
SLOW_MULTIPLE = 5.0


def clearing_multiple(edition: str = LATEST) -> Sourced[float]:
    """Multiple of its rating below which a fault current is not taken to open a device: 2.

    The gate at which UL 489 fixes minutes; a reading of 250.4(A)(5).
    """
    rule = fact("G12", edition)
    return rule.became(DANGER_MULTIPLE, "", "twice the rating", Confidence.PUBLISHED)


def quick_multiple(edition: str = LATEST) -> Sourced[float]:
    """Multiple of its rating from which a breaker without a curve is taken to be quick: 5."""
    rule = fact("G12", edition)
    return rule.became(
        SLOW_MULTIPLE, "", "five times the rating: common practice, no source", Confidence.MEMORY
    )


def drop_advice(part: DropPart, edition: str = LATEST) -> Sourced[float]:
    """Voltage drop in percent that the informational notes advise: 3 a branch or feeder, 5 in all.

    Advice, never a violation (210.19(A), 215.2(A)(1)).
    """
    return constant("G04", {"branch": 3.0, "feeder": 3.0, "total": 5.0}[part], "%", edition)


def marine_drop_limit(critical: bool, edition: str = LATEST) -> Sourced[float]:
    """Voltage drop in percent afloat (ABYC E-11): 3 for critical loads, else 10."""
    return constant("G24", 3.0 if critical else 10.0, "%", edition)


def room_before_boards(aboard: bool, edition: str = LATEST) -> Sourced[str]:
    """Room to be kept before boards, in words (110.26(A); aboard 551.45(B)); from memory."""
    if aboard:
        room, clause = say("24 in wide, 30 in deep"), "551.45(B)"
    else:
        room, clause = say("3 ft deep, 30 in wide, 6.5 ft high"), "110.26(A)"
    return Sourced(
        room, "", cite(clause, edition), "room before boards", Confidence.MEMORY, "from memory"
    )
