"""What the load kinds share: a power, a voltage band, a metal case."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from linework.data import Confidence
from linework.kinds.common import CIRCUIT, WIDEST_VOLTAGE, about, live_poles, poles_of, values_hertz
from linework.kinds.habit import LOAD_HABIT
from linework.kinds.kind import Kind
from linework.kinds.outlet import CONFIGURATION
from linework.kinds.ratings import Choice, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import Draw, Element, Inside, Metal, Pole, Terminal
from linework.words import N_

POWER = Rating(
    "power",
    N_("Power"),
    "power",
    low=0.0,
    high=1e6,
    needed=True,
    usual=(0.5, 50e3),
    help=N_("On its plate in W; amperes times volts where it tells those."),
)

POWER_FACTOR = Rating(
    "power_factor",
    N_("Power factor"),
    "ratio",
    "1",
    low=0.05,
    high=1.0,
    ac_only=True,
    help=N_("On its plate as PF; 1 for what only heats."),
)

CASE = Rating(
    "case",
    N_("Case"),
    "choice",
    "metal",
    choices=(
        Choice("metal", N_("metal, to be joined to {ground}")),
        Choice("insulated", N_("double insulated or plastic")),
    ),
    quiet=True,
    help=N_("Double insulated: two squares, one in the other, on its plate; a plug of two pins."),
)

CONTINUOUS = Rating(
    "continuous",
    N_("Runs for three hours or more"),
    "choice",
    "no",
    choices=(Choice("no", N_("no")), Choice("yes", N_("yes"))),
    quiet=True,
)

CRITICAL = Rating(
    "critical",
    N_("Safety afloat depends on it"),
    "choice",
    "no",
    choices=(Choice("no", N_("no")), Choice("yes", N_("yes"))),
    help=N_("Navigation lights, bilge pumps and blowers, electronics: 3 % may be lost, not 10 %."),
    quiet=True,
)

DWELLING_USE = Rating(
    "dwelling_use",
    N_("In the load calculation of a dwelling it is"),
    "choice",
    "unsaid",
    choices=(
        Choice("unsaid", N_("not said: it counts in full")),
        Choice("fixed", N_("an appliance in place: dishwasher, water heater, pump")),
        Choice("range", N_("a range, oven or cooktop")),
        Choice("dryer", N_("a clothes dryer")),
        Choice("heating", N_("space heating")),
        Choice("cooling", N_("air conditioning")),
        Choice("outlets", N_("counted with lighting and outlets")),
    ),
    quiet=True,
    ac_only=True,
)

LARGEST_DEVICE = Rating(
    "largest_device",
    N_("Largest breaker or fuse on the nameplate"),
    "current",
    None,
    low=1.0,
    quiet=True,
    help=N_("On the plate: MOCP, maximum fuse or breaker."),
)

LEAST_AMPACITY = Rating(
    "least_ampacity",
    N_("Least circuit ampacity on the nameplate"),
    "current",
    None,
    low=1.0,
    quiet=True,
    help=N_("Of a welder its effective current."),
)

_AC_BAND = (0.87, 1.06)
"""Utilisation voltage over nominal (ANSI C84.1 range B, 104 to 127 V, from memory)."""
_DC_BAND = (0.875, 1.25)
"""10.5 to 15 V for equipment made for 12 V (common practice, no source)."""


def _band(values: Values) -> tuple[float, float]:
    return _DC_BAND if values.pick("circuit") == "dc" else _AC_BAND


def _usual_least(values: Values) -> str | None:
    return about(_band(values)[0] * values.num("voltage"), "voltage")


LEAST_VOLTAGE = Rating(
    "least_voltage",
    N_("Works down to"),
    "voltage",
    source=Origin(
        N_("ANSI C84.1 range B, from memory; on direct current common practice"), Confidence.MEMORY
    ),
    low=0.0,
    quiet=True,
    help=N_("The lowest voltage at which it still works, from its manual."),
    derive=_usual_least,
)


def _usual_most(values: Values) -> str | None:
    return about(_band(values)[1] * values.num("voltage"), "voltage")


MOST_VOLTAGE = Rating(
    "most_voltage",
    N_("Works up to"),
    "voltage",
    source=Origin(
        N_("ANSI C84.1 range B, from memory; on direct current common practice"), Confidence.MEMORY
    ),
    low=0.0,
    quiet=True,
    help=N_("The highest voltage on its plate, as 30 V of what is made for 10 to 30 V."),
    derive=_usual_most,
)

CHECKS_BOND = Rating(
    "checks_bond",
    N_("Works only with {neutral} joined to {ground}"),
    "choice",
    "no",
    choices=(Choice("no", N_("no")), Choice("yes", N_("yes"))),
    help=N_("Furnaces with a flame sensor and chargers of cars may check it: see the manual."),
    quiet=True,
    ac_only=True,
)

_REST = (
    WIDEST_VOLTAGE,
    POWER_FACTOR,
    LARGEST_DEVICE,
    LEAST_AMPACITY,
    CASE,
    CONTINUOUS,
    LEAST_VOLTAGE,
    MOST_VOLTAGE,
    CRITICAL,
    CHECKS_BOND,
    DWELLING_USE,
    *LOAD_HABIT,
)
RATINGS = (CIRCUIT, POWER, *_REST)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """One terminal."""
    return (Terminal("in", poles_of(values), "in"),)


def working_band(values: Values) -> tuple[float, float]:
    """The voltages between which the load works, in volt."""
    return values.num("least_voltage"), values.num("most_voltage")


def ends(poles: tuple[Pole, ...]) -> tuple[Pole, Pole]:
    """The two poles between which a load of one circuit lies."""
    lines = live_poles(poles)
    if len(lines) > 1:
        return lines[0], lines[1]
    return lines[0], Pole.NEG if Pole.NEG in poles else Pole.N


def power_a(values: Values) -> float:
    """The current in ampere of the power that is given; 0 without one."""
    return (values.opt("power") or 0.0) / (values.num("voltage") * _factor(values))


def _factor(values: Values) -> float:
    dc = values.pick("circuit") == "dc"
    return 1.0 if dc or "power_factor" not in values.declared else values.num("power_factor")


def by_turns(values: Values) -> bool:
    """Whether its nameplate asks less of its wires than it takes: it works by turns, as a welder
    does."""
    least = values.opt("least_ampacity") if "least_ampacity" in values.declared else None
    return least is not None and "duty" not in values.declared and least < power_a(values)


def _effective_a(values: Values) -> float | None:
    """What heats the wires of a load that works by turns, as its nameplate tells; what a motor's
    nameplate asks of its wires is no current of it."""
    if "least_ampacity" not in values.declared or "duty" in values.declared:
        return None
    return values.opt("least_ampacity")


def load_inside(
    values: Values,
    start_a: float | None = None,
    start_pf: float = 0.35,
    model: Literal["power", "impedance", "lamp"] = "impedance",
    at: str = "in",
    lasts: str = "hours",
    watts: float | None = None,
) -> Inside:
    """A draw between the live poles and, for a metal case, touchable metal on the ground wire.

    ``at``: where the draw lies, the terminal or what comes behind its contacts. ``lasts``: as
    of :class:`Draw`; what lasts for seconds takes nothing but its starting current.
    ``watts``: what it takes, where that is not the power that is given.
    """
    poles = poles_of(values)
    elements: list[Element] = []
    if values.has("power"):
        a, b = ends(poles)
        dc = values.pick("circuit") == "dc"
        elements.append(
            Draw(
                "load",
                (at, a),
                (at, b),
                0.0 if lasts == "seconds" else watts or values.num("power"),
                _factor(values),
                values.num("voltage"),
                working_band(values),
                model,
                0.0 if dc else values_hertz(values),
                values.pick("continuous") == "yes",
                start_a,
                start_pf,
                lasts=lasts,
                effective_a=_effective_a(values),
            )
        )
    if Pole.PE in poles and values.pick("case") == "metal":
        elements.append(Metal("case", ("in", Pole.PE)))
    return Inside(tuple(elements))


def inside(values: Values) -> Inside:
    """A plain load."""
    return load_inside(values)


_COLUMNS = (
    "power",
    "voltage",
    "power_factor",
    "continuous",
    "critical",
    "case",
    "largest_device",
    "least_ampacity",
    "checks_bond",
)

FIXED = Kind(
    key="load",
    name=N_("fixed load"),
    letters="EA",
    strip="loads",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "load",
    captions=("power",),
    columns=_COLUMNS,
    search=N_("load appliance equipment device consumer refrigerator fridge freezer furnace"),
    fixed=True,
    consumes=True,
    habit=lambda values: "logger" if values.pick("continuous") == "yes" else "refrigerator",
)

PLUG_IN = Kind(
    key="plug_load",
    name=N_("plug-in load"),
    letters="EP",
    strip="loads",
    ratings=(CIRCUIT, replace(POWER, usual=(0.5, 15e3)), *_REST, CONFIGURATION),
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "plug_load",
    seat="in",
    roles=frozenset({"load"}),
    captions=("power", "configuration"),
    columns=(*_COLUMNS, "configuration"),
    search=N_(
        "plug-in load appliance portable tool cord-connected fridge microwave television TV laptop"
    ),
    consumes=True,
    habit=lambda values: "laptop",
)
