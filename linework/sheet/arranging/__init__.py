"""A starting position for parts that have none, and what others want of how it is found."""

from linework.sheet.arranging.arrange import (
    arranged_on_sheets,
    holds_each,
    lay_out,
    needs_arranging,
    place_new,
)
from linework.sheet.arranging.feeding import GIVES, flows
from linework.sheet.arranging.spacing import ORIGIN, Spacing

__all__ = [
    "GIVES",
    "ORIGIN",
    "Spacing",
    "arranged_on_sheets",
    "flows",
    "holds_each",
    "lay_out",
    "needs_arranging",
    "place_new",
]
