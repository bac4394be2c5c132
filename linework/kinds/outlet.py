"""Outlet: contacts into which a plug goes, with ground-fault or arc-fault protection or without."""

from __future__ import annotations

from linework.data import Confidence
from linework.kinds.boxes import BOX_RATINGS
from linework.kinds.common import CIRCUIT, PLUG_CONTACT, live_poles, poles_of, straight, switched
from linework.kinds.gfci import CLOSED, GROUND_FAULT, Sensed, ground_fault_element
from linework.kinds.kind import Carries, Kind
from linework.kinds.ratings import Choice, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Element,
    Face,
    Inside,
    Join,
    Metal,
    Place,
    Pole,
    Selector,
    Terminal,
    is_protective,
)
from linework.words import N_

CONFIGURATION = Rating(
    "configuration",
    N_("Configuration"),
    "configuration",
    "5-15",
    Origin(N_("ANSI/NEMA WD 6"), Confidence.PUBLISHED),
    help=N_("The pattern of its contacts: 5-15, TT-30, L14-30, 12V socket, trailer 7-way."),
)

UNGROUNDED = ("1-15", "10-30", "10-50")
"""Configurations without a ground contact that old circuits still have (ANSI/NEMA WD 6)."""

MARKED = Rating(
    "marked",
    N_("Marked"),
    "choice",
    "none",
    choices=(
        Choice("none", N_("nothing")),
        Choice("no_ground", N_("no equipment {ground}")),
    ),
    quiet=True,
)

AREA = Rating(
    "area",
    N_("Where it is"),
    "choice",
    "dry",
    choices=(
        Choice("dry", N_("dry, indoors")),
        Choice("sink", N_("near a sink or basin")),
        Choice("kitchen", N_("in a kitchen or galley")),
        Choice("bath", N_("bath, shower or toilet room")),
        Choice("outside", N_("outside")),
        Choice("wet", N_("damp or wet, indoors")),
        Choice("garage", N_("garage, shed or basement")),
        Choice("engine", N_("in an engine space")),
    ),
    help=N_("Decides whether it needs ground-fault protection."),
)

ARC_FAULT = Rating(
    "arc_fault",
    N_("Arc-fault protection"),
    "choice",
    "none",
    choices=(
        Choice("none", N_("none")),
        Choice("outlet", N_("arc-fault, outlet type")),
    ),
    help=N_(
        "On its face: {afci}. Where it says {gfci} too, give that as its ground-fault protection."
    ),
    quiet=True,
    ac_only=True,
)
"""It guards what is plugged in and what lies on its onward terminals, not the wires before it."""

_DUPLEX = ("5-15", "5-20")
"""What is made with two faces on one strap as a rule (common practice, no source)."""

RATINGS = (
    CIRCUIT,
    CONFIGURATION,
    GROUND_FAULT,
    ARC_FAULT,
    MARKED,
    AREA,
    Rating(
        "duplex",
        N_("Faces on the strap"),
        "count",
        "1",
        low=1,
        high=4,
        quiet=True,
        derive=lambda values: "2" if values.text("configuration") in _DUPLEX else None,
    ),
    *BOX_RATINGS,
)


def contact_poles(values: Values) -> tuple[Pole, ...]:
    """The contacts of a configuration: those of its circuit, without ground where it has none."""
    ungrounded = values.text("configuration") in UNGROUNDED
    return tuple(p for p in poles_of(values) if not (ungrounded and is_protective(p)))


def terminals(values: Values) -> tuple[Terminal, ...]:
    """The feed, the onward terminals (behind its protection), the face itself for a cord."""
    poles = contact_poles(values)
    return (
        Terminal("feed", poles, "in"),
        Terminal("onward", poles, "out"),
        Terminal("face", poles, "out"),
    )


def face_place(
    poles: tuple[Pole, ...],
    configuration: str,
    also: frozenset[str] = frozenset(),
    face: str = "face",
) -> Place:
    """The place of what plugs into a face of these poles; ``also``: what else may sit there."""
    offers = tuple((pole, (face, pole)) for pole in poles)
    accepts = frozenset({"plug", "load", "bond_plug", "adapter"}) | also
    return Place(face, accepts, offers, configuration)


CORD_END = frozenset({"inlet"})
"""What the outlet end of a cord goes on, besides what plugs into any face."""


def mouth(poles: tuple[Pole, ...], configuration: str, face: str = "face") -> tuple[Element, ...]:
    """The contacts of a face, and its ground contact as metal that can be touched."""
    contacts = Face(face, tuple((p, (face, p)) for p in poles), configuration)
    if Pole.PE not in poles:
        return (contacts,)
    return (contacts, Metal("ground contact", (face, Pole.PE)))


def places(values: Values) -> tuple[Place, ...]:
    """The face takes plugs."""
    return (face_place(contact_poles(values), values.text("configuration")),)


def inside(values: Values) -> Inside:
    """Feed to face, through the contacts of the device where one is built in."""
    poles = contact_poles(values)
    elements: list[Element] = []
    selectors: tuple[Selector, ...] = ()
    if not _opens(values):
        elements += straight("feed", "face", poles)
    else:
        elements += _protected(values, poles)
        selectors = (Selector("breaker", ("closed", "open"), "closed", "protection"),)
    elements += straight("face", "onward", poles)
    elements += mouth(poles, values.text("configuration"))
    return Inside(tuple(elements), selectors)


def _opens(values: Values) -> bool:
    """Whether a device with contacts is built in."""
    arcs = values.applies("arc_fault") and values.pick("arc_fault") != "none"
    return arcs or values.pick("ground_fault") != "none"


def _protected(values: Values, poles: tuple[Pole, ...]) -> list[Element]:
    """What watches for arcs alone opens the lines; what compares currents opens the neutral too."""
    compares = values.pick("ground_fault") != "none" and Pole.N in poles
    opened = (*live_poles(poles), Pole.N) if compares else live_poles(poles)
    sensed: Sensed = ground_fault_element(values, poles, opened, PLUG_CONTACT)
    elements: list[Element] = [*switched("line", "load", opened, PLUG_CONTACT, CLOSED)]
    elements += sensed.elements
    for pole in poles:
        elements.append(Join(("feed", pole), ("line", pole)))
        elements.append(Join(("load", pole), ("face", pole)))
    rest = tuple(p for p in poles if p not in sensed.through)
    return [*elements, *straight("line", "load", rest)]


KIND = Kind(
    key="outlet",
    name=N_("{outlet}"),
    letters="XD",
    strip="loads",
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "outlet",
    seat="feed",
    roles=frozenset({"outlet"}),
    captions=("configuration", "ground_fault", "arc_fault"),
    columns=("configuration", "ground_fault", "arc_fault", "area", "marked", "shared_box"),
    search=N_("outlet receptacle socket GFCI AFCI arc fault outlet 12 V socket trailer connector"),
    carries=(Carries("configuration", "face"),),
)
