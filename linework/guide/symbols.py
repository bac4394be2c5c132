"""The symbol of a kind of part as a small drawing of its own."""

from __future__ import annotations

from linework.design import Design, Part, Settings
from linework.kinds import Ratings, kind_of
from linework.picture.measure import bounds
from linework.picture.model import Group, Picture
from linework.sheet.parts import draw_part

_EDGE = 20
_PLACES = "3"
"""A board is shown with so many places."""


def symbol_picture(name: str) -> Picture:
    """The drawing by the name that a page gives it, "generator.NA", a little paper round it.

    LookupError for an unknown kind, ValueError for an unknown family.
    """
    key, _, family = name.rpartition(".")
    design, kind = Design(Settings(family=family)), kind_of(key)
    few = Ratings.of({"places": _PLACES}) if "places" in kind.declared else Ratings()
    group = draw_part(design, Part("shown", key, "", few)).group
    box = bounds((group,))
    if box is None:
        return Picture(2 * _EDGE, 2 * _EDGE, ())
    box = box.grown(_EDGE)
    return Picture(box.width, box.height, (Group((group,), -box.left, -box.top),))
