"""A starting position for parts that have none, and what others want of how it is found."""

from linework.sheet.arranging.arrange import lay_out, needs_arranging, place_new
from linework.sheet.arranging.feeding import GIVES, flows
from linework.sheet.arranging.spacing import ORIGIN, Spacing

__all__ = [
    "GIVES",
    "ORIGIN",
    "Spacing",
    "flows",
    "lay_out",
    "needs_arranging",
    "place_new",
]
