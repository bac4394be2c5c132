"""What is asked of a part that sits in a box of its own, to tell whether its wires find room."""

from __future__ import annotations

from linework.kinds.ratings import Choice, Rating
from linework.kinds.run import NOT_GIVEN
from linework.words import N_

BOXES: dict[str, tuple[str, ...]] = {
    "round/octagonal": ("4 x 1-1/4", "4 x 1-1/2", "4 x 2-1/8"),
    "square": (
        "4 x 1-1/4",
        "4 x 1-1/2",
        "4 x 2-1/8",
        "4-11/16 x 1-1/4",
        "4-11/16 x 1-1/2",
        "4-11/16 x 2-1/8",
    ),
    "device": (
        "3 x 2 x 1-1/2",
        "3 x 2 x 2",
        "3 x 2 x 2-1/4",
        "3 x 2 x 2-1/2",
        "3 x 2 x 2-3/4",
        "3 x 2 x 3-1/2",
        "4 x 2-1/8 x 1-1/2",
        "4 x 2-1/8 x 1-7/8",
        "4 x 2-1/8 x 2-1/8",
    ),
}
"""Metal boxes by kind and trade size in inches (NFPA 70 table 314.16(A))."""

_NAMES = {
    "round/octagonal": N_("round or octagonal"),
    "square": N_("square"),
    "device": N_("device box"),
}

BOX_RATINGS = (
    Rating(
        "shared_box",
        N_("Box that it shares"),
        "text",
        "",
        quiet=True,
        help=N_("A name; outlets and joints that lie in the same box have the same."),
    ),
    Rating(
        "box",
        N_("Metal box, inches"),
        "choice",
        NOT_GIVEN,
        choices=(
            Choice(NOT_GIVEN, N_("not given")),
            *(
                Choice(f"{kind} {size}", f"{_NAMES[kind]} {size}")
                for kind in BOXES
                for size in BOXES[kind]
            ),
        ),
        quiet=True,
    ),
    Rating(
        "volume",
        N_("Volume of the box, as marked"),
        "volume",
        low=1.0,
        quiet=True,
        help=N_("Marked in plastic boxes; extension rings and covers may add theirs."),
    ),
    Rating(
        "clamps",
        N_("Cable clamps inside the box"),
        "choice",
        NOT_GIVEN,
        choices=(
            Choice(NOT_GIVEN, N_("not given")),
            Choice("no", N_("no")),
            Choice("yes", N_("yes")),
        ),
        quiet=True,
    ),
)
