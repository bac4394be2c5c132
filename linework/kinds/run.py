"""What is asked of a run: its conductors and how they are laid."""

from __future__ import annotations

from linework.data import Confidence
from linework.kinds.ratings import Choice, Origin, Rating
from linework.words import N_

NOT_GIVEN = "unknown"
"""The word of a choice that nobody has made: what rests on it is not judged."""

HOUSE_CABLE = "house_cable"
"""The word for nonmetallic-sheathed cable: its wires are made for 90 °C (NFPA 70 334.112)."""

RACEWAYS = ("EMT", "FMC", "LFNC-B", "LFNC-A", "LFMC", "PVC-40", "ENT", "RMC")
TRADE_SIZES = ("3/8", "1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4")
WIRE_TYPES = ("THHN", "THWN-2", "XHHW-2", "THW")


def _one_of(words: tuple[str, ...]) -> tuple[Choice, ...]:
    """Words of the trade, that need no translation."""
    return (Choice(NOT_GIVEN, N_("not given")), *(Choice(word, word) for word in words))


_RATINGS = (
    Rating(
        "size",
        N_("Conductor size"),
        "size",
        needed=True,
        help=N_("For example 12 AWG, 4/0 AWG or 2.5 mm2."),
    ),
    Rating(
        "length",
        N_("Length, one way"),
        "length",
        low=0.0,
        high=20000.0,
        needed=True,
        usual=(0.03, 500.0),
        help=N_("Measured along the cable, not through the air."),
    ),
    Rating(
        "ground_size",
        N_("{ground_wire} size"),
        "size",
        None,
        quiet=True,
        help=N_("Where it differs from the other conductors."),
    ),
    Rating(
        "neutral_size",
        N_("{neutral} size"),
        "size",
        None,
        quiet=True,
        help=N_("Where it differs from the other conductors."),
    ),
    Rating(
        "material",
        N_("Material"),
        "choice",
        "copper",
        choices=(Choice("copper", N_("copper")), Choice("aluminium", N_("aluminium"))),
        help=N_("On the jacket: CU or AL; aluminium is light and soft."),
    ),
    Rating(
        "stranding",
        N_("Stranding"),
        "choice",
        "stranded",
        choices=(Choice("stranded", N_("stranded")), Choice("solid", N_("solid"))),
        quiet=True,
        help=N_("Look at its end: one wire or many."),
    ),
    Rating(
        "insulation",
        N_("Insulation temperature"),
        "choice",
        "75",
        choices=(
            Choice("60", "60 °C"),
            Choice("75", "75 °C"),
            Choice("90", "90 °C"),
            Choice("105", "105 °C"),
        ),
        derive=lambda values: "90" if values.pick("installation") == HOUSE_CABLE else None,
        help=N_("On the jacket: THHN and XHHW-2 are 90, THW 75, TW 60, boat cable 105 °C."),
    ),
    Rating(
        "terminals",
        N_("Terminals marked for"),
        "choice",
        "60",
        Origin(
            N_("NFPA 70 (2023) 110.14(C): 60 °C up to 100 A unless marked"), Confidence.PUBLISHED
        ),
        choices=(Choice("60", "60 °C"), Choice("75", "75 °C"), Choice("90", "90 °C")),
        help=N_("On the label of the device or beside its screws; the lower of both ends counts."),
        quiet=True,
    ),
    Rating(
        "terminal_metal",
        N_("Terminals marked for aluminium"),
        "choice",
        NOT_GIVEN,
        choices=(
            Choice(NOT_GIVEN, N_("not given")),
            Choice("yes", N_("yes, at both ends")),
            Choice("no", N_("no, copper only at one end or both")),
        ),
        help=N_("Of an aluminium run: AL, AL-CU or AL9CU beside the screws, CO/ALR on outlets."),
        quiet=True,
    ),
    Rating(
        "installation",
        N_("How it is laid"),
        "choice",
        "cable",
        choices=(
            Choice("cable", N_("cable, clipped or in a wall")),
            Choice(HOUSE_CABLE, N_("house cable (type NM), clipped or in a wall")),
            Choice("conduit_pvc", N_("in plastic conduit")),
            Choice("conduit_steel", N_("in steel conduit")),
            Choice("free_air", N_("single conductors in free air")),
            Choice("cord", N_("flexible cord")),
            Choice("insulation", N_("in thermal insulation")),
            Choice("engine", N_("in an engine space")),
            Choice("jumper", N_("bonding jumper")),
        ),
        quiet=True,
    ),
    Rating(
        "sheath",
        N_("In a sheath all along"),
        "choice",
        "no",
        choices=(Choice("no", N_("no")), Choice("yes", N_("yes"))),
        help=N_(
            "Loom, sleeve, tube or jacket: afloat the fuse may then be farther from its source."
        ),
        quiet=True,
    ),
    Rating(
        "ambient",
        N_("Ambient temperature"),
        "temperature",
        "30 degC",
        low=-50.0,
        high=90.0,
        usual=(-40.0, 80.0),
        help=N_("The hottest that it gets where the cable lies: attic, engine space, sun."),
    ),
    Rating(
        "grouped",
        N_("Current-carrying conductors together"),
        "count",
        None,
        low=1,
        high=60,
        quiet=True,
        help=N_(
            "Counting those of other runs in the same raceway or bundle; of house cable in a sealed"
            " hole or in insulation from three cables on."
        ),
    ),
    Rating(
        "raceway",
        N_("Raceway"),
        "text",
        "",
        quiet=True,
        help=N_("A name; runs that lie in the same raceway have the same."),
    ),
    Rating(
        "raceway_type",
        N_("Type of raceway"),
        "choice",
        NOT_GIVEN,
        choices=_one_of(RACEWAYS),
        quiet=True,
    ),
    Rating(
        "trade_size",
        N_("Trade size of the raceway"),
        "choice",
        NOT_GIVEN,
        choices=_one_of(TRADE_SIZES),
        quiet=True,
    ),
    Rating(
        "wire_type",
        N_("Wire type"),
        "choice",
        NOT_GIVEN,
        choices=_one_of(WIRE_TYPES),
        quiet=True,
        help=N_("Of single wires in a raceway: how thick they are."),
    ),
    Rating(
        "passes",
        N_("Passes through"),
        "choice",
        "nothing",
        choices=(
            Choice("nothing", N_("nothing")),
            Choice("bushed", N_("sheet metal with a bushing")),
            Choice("bare_metal", N_("sheet metal without a bushing")),
        ),
        quiet=True,
    ),
    Rating(
        "hidden",
        N_("Out of sight"),
        "choice",
        "no",
        choices=(
            Choice("no", N_("no, it lies open")),
            Choice("hole", N_("through a hole in a wall, floor, door or window")),
            Choice("hidden", N_("hidden in a wall, ceiling or floor, or under a carpet")),
        ),
        help=N_("Asked of flexible cords: they must lie where they can be seen and replaced."),
        quiet=True,
    ),
    Rating(
        "broken",
        N_("Broken conductor"),
        "choice",
        "none",
        choices=(
            Choice("none", N_("none")),
            Choice("PE", N_("{ground_wire}")),
            Choice("N", N_("{neutral}")),
            Choice("L", N_("{hot}")),
        ),
        quiet=True,
        help=N_("What if this conductor is cut? Shows in the drawing as cut."),
    ),
)

RUN_RATINGS: dict[str, Rating] = {rating.key: rating for rating in _RATINGS}
