"""Generator: a source that a person starts, with or without a link from neutral to its frame."""

from __future__ import annotations

from linework.kinds.common import (
    FROM_MEMORY,
    SOURCE_CIRCUIT,
    VOLTAGE,
    bond_link,
    breaker_in,
    contact_ohm,
    live_poles,
    own_places,
    poles_of,
    straight,
    switched,
    values_hertz,
)
from linework.kinds.kind import Kind
from linework.kinds.ratings import Band, Choice, OneOf, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Contact,
    Element,
    Inside,
    Join,
    Leak,
    Limit,
    Metal,
    Place,
    Pole,
    Selector,
    Source,
    Terminal,
    Three,
    When,
)
from linework.words import N_

RUNNING: When = (("set", frozenset({"running"})),)

RATINGS = (
    SOURCE_CIRCUIT,
    Rating("power", N_("Rating"), "apparent_power", low=100.0, high=1e6, needed=True),
    VOLTAGE,
    Rating(
        "excitation",
        N_("Excitation"),
        "choice",
        "own",
        FROM_MEMORY,
        choices=(
            Choice("own", N_("from its own terminals")),
            Choice("auxiliary", N_("auxiliary winding or permanent magnet")),
            Choice("capacitor", N_("capacitor")),
            Choice("electronic", N_("electronic output (inverter set)")),
        ),
        help=N_("Decides how much current it holds into a fault, and for how long."),
    ),
    Rating(
        "neutral",
        N_("Neutral"),
        "choice",
        OneOf(("bonded", "floating")),
        N_("not known until measured: both are judged"),
        choices=(
            Choice("bonded", N_("joined to the frame")),
            Choice("floating", N_("floating")),
            Choice("relay", N_("joined by a relay while it runs")),
        ),
        help=N_(
            "To find out: set stopped, everything unplugged, ohmmeter from the {neutral} slot to"
            " the {ground} contact. Near zero: joined. Open: floating."
        ),
    ),
    Rating(
        "bond_allowed",
        N_("May the neutral be joined to the frame?"),
        "choice",
        "unknown",
        choices=(
            Choice("yes", N_("yes, the maker says so")),
            Choice("no", N_("no")),
            Choice("unknown", N_("not known: ask the maker")),
        ),
        quiet=True,
    ),
    Rating(
        "reactance",
        N_("Subtransient reactance, per unit"),
        "ratio",
        Band("0.07", "0.12", "0.24"),
        N_("from memory; published only for larger sets"),
        low=0.01,
        high=1.0,
    ),
    Rating("breaker", N_("Main breaker on the set"), "current", low=1.0, quiet=True),
    Rating("outlets", N_("Places for its own outlets"), "count", "2", low=0, high=12, quiet=True),
    Rating(
        "stray_line",
        N_("Stray capacitance, line to frame"),
        "capacitance",
        "1 nF",
        FROM_MEMORY,
        low=0.0,
        quiet=True,
    ),
    Rating(
        "stray_neutral",
        N_("Stray capacitance, neutral to frame"),
        "capacitance",
        "1 nF",
        FROM_MEMORY,
        low=0.0,
        quiet=True,
    ),
    Rating(
        "indoors",
        N_("Where it stands"),
        "choice",
        "outdoors",
        choices=(
            Choice("outdoors", N_("outdoors, away from openings")),
            Choice("compartment", N_("in a compartment of the vehicle")),
        ),
        quiet=True,
    ),
)

_SUSTAINED: dict[str, tuple[Three, float, float | None, Three | None]] = {
    # sustained current, time until it is reached, time until off, bound before; currents in
    # multiples of the rated current. One source for the collapse after 0.35 s, rest from memory.
    "own": (Three(0.0, 0.5, 2.5), 0.35, None, None),
    "auxiliary": (Three(2.5, 3.0, 4.0), 0.1, None, None),
    "capacitor": (Three(0.0, 0.5, 1.5), 0.1, None, Three(3.0, 5.0, 8.0)),
    "electronic": (Three(1.0, 1.5, 2.0), 0.0, 5.0, Three(1.0, 1.5, 2.0)),
}


