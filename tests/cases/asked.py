"""Situations of our own, as owners ask about them, and what must be told of each: all of it.

The verdict of each was written down before the program was asked; where it was wrong, the program
was mended (or the drawing, where that had a second mistake).
"""

from __future__ import annotations

from collections.abc import Callable

from linework.analysis import analyse
from linework.design import Draft

Told = tuple[str, str, str]
"""Rule, level, and the first place of what stands by itself, not under a cause."""


def told(draft: Draft) -> set[Told]:
    """The dangers and warnings of a situation that stand by themselves."""
    analysis = analyse(draft.design)
    assert not [gap for gap in analysis.gaps if "error of its own" in gap.reason]
    return {(f.rule, f.level.word, f.where[0]) for f in analysis.open_findings}


Asked = tuple[Callable[[], Draft], set[Told]]
"""How a situation is drawn, and what must be told of it."""
