"""How sure a figure is: a mark that travels with it, so that nobody reads it out of a text."""

from __future__ import annotations

from enum import StrEnum


class Confidence(StrEnum):
    """What stands behind a figure, surest first; the words are those of the tables' column."""

    DEFINED = "by definition"
    """True by naming or by law of nature."""
    DERIVED = "derived"
    """Follows from theory, or from figures of the same part."""
    AGREED = "C2"
    """Two independent sources agree."""
    PUBLISHED = "C1"
    """One source states it: a standard, a maker."""
    PRACTICE = "practice"
    """What the trade usually does; no source."""
    MEMORY = "M"
    """From memory, or an assumption."""

    @property
    def confirmed(self) -> bool:
        """Whether two sources, theory or a definition stand behind the figure."""
        return self in (Confidence.DEFINED, Confidence.DERIVED, Confidence.AGREED)
