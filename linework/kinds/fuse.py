"""Fuse: opens the ungrounded conductor only."""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.common import (
    CIRCUIT,
    FROM_MEMORY,
    VOLTAGE,
    contact_ohm,
    live_poles,
    poles_of,
    straight,
    switched,
)
from linework.kinds.kind import Kind
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import Inside, Overcurrent, Terminal
from linework.words import N_

CLASSES = (
    Choice("class_t", N_("class T")),
    Choice("class_j", N_("class J")),
    Choice("class_cc", N_("class CC")),
    Choice("anl", "ANL"),
    Choice("mrbf", N_("terminal fuse (MRBF)")),
    Choice("mega", "MEGA"),
    Choice("midi", "MIDI"),
    Choice("maxi", "MAXI"),
    Choice("ato", N_("blade (ATO, ATC)")),
    Choice("mini", "MINI"),
)

INTERRUPTING_A: dict[str, float] = {
    # Direct current, in ampere; class T one source, the small ones one source or from memory.
    "class_t": 20000.0,
    "class_j": 20000.0,
    "class_cc": 20000.0,
    "anl": 6000.0,
    "mrbf": 10000.0,
    "mega": 2000.0,
    "midi": 1000.0,
    "maxi": 1000.0,
    "ato": 1000.0,
    "mini": 1000.0,
}

RATINGS = (
    replace(CIRCUIT, default="dc"),
    Rating("rating", N_("Rating"), "current", low=0.1, high=6000.0, needed=True),
    Rating("type", N_("Type"), "choice", "ato", choices=CLASSES),
    Rating(
        "interrupting",
        N_("Interrupting rating"),
        "current",
        None,
        FROM_MEMORY,
        low=100.0,
        quiet=True,
        help=N_("As marked; where it is not given the usual figure of its type is taken."),
    ),
    VOLTAGE,
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
    contacts = switched("line", "load", lines, contact_ohm(amps), ())
    rest = straight("line", "load", tuple(p for p in poles if p not in lines))
    kind = values.pick("type")
    if not values.has("rating"):
        return Inside((*contacts, *rest))
    device = Overcurrent(
        "overcurrent",
        tuple(str(p) for p in lines),
        amps,
        kind,
        values.opt("interrupting") or INTERRUPTING_A[kind],
        values.given("interrupting"),
        32.0 if kind in ("ato", "mini", "maxi", "midi", "mega", "anl") else 125.0,
        True,
    )
    return Inside((*contacts, *rest, device))


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
    search=N_("fuse blade terminal fuse ANL MEGA class T"),
)
