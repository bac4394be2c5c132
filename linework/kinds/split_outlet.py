"""Duplex outlet whose tabs are broken out: two faces on one strap, fed each by itself."""

from __future__ import annotations

from linework.kinds.boxes import BOX_RATINGS
from linework.kinds.common import POLES, straight
from linework.kinds.kind import Carries, Kind
from linework.kinds.outlet import AREA, CONFIGURATION, MARKED, face_place, mouth
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import Inside, Join, Place, Pole, Terminal
from linework.words import N_

_POLES = POLES["ac"]
_HALVES = (("feed", "face"), ("feed_2", "face_2"))

RATINGS = (
    CONFIGURATION,
    Rating(
        "tabs",
        N_("Tabs broken out"),
        "choice",
        "hot",
        choices=(
            Choice("hot", N_("on the {hot} side only")),
            Choice("both", N_("on both sides")),
        ),
        help=N_("While the tab on the {neutral} side is in, both halves share one {neutral}."),
    ),
    MARKED,
    AREA,
    Rating("duplex", N_("Faces on each half"), "count", "1", low=1, quiet=True),
    *BOX_RATINGS,
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """A feed and a face for each half."""
    return tuple(
        end
        for feed, face in _HALVES
        for end in (Terminal(feed, _POLES, "in"), Terminal(face, _POLES, "out"))
    )


def places(values: Values) -> tuple[Place, ...]:
    """Each face takes plugs."""
    configuration = values.text("configuration")
    return tuple(face_place(_POLES, configuration, face=face) for _, face in _HALVES)


def inside(values: Values) -> Inside:
    """Each feed to its face; the strap joins the ground contacts, a tab that is left the rest."""
    made = values.text("configuration")
    halves = [
        element
        for feed, face in _HALVES
        for element in (*straight(feed, face, _POLES), *mouth(_POLES, made, face))
    ]
    shared = (Pole.PE,) if values.pick("tabs") == "both" else (Pole.N, Pole.PE)
    return Inside((*halves, *(Join(("feed", pole), ("feed_2", pole)) for pole in shared)))


KIND = Kind(
    key="split_outlet",
    name=N_("{outlet} with its tabs broken out"),
    letters="XD",
    strip="loads",
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "split_outlet",
    seat="feed",
    roles=frozenset({"outlet"}),
    captions=("configuration", "tabs"),
    columns=("configuration", "tabs", "area", "marked", "shared_box"),
    search=N_("split duplex receptacle half switched tab removed two circuits one strap"),
    carries=tuple(Carries("configuration", face) for _, face in _HALVES),
)
