"""Fuse: opens the ungrounded conductor only."""

from __future__ import annotations

from dataclasses import replace

from linework.data import Confidence
from linework.kinds.common import (
    CIRCUIT,
    about,
    live_poles,
    poles_of,
    straight,
    switched,
)
from linework.kinds.kind import Kind, Remedy
from linework.kinds.ratings import Choice, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import Inside, Overcurrent, Terminal, Three
from linework.words import N_

CLASSES = (
    # The parts of ISO 8820 by their titles; that a strip of 30 mm is what counters call MIDI, one
    # of 51 mm MEGA, and a single bolt MRBF, from memory.
    Choice("class_t", N_("class T"), "UL 248-15"),
    Choice("class_j", N_("class J"), "UL 248-8"),
    Choice("class_cc", N_("class CC"), "UL 248-4"),
    Choice("anl", N_("bolted (ANL)")),
    Choice("mrbf", N_("single bolt"), "ISO 8820-6", N_("terminal fuse MRBF")),
    Choice("mega", N_("strip SF 51"), "ISO 8820-5", N_("MEGA bolted")),
    Choice("midi", N_("strip SF 30"), "ISO 8820-5", N_("MIDI bolted")),
    Choice("maxi", N_("blade type E"), "ISO 8820-3", N_("MAXI large")),
    Choice("ato", N_("blade type C"), "ISO 8820-3", N_("ATO ATC regular medium")),
    Choice("mini", N_("blade type F"), "ISO 8820-3", N_("MINI ATM miniature small")),
)

Marks = tuple[tuple[float, float], ...]

DC_MARKS: dict[str, Marks] = {
    # (up to this voltage, breaks this current in ampere): of several figures that makers give the
    # lowest. Class T, ANL, MEGA and the 14 V figure of MRBF: makers' data; the rest from memory.
    # Classes J and CC are marked for direct current by some makers only: nothing is counted on.
    "class_t": ((125.0, 20000.0),),
    "anl": ((32.0, 6000.0),),
    "mrbf": ((14.0, 10000.0), (32.0, 5000.0), (58.0, 2000.0)),
    "mega": ((32.0, 2000.0),),
    "midi": ((32.0, 1000.0),),
    "maxi": ((32.0, 1000.0),),
    "ato": ((32.0, 1000.0),),
    "mini": ((32.0, 1000.0),),
}

AC_MARKS: dict[str, Marks] = {
    # UL 248-15, 248-8, 248-4; class T is made for 300 and for 600 V.
    "class_t": ((300.0, 200000.0),),
    "class_j": ((600.0, 200000.0),),
    "class_cc": ((600.0, 200000.0),),
}

_BLADES = frozenset({"ato", "mini", "maxi"})
_DROP_V = {True: 0.12, False: 0.07}
"""Voltage lost at the rated current: blade fuses 0.1 to 0.15 V, those that are bolted down 0.05 to
0.1 V (makers' data, from memory)."""


def fuse_ohm(style: str, rating_a: float) -> Three:
    """Resistance of a fuse in ohm, hot as in use. Low: next to nothing, for the current that a fuse
    must break is told as though a link were in its place."""
    hot = _DROP_V[style in _BLADES] / max(rating_a, 0.1)
    return Three(min(10e-6, hot), hot, hot)


def _marks(values: Values) -> Marks:
    marks = DC_MARKS if values.pick("circuit") == "dc" else AC_MARKS
    return marks.get(values.pick("type"), ())


_LARGEST = (("ato", 40.0), ("maxi", 100.0), ("mega", 500.0))
"""(type, its largest rating in ampere): strips and blades of direct current, from memory."""


def _usual_type(values: Values) -> str | None:
    """The first type that is made so large: no blade carries what a strip is for."""
    amps = values.opt("rating") or 0.0
    if values.pick("circuit") != "dc":
        return None
    return next((style for style, most in _LARGEST if amps <= most), "class_t")


def _usual_voltage(values: Values) -> str | None:
    """The lowest figure of its type, at which it breaks most: what is found on 12 V."""
    return next((about(volts, "voltage") for volts, _ in _marks(values)), None)


def _usual_interrupting(values: Values) -> str | None:
    volts = values.opt("voltage") or 0.0
    return next((about(a, "current") for most, a in _marks(values) if volts <= most), None)


RATINGS = (
    replace(CIRCUIT, default="dc"),
    Rating(
        "rating",
        N_("Rating"),
        "current",
        low=0.1,
        high=6000.0,
        needed=True,
        usual=(0.5, 1e3),
        help=N_("On its body."),
    ),
    Rating(
        "type",
        N_("Type"),
        "choice",
        "ato",
        choices=CLASSES,
        help=N_("On its body or package; the shape tells it too."),
        derive=_usual_type,
    ),
    Rating(
        "interrupting",
        N_("Interrupting rating"),
        "current",
        source=Origin(
            N_("lowest figure that makers of its type give, some from memory"), Confidence.MEMORY
        ),
        low=100.0,
        help=N_("As marked."),
        derive=_usual_interrupting,
    ),
    Rating(
        "voltage",
        N_("Voltage"),
        "voltage",
        source=Origin(
            N_("lowest figure that makers of its type give, some from memory"), Confidence.MEMORY
        ),
        low=1.0,
        high=1000.0,
        help=N_("As marked."),
        marking=True,
        derive=_usual_voltage,
    ),
    Rating(
        "distance",
        N_("Cable between source and fuse"),
        "length",
        None,
        low=0.0,
        quiet=True,
        help=N_("How far along the cable the fuse lies from the battery post."),
    ),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Line side and load side."""
    poles = poles_of(values)
    return (Terminal("line", poles, "in"), Terminal("load", poles, "out"))


def inside(values: Values) -> Inside:
    """One element in each ungrounded conductor."""
    poles = poles_of(values)
    lines = live_poles(poles)
    amps = values.opt("rating") or 10.0
    contacts = switched("line", "load", lines, fuse_ohm(values.pick("type"), amps), ())
    rest = straight("line", "load", tuple(p for p in poles if p not in lines))
    if not values.has("rating"):
        return Inside((*contacts, *rest))
    return Inside((*contacts, *rest, _element(values, tuple(str(p) for p in lines))))


def _element(values: Values, contacts: tuple[str, ...]) -> Overcurrent:
    made_for_dc = True if values.pick("type") in DC_MARKS else None
    return Overcurrent(
        "overcurrent",
        contacts,
        values.num("rating"),
        values.pick("type"),
        values.opt("interrupting") or 0.0,
        values.given("interrupting"),
        values.opt("voltage") or 0.0,
        made_for_dc,
    )


KIND = Kind(
    key="fuse",
    name=N_("fuse"),
    letters="F",
    strip="protection",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "fuse",
    seat="line",
    roles=frozenset({"fuse", "breaker"}),
    captions=("rating", "type"),
    columns=("rating", "type", "interrupting", "voltage"),
    search=N_("fuse blade strip bolt terminal fuse ANL MEGA MIDI MAXI MINI ATO MRBF class T J CC"),
    passes_on=True,
    melts=True,
    remedies=frozenset({Remedy.FUSE}),
)
