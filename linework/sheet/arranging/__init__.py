"""A starting position for parts that have none."""

from linework.sheet.arranging.arrange import lay_out, needs_arranging, place_new

__all__ = ["lay_out", "needs_arranging", "place_new"]
