"""The drawing of neutral, ground and bonds, from the conductors and not from the picture."""

from linework.handover.grounding.page import GROUNDING

__all__ = ["GROUNDING"]
