"""Surge protective device: leads the surge of a stroke or of switching past what it guards."""

from __future__ import annotations

from linework.kinds.common import CIRCUIT, POLES, live_poles, poles_of
from linework.kinds.kind import Kind
from linework.kinds.ratings import Rating
from linework.kinds.values import Values
from linework.wiring import Inside, Leak, Pole, Terminal
from linework.words import N_

_FARAD = 2e-9
"""Of a varistor of the size of a board's device (from memory: 1 to 5 nF)."""

RATINGS = (
    CIRCUIT,
    Rating(
        "continuous_voltage",
        N_("Stands for good (MCOV, Uc)"),
        "voltage",
        None,
        low=1.0,
        high=2000.0,
        needed=True,
        help=N_(
            "On its label: MCOV or Uc from {hot} to {neutral}, on direct current from plus to"
            " minus; on solar arrays Ucpv."
        ),
    ),
    Rating(
        "short_circuit",
        N_("Short-circuit current rating (SCCR)"),
        "current",
        None,
        low=100.0,
        quiet=True,
        help=N_("On its label as SCCR: the largest fault current of a place where it may be put."),
    ),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """One terminal, across what it guards."""
    return (Terminal("line", poles_of(values), "in"),)


def inside(values: Values) -> Inside:
    """While no surge comes, nothing but the capacitance of its varistors: to ground, and on direct
    current from plus to minus."""
    poles = poles_of(values)
    if poles == POLES["dc"]:
        return Inside((Leak(("line", Pole.POS), ("line", Pole.NEG), farad=_FARAD),))
    guarded = (*live_poles(poles), *(p for p in poles if p is Pole.N))
    return Inside(
        tuple(Leak(("line", p), ("line", Pole.PE), farad=_FARAD) for p in guarded),
    )


KIND = Kind(
    key="surge_device",
    name=N_("surge protective device"),
    letters="FA",
    strip="protection",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "surge_device",
    captions=("continuous_voltage",),
    columns=("continuous_voltage", "short_circuit"),
    search=N_("surge protective device arrester SPD lightning overvoltage varistor"),
    fixed=True,
    arrests=True,
)
