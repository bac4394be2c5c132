"""What kinds with windings on one core share: a transformer, an autotransformer.

A winding is a source that follows the one which has power, behind the leakage impedance of the
core; what it gives is taken there, at the ratio of the turns. Left out: the magnetising current,
and how the ratio moves with the load beyond that impedance. What it takes when it is switched on is
no part of any state; a rule judges it.
"""

from __future__ import annotations

from dataclasses import dataclass

from linework.data import Confidence
from linework.kinds.common import live_poles, values_hertz
from linework.kinds.ratings import FROM_MEMORY, Band, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Convert,
    Draw,
    Element,
    Point,
    Pole,
    Source,
    SourceGroup,
    Three,
    When,
)
from linework.words import N_

FORWARD: When = (("core", frozenset({"forward"})),)
BACKWARD: When = (("core", frozenset({"backward"})),)

POWER = Rating(
    "power",
    N_("Rating"),
    "apparent_power",
    low=10.0,
    high=1e6,
    needed=True,
    usual=(50.0, 250e3),
    help=N_("On its plate, in VA or kVA."),
)
IMPEDANCE = Rating(
    "impedance",
    N_("Impedance, per unit"),
    "ratio",
    Band("2 %", "3.5 %", "6 %"),
    Origin(N_("small dry transformers, from memory"), Confidence.MEMORY),
    low=0.001,
    high=0.3,
    help=N_("On its plate as % Z or impedance; it bounds the fault current behind it."),
)
X_OVER_R = Rating(
    "x_over_r",
    N_("Reactance over resistance"),
    "ratio",
    "1",
    FROM_MEMORY,
    low=0.0,
    quiet=True,
    help=N_("In its data sheet, beside its impedance in percent."),
)


_HALF_R, _HALF_X = 0.75, 0.6
"""Resistance and reactance of one half of a winding over half of that of the whole: 1.5 and 1.2
times those in percent, on a quarter of the impedance, so that a short of one half draws some 1.5
times the current of one of both (guides to short-circuit currents, from memory)."""


@dataclass(frozen=True)
class Leg:
    """One winding from a hot conductor to ``back``; ``turned``: wound the other way."""

    name: str
    hot: Point
    back: Point
    volts: float
    turned: bool = False


def legs(name: str, terminal: str, poles: tuple[Pole, ...], volts: float, middle: str) -> list[Leg]:
    """A winding for each hot conductor of a terminal; ``volts`` of each.

    Without a neutral both end at a middle inside.
    """
    back = (terminal, Pole.N) if Pole.N in poles else (middle, Pole.N)
    return [
        Leg(f"{name} {pole}", (terminal, pole), back, volts, bool(number))
        for number, pole in enumerate(live_poles(poles))
    ]


def driven(
    values: Values, each: list[Leg], by: tuple[Point, Point], by_v: float, when: When, side: str
) -> list[Element]:
    """Windings that the one between two points drives, and what they take there.

    ``by_v``: nominal volt between these. Ratings read: power, impedance, x_over_r.
    """
    takes = f"{side} side"
    draw = Draw(
        takes,
        *by,
        0.0,
        1.0,
        by_v,
        (0.8 * by_v, 1.1 * by_v),
        "power",
        values_hertz(values),
        when=when,
        own=False,
    )
    sources = [_winding(values, leg, by, by_v, when, len(each)) for leg in each]
    return [draw, *sources, *(Convert(s.name, s.name, takes, 1.0) for s in sources)]


def _winding(
    values: Values, leg: Leg, by: tuple[Point, Point], by_v: float, when: When, legs_: int
) -> Source:
    """Z = u_k U / I of the leg, split by X/R; at the least as much less as a short of one half of a
    winding with a middle finds (:data:`_HALF_R`)."""
    va, ratio = values.num("power"), values.num("x_over_r")
    amps = va / (leg.volts * legs_)
    z = values.three("impedance").scaled(leg.volts / amps)
    r = z.scaled(1.0 / (1.0 + ratio * ratio) ** 0.5)
    x = r.scaled(ratio)
    if legs_ > 1:
        r = Three(_HALF_R * r.low, r.usual, r.high)
        x = Three(_HALF_X * x.low, x.usual, x.high)
    return Source(
        leg.name,
        leg.hot,
        leg.back,
        leg.volts,
        values_hertz(values),
        r,
        x,
        phase_deg=180.0 if leg.turned else 0.0,
        rated_a=amps,
        group=SourceGroup.WINDING,
        when=when,
        primary=(by[1], by[0]) if leg.turned else by,
        primary_v=by_v,
    )
