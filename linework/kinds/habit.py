"""What runs when: the quiet ratings that tell how a part is used. They decide nothing but how long
the supply lasts; where nobody answers, the usual habit of the kind stands in, marked as assumed."""

from __future__ import annotations

from linework.kinds.ratings import Choice, Rating
from linework.words import N_

DAY_S = 86400.0


def _clock(key: str, label: str, how: str) -> Rating:
    """A time of the day, in hours since midnight."""
    return Rating(key, label, "time", None, low=0.0, high=DAY_S, quiet=True, help=how)


_NOT_SAID = Choice("unsaid", N_("not said: as usual for its kind"))

LOAD_HABIT = (
    Rating(
        "use",
        N_("It runs"),
        "choice",
        "unsaid",
        choices=(
            _NOT_SAID,
            Choice("always", N_("day and night")),
            Choice("hours", N_("some hours a day")),
            Choice("keeps_cold", N_("by its thermostat, to keep things cold: longer on hot days")),
            Choice("cools_room", N_("by its thermostat, to cool a room: only on hot days")),
            Choice("heats_room", N_("by its thermostat, to heat a room: only on cold days")),
            Choice("never", N_("never, as far as supply over time goes")),
        ),
        quiet=True,
        help=N_("Decides only how long the supply lasts."),
    ),
    Rating(
        "use_hours",
        N_("Hours a day that it is switched on"),
        "time",
        None,
        low=0.0,
        high=DAY_S,
        quiet=True,
        help=N_("In hours, as 5 h; between the two times of the day below, evenly."),
    ),
    _clock("use_from", N_("From this time of the day"), N_("As hours since midnight: 18 h.")),
    _clock("use_until", N_("Until this time of the day"), N_("As hours since midnight: 23 h.")),
    Rating(
        "use_share",
        N_("Share of that time in which it really draws"),
        "ratio",
        None,
        low=0.0,
        high=1.0,
        quiet=True,
        help=N_(
            "As 33 %. Of what has a thermostat: at 25 degC outside to keep things cold, 35 degC to"
            " cool a room, 0 degC to heat one."
        ),
    ),
    Rating(
        "use_first",
        N_("First month of its season"),
        "count",
        "1",
        low=1.0,
        high=12.0,
        quiet=True,
        help=N_("1 is January. From 10 to 3 is a season over the turn of the year."),
    ),
    Rating(
        "use_last", N_("Last month of its season"), "count", "12", low=1.0, high=12.0, quiet=True
    ),
)
"""Of whatever draws power for what it does itself."""

SHORE_HABIT = (
    Rating(
        "plugged_hours",
        N_("Hours a day that it is there"),
        "time",
        None,
        low=0.0,
        high=DAY_S,
        quiet=True,
        help=N_("0 h: never, the design must carry itself; 24 h: always. Counted from 18 h on."),
    ),
)

ENGINE_HABIT = (
    Rating(
        "driven_hours",
        N_("Hours a day that the engine runs"),
        "time",
        None,
        low=0.0,
        high=DAY_S,
        quiet=True,
        help=N_("On an average day, in hours; counted from 9 h on."),
    ),
)

SET_HABIT = (
    Rating(
        "starts_at",
        N_("Is started when the battery is down to"),
        "ratio",
        None,
        low=0.0,
        high=1.0,
        quiet=True,
        help=N_("State of charge, by hand or by itself: 40 %."),
    ),
    Rating(
        "stops_at",
        N_("Is stopped when the battery is up to"),
        "ratio",
        None,
        low=0.0,
        high=1.0,
        quiet=True,
        help=N_("State of charge; the last fifth of lead takes hours: 80 %."),
    ),
    Rating(
        "starts_for",
        N_("Is started when more than this is drawn from the battery"),
        "power",
        None,
        low=0.0,
        quiet=True,
        help=N_("In W; where nothing is given it is started for what nothing else can feed."),
    ),
    _clock("quiet_from", N_("Does not run from"), N_("As hours since midnight: 22 h.")),
    _clock("quiet_until", N_("until"), N_("As hours since midnight: 7 h.")),
)

SUN_HABIT = (
    Rating(
        "tilt",
        N_("Tilt in degrees"),
        "count",
        None,
        low=0.0,
        high=90.0,
        quiet=True,
        help=N_("0 lies flat, 90 stands upright; flat where nothing is given."),
    ),
    Rating(
        "azimuth",
        N_("Faces, in degrees from north over east"),
        "count",
        None,
        low=0.0,
        high=360.0,
        quiet=True,
        help=N_("90 is east, 180 south, 270 west; towards the equator where nothing is given."),
    ),
    Rating(
        "mounted",
        N_("Air behind it"),
        "choice",
        "unsaid",
        choices=(
            Choice("unsaid", N_("not said: none on what moves, else a rack")),
            Choice("rack", N_("on a rack, air all round")),
            Choice("flush", N_("flat on a roof, no air behind")),
        ),
        quiet=True,
    ),
)

BANK_HABIT = (
    Rating(
        "usable",
        N_("Part of its capacity that is used"),
        "ratio",
        None,
        low=0.01,
        high=1.0,
        quiet=True,
        help=N_("As 80 % of lithium, 50 % of lead; deeper costs years of its life."),
    ),
    Rating(
        "kept_warm",
        N_("Kept above freezing"),
        "choice",
        "no",
        choices=(
            Choice("no", N_("no, or not known: as cold as the air")),
            Choice("yes", N_("yes, heated or in a heated room")),
        ),
        quiet=True,
        help=N_("Lithium iron phosphate takes no charge below freezing."),
    ),
)
