"""How a kind of part says what is inside it: plain frozen values, no behaviour.

A point inside a part is a pair ``(terminal, pole)``; a point that no terminal
shows has an inner name in the terminal's place: ``("bus", "L")``. What the whole
sheet shares is ``("@", "earth")`` or ``("@", "body:trailer")``.
"""

from linework.wiring.elements import (
    EARTH_POINT,
    Contact,
    Convert,
    Draw,
    Element,
    Face,
    GroundFault,
    Inside,
    Join,
    Leak,
    Limit,
    Link,
    Metal,
    Overcurrent,
    Pins,
    Place,
    Source,
    Terminal,
    When,
    body_point,
)
from linework.wiring.groups import SourceGroup
from linework.wiring.points import Point
from linework.wiring.poles import Pole, is_ac, is_dc, is_protective, is_ungrounded
from linework.wiring.selectors import Follow, Passing, Selector
from linework.wiring.three import Three

__all__ = [
    "EARTH_POINT",
    "Contact",
    "Convert",
    "Draw",
    "Element",
    "Face",
    "Follow",
    "GroundFault",
    "Inside",
    "Join",
    "Leak",
    "Limit",
    "Link",
    "Metal",
    "Overcurrent",
    "Passing",
    "Pins",
    "Place",
    "Point",
    "Pole",
    "Selector",
    "Source",
    "SourceGroup",
    "Terminal",
    "Three",
    "When",
    "body_point",
    "is_ac",
    "is_dc",
    "is_protective",
    "is_ungrounded",
]