def terminals(values: Values) -> tuple[Terminal, ...]:
    """The output and the frame."""
    return (
        Terminal("out", poles_of(values), "out"),
        Terminal("frame", (Pole.PE,), "tie"),
    )


def places(values: Values) -> tuple[Place, ...]:
    """Its own outlets, or the breakers before them, straight at the winding."""
    return own_places(poles_of(values), int(values.num("outlets")))


def rated_a(values: Values) -> float:
    """Rated current of one leg in ampere: power over the voltage of all legs in series."""
    legs = len(live_poles(poles_of(values)))
    if values.pick("circuit") == "ac240":
        legs = 1
    return values.num("power") / (values.num("voltage") * legs)


def fault_limit(excitation: str, amps: float) -> Limit:
    """How the current of a set of this excitation falls under a fault."""
    sustained, decay_s, off_s, first = _SUSTAINED[excitation]
    return Limit(
        sustained.scaled(amps), decay_s, off_s, first.scaled(amps) if first is not None else None
    )


def _windings(values: Values) -> list[Source]:
    poles = poles_of(values)
    amps = rated_a(values)
    volts = values.num("voltage") / (2.0 if values.pick("circuit") == "ac240" else 1.0)
    per_unit = values.three("reactance")
    # For one leg: X = x'' U / I; R = 0.15 X (IEC 60909-0, generators up to 1 kV, from memory).
    x = per_unit.scaled(volts / amps)
    limit = fault_limit(values.pick("excitation"), amps)
    return [
        Source(
            f"winding {pole}",
            ("winding", pole),
            ("winding", Pole.N),
            volts,
            values_hertz(values),
            x.scaled(0.15),
            x,
            phase_deg=180.0 * number,
            rated_a=amps,
            limit=limit,
            group="set",
            when=RUNNING,
        )
        for number, pole in enumerate(live_poles(poles))
    ]


def _output(values: Values) -> list[Element]:
    """From the winding to the output, through the main breaker where one is fitted."""
    poles = poles_of(values)
    lines = live_poles(poles)
    if not values.has("breaker"):
        return list(straight("winding", "out", poles))
    amps = values.num("breaker")
    contacts: tuple[Contact, ...] = switched("winding", "out", lines, contact_ohm(amps), ())
    rest = straight("winding", "out", tuple(p for p in poles if p not in lines))
    volts = values.num("voltage") * len(lines)
    return [*contacts, *rest, breaker_in("main breaker", contacts, amps, volts)]


def inside(values: Values) -> Inside:
    """Windings behind their reactance, the frame, the link of the neutral."""
    neutral, frame = ("winding", Pole.N), ("frame", Pole.PE)
    elements: list[Element] = [*_output(values)]
    elements.append(Join(("winding", Pole.PE), frame))
    elements.append(Metal("frame", frame))
    if values.has("power"):
        elements += _windings(values)
    bond = values.pick("neutral")
    if bond == "bonded":
        elements.append(bond_link(neutral, frame))
    elif bond == "relay":
        elements.append(bond_link(neutral, frame, RUNNING))
    stray = values.num("stray_line")
    for pole in live_poles(poles_of(values)):
        elements.append(Leak(("winding", pole), frame, farad=stray))
    elements.append(Leak(neutral, frame, farad=values.num("stray_neutral")))
    return Inside(tuple(elements), (Selector("set", ("stopped", "running"), "stopped", "source"),))


KIND = Kind(
    key="generator",
    name=N_("generator"),
    letters="G",
    strip="sources",
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "generator",
    captions=("power", "neutral"),
    columns=("power", "voltage", "excitation", "neutral", "bond_allowed", "breaker"),
    search=N_("generator genset set engine alternator portable"),
)
