"""Declarations and inner pieces that several kinds share."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cache

from linework.data import Confidence
from linework.kinds.ratings import PRACTICE, Choice, Origin, Rating
from linework.kinds.values import Values
from linework.quantity import in_watts, read, write
from linework.wiring import Contact, Join, Link, Overcurrent, Place, Point, Pole, Three, When
from linework.words import N_

Offers = tuple[tuple[Pole, Point], ...]
"""What a place offers: poles, and where they are."""

POLES: dict[str, tuple[Pole, ...]] = {
    "ac": (Pole.L, Pole.N, Pole.PE),
    "split": (Pole.L1, Pole.L2, Pole.N, Pole.PE),
    "ac240": (Pole.L1, Pole.L2, Pole.PE),
    "dc": (Pole.POS, Pole.NEG),
}
"""The poles of each kind of circuit, in the order in which a cable carries them."""

CIRCUIT = Rating(
    "circuit",
    N_("Circuit"),
    "choice",
    "ac",
    choices=(
        Choice("ac", N_("AC, one {hot} and {neutral}")),
        Choice("split", N_("AC, two {hots} and {neutral}")),
        Choice("ac240", N_("AC, two {hots} without {neutral}")),
        Choice("dc", N_("DC, plus and minus")),
    ),
    help=N_("Which conductors pass through this part."),
    quiet=True,
)

SOURCE_CIRCUIT = replace(CIRCUIT, choices=CIRCUIT.choices[:3])
"""Of what makes or brings alternating current."""


@cache
def about(value: float, kind: str) -> str:
    """A derived figure as text, to three digits: it is no better known."""
    return write(float(f"{value:.3g}"), kind)


def _between_lines(values: Values) -> str | None:
    """Twice the voltage of the design, where that is known."""
    volts = values.setting.get("voltage")
    return None if volts is None else about(2.0 * read(volts, "voltage"), "voltage")


def _leg_voltage(values: Values) -> str | None:
    """Where the circuit's voltage is not that of the design: none is set for direct current, and
    without a neutral it is that between two hot conductors."""
    circuit = values.pick("circuit") if "circuit" in values.declared else "ac"
    if circuit == "ac240":
        return _between_lines(values)
    return DC_VOLTAGE if circuit == "dc" else None


def _widest_voltage(values: Values) -> str | None:
    """As for a leg, but between the hot conductors wherever there are two."""
    return _between_lines(values) if values.pick("circuit") == "split" else _leg_voltage(values)


DC_VOLTAGE = "12 V"
"""What a direct-current circuit has where nobody says (common practice, no source)."""

VOLTAGE = Rating(
    "voltage",
    N_("Voltage"),
    "voltage",
    "$voltage",
    Origin(N_("the voltage of this design; 12 V on direct current"), Confidence.PRACTICE),
    low=1.0,
    high=1000.0,
    quiet=True,
    help=N_("From {hot} to {neutral}; where there is no {neutral}, from {hot} to {hot}."),
    derive=_leg_voltage,
)

WIDEST_VOLTAGE = replace(
    VOLTAGE, help=N_("Between its {hots} where it has two."), derive=_widest_voltage
)
"""The voltage of a load or device: that between two hot conductors where it lies on two."""


def _in_watts(values: Values) -> bool:
    """Whether its rating was typed in watt."""
    answer = values.answer("power")
    return isinstance(answer, str) and in_watts(answer)


RATED_FACTOR = Rating(
    "rated_factor",
    N_("Power factor of its rating"),
    "ratio",
    None,
    Origin(
        N_(
            "plates of sets and inverters with one phase tell watts at power factor 1: common"
            " practice, no source"
        ),
        Confidence.PRACTICE,
    ),
    low=0.5,
    high=1.0,
    help=N_("Beside the watts on its plate, where it is not 1. Volt-amperes need none."),
    derive=lambda values: "1" if _in_watts(values) else None,
    means=_in_watts,
)

SURGE = Rating(
    "surge",
    N_("Surge rating, for a start"),
    "apparent_power",
    None,
    low=1.0,
    factor="rated_factor",
    quiet=True,
    help=N_("What it gives for the seconds in which a motor starts, from its plate."),
)

SURGE_TIME = Rating(
    "surge_time",
    N_("Gives its surge rating for"),
    "time",
    None,
    low=0.01,
    high=3600.0,
    quiet=True,
    help=N_("In its data sheet, beside the surge rating; it decides nothing here and is printed."),
)

TRANSFER_TIME = Rating(
    "transfer_time",
    N_("Changes over within"),
    "time",
    None,
    low=1e-3,
    high=60.0,
    quiet=True,
    help=N_("In its data sheet: transfer time; it decides nothing here and is printed."),
)

ELECTRONIC_SURGE = 1.5
"""What an electronic source gives for a start over its rating, where its plate does not tell
(1.3 to 2 times for some seconds; one guide and memory)."""

STANDS = Rating(
    "stands",
    N_("Where it stands"),
    "choice",
    "here",
    choices=(
        Choice("here", N_("in the place of this design")),
        Choice("recreational", N_("in a recreational vehicle")),
        Choice("vehicle", N_("in another vehicle or trailer")),
        Choice("boat", N_("on a boat")),
        Choice("building", N_("in a building")),
        Choice("field", N_("in the open")),
    ),
    help=N_("What is wired to it for good stands there too."),
    quiet=True,
)

MARKED_DIRECT = Rating(
    "direct",
    N_("Marked for direct current"),
    "choice",
    "unknown",
    choices=(
        Choice("yes", N_("yes")),
        Choice("no", N_("no")),
        Choice("unknown", N_("not known")),
    ),
    quiet=True,
    help=N_("On its label: a figure with V DC or the sign of a line over three dots."),
)
"""Of a device whose contacts break direct current only where it is made for that."""

MAGNETIC = Rating(
    "magnetic",
    N_("Trips at once from"),
    "current",
    help=N_("The current from which the maker promises an instantaneous trip; three figures fit."),
    low=1.0,
    quiet=True,
)


def interrupting(default: str, source: Origin = PRACTICE) -> Rating:
    """The interrupting rating of a device, with the figure taken where none is marked."""
    return Rating(
        "interrupting",
        N_("Interrupting rating"),
        "current",
        default,
        source,
        low=100.0,
        help=N_("The largest fault current that the device can break, as marked on it."),
    )


def contact_ohm(rating_a: float) -> Three:
    """Resistance of one closed contact of a device, in ohm.

    Low: 10 microohm, small against every source we meet. Usual and high: the
    resistance in which the rated current loses two watts, about half of what
    the standard for small breakers admits (from memory).
    """
    usual = max(2.0 / max(rating_a, 1.0) ** 2, 10e-6)
    return Three(10e-6, usual, usual)


PLUG_CONTACT = Three(10e-6, 1e-3, 1e-3)
"""A plug contact in ohm (usual figure from memory)."""

BOND_JUMPER = Three(0.618e-3, 0.75e-3, 0.75e-3)
"""0.3 m of 8 AWG copper, cold and at 75 C, in ohm (NFPA 70 chapter 9 table 8)."""


def poles_of(values: Values) -> tuple[Pole, ...]:
    """The poles of the circuit in which a part lies."""
    return POLES[values.pick("circuit") or "ac"]


def circuit_for(poles: Iterable[Pole]) -> str | None:
    """The circuit with the fewest conductors that has all of these, None where there is none."""
    asked = set(poles)
    fitting = [name for name, known in POLES.items() if asked <= set(known)]
    return min(fitting, key=lambda name: len(POLES[name]), default=None)


def offered(poles: tuple[Pole, ...], terminal: str, one_line: Point) -> Offers:
    """What a place on these poles offers: each of them and, where there are two legs, one of them
    to a part that needs only one."""
    bars = tuple((pole, (terminal, pole)) for pole in poles)
    return bars if Pole.L1 not in poles else (*bars, (Pole.L, one_line))


def own_places(
    poles: tuple[Pole, ...],
    number: int,
    legs: tuple[Point, Point] | None = None,
    output: str = "out",
) -> tuple[Place, ...]:
    """The places of a source for its outlets, or for the breakers before them, at its output.

    Legs alternate; ``legs``: where a part that needs one of them gets it, if not at the output.
    """
    accepts = frozenset({"outlet", "breaker"})
    ends = legs or ((output, Pole.L1), (output, Pole.L2))
    return tuple(
        Place(str(n + 1), accepts, offered(poles, output, ends[n % 2])) for n in range(number)
    )


def values_hertz(values: Values) -> float:
    """The frequency of this design in hertz."""
    return read(values.setting.get("frequency", "60 Hz"), "frequency")


def straight(one: str, other: str, poles: tuple[Pole, ...]) -> tuple[Join, ...]:
    """Conductors that pass unswitched from one terminal to another."""
    return tuple(Join((one, pole), (other, pole)) for pole in poles)


def switched(
    one: str, other: str, poles: tuple[Pole, ...], ohm: Three, when: When, prefix: str = ""
) -> tuple[Contact, ...]:
    """One contact for each pole, all moved together."""
    return tuple(
        Contact(f"{prefix}{pole}", (one, pole), (other, pole), ohm, when) for pole in poles
    )


def bond_link(neutral: Point, ground: Point, when: When = (), name: str = "bond") -> Link:
    """The neutral-ground link inside a box."""
    return Link(name, neutral, ground, BOND_JUMPER, bond=True, when=when)


UNMARKED = Origin(N_("UL 489: least rating of an unmarked breaker"), Confidence.PUBLISHED)

MAIN_INTERRUPTING = replace(
    interrupting("5 kA", UNMARKED),
    key="main_interrupting",
    label=N_("Interrupting rating of its breaker"),
    help=N_("The largest fault current that it can break, on its label (AIR, AIC or kA)."),
    quiet=True,
)
"""Of a breaker that is built into something else: it is told where a fault is beyond it."""


def breaker_in(
    name: str,
    contacts: tuple[Contact, ...],
    rating_a: float,
    volts: float,
    values: Values | None = None,
) -> Overcurrent:
    """A built-in breaker; ``values`` tell its interrupting rating, where the part has
    ``MAIN_INTERRUPTING``; else 5 kA (UL 489, unmarked)."""
    marked = values is not None and values.given("main_interrupting")
    breaks_a = 5000.0 if values is None else values.num("main_interrupting")
    return Overcurrent(
        name, tuple(c.name for c in contacts), rating_a, "breaker", breaks_a, marked, volts, None
    )


def live_poles(poles: tuple[Pole, ...]) -> tuple[Pole, ...]:
    """The ungrounded conductors among poles."""
    return tuple(p for p in poles if p in (Pole.L, Pole.L1, Pole.L2, Pole.L3, Pole.POS))
