"""Generator: a source that a person starts, with or without a link from neutral to its frame."""

from __future__ import annotations

from dataclasses import replace

from linework.data import Confidence
from linework.kinds.common import (
    ELECTRONIC_SURGE,
    MAIN_INTERRUPTING,
    PLUG_CONTACT,
    RATED_FACTOR,
    SOURCE_CIRCUIT,
    STANDS,
    SURGE,
    SURGE_TIME,
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
from linework.kinds.fuel import FUEL
from linework.kinds.habit import SET_HABIT
from linework.kinds.kind import Kind
from linework.kinds.ratings import FROM_MEMORY, Band, Choice, OneOf, Origin, Rating
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
    Point,
    Pole,
    Selector,
    Source,
    SourceGroup,
    Terminal,
    Three,
    When,
)
from linework.words import N_

RUNNING: When = (("set", frozenset({"running"})),)
SERIES: When = (("voltage", frozenset({"120/240V"})),)
PARALLEL: When = (("voltage", frozenset({"120V"})),)

RATINGS = (
    SOURCE_CIRCUIT,
    Rating(
        "power",
        N_("Rating"),
        "apparent_power",
        low=100.0,
        high=1e6,
        needed=True,
        usual=(300.0, 250e3),
        factor="rated_factor",
        help=N_("On its plate, the running figure and not the peak."),
    ),
    RATED_FACTOR,
    SURGE,
    SURGE_TIME,
    FUEL,
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
        Origin(N_("not known until measured: both are judged"), Confidence.DEFINED),
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
        help=N_("In its manual, under grounding; else ask its maker."),
    ),
    Rating(
        "reactance",
        N_("Subtransient reactance, per unit"),
        "ratio",
        Band("0.07", "0.12", "0.24"),
        Origin(N_("from memory; published only for larger sets"), Confidence.MEMORY),
        low=0.01,
        high=1.0,
        help=N_("In the data sheet of its alternator as X''d; plates do not tell it."),
    ),
    Rating(
        "switch_120",
        N_("Switch to 120 V only"),
        "choice",
        "none",
        choices=(
            Choice("none", N_("none")),
            Choice("dead", N_("fitted: outlets with two {hots} are dead then")),
            Choice("in_phase", N_("fitted: both {hots} of every outlet carry the same then")),
        ),
        quiet=True,
        help=N_(
            "On a set with two {hots}: it joins both windings side by side, so that one outlet can"
            " take the whole power."
        ),
    ),
    Rating(
        "leg_current",
        N_("Most that one {hot} gives"),
        "current",
        None,
        Origin(N_("half of the set's rating"), Confidence.DERIVED),
        low=1.0,
        quiet=True,
        help=N_("Of a set with two {hots}, from its plate; else half of its power."),
    ),
    Rating(
        "parallel",
        N_("Runs in parallel with another"),
        "choice",
        "no",
        choices=(
            Choice("no", N_("no, or not known")),
            Choice("kit", N_("yes, with one of its make, by the maker's kit")),
        ),
        quiet=True,
        help=N_("Its manual names the other set and the kit that joins them."),
    ),
    Rating(
        "breaker",
        N_("Main breaker on the set"),
        "current",
        low=1.0,
        quiet=True,
        help=N_("The figure on its handle or button."),
    ),
    MAIN_INTERRUPTING,
    Rating("outlets", N_("Places for its own outlets"), "count", "2", low=0, high=12, quiet=True),
    Rating(
        "stray_line",
        N_("Stray capacitance, line to frame"),
        "capacitance",
        "1 nF",
        FROM_MEMORY,
        low=0.0,
        quiet=True,
        help=N_("No plate tells it; measured from terminal to frame with the link open."),
    ),
    Rating(
        "stray_neutral",
        N_("Stray capacitance, neutral to frame"),
        "capacitance",
        "1 nF",
        FROM_MEMORY,
        low=0.0,
        quiet=True,
        help=N_("No plate tells it; measured from terminal to frame with the link open."),
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
    STANDS,
    *SET_HABIT,
)

_SIN_RATED = 0.6

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
    """Its own outlets, or the breakers before them, behind its main breaker where it has one."""
    number = int(values.num("outlets"))
    if not _has_switch(values):
        return own_places(poles_of(values), number)
    legs: tuple[Point, Point] = (("leg 1", Pole.L), ("leg 2", Pole.L))
    return own_places(poles_of(values), number, legs)


def _has_switch(values: Values) -> bool:
    return values.pick("circuit") == "split" and values.pick("switch_120") != "none"


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


def leg_a(values: Values) -> float:
    """What one leg may give for good, in ampere."""
    amps = rated_a(values)
    two = len(live_poles(poles_of(values))) > 1
    return values.num("leg_current") if two and values.has("leg_current") else amps


def _windings(values: Values) -> list[Source]:
    """A source for each leg; with the switch at 120 V the second one turns into the first."""
    lines = live_poles(poles_of(values))
    found = [_winding(values, pole, 180.0 * i, RUNNING) for i, pole in enumerate(lines)]
    if not _has_switch(values):
        return found
    beside = replace(found[0], name="winding beside", when=(*RUNNING, *PARALLEL))
    return [found[0], replace(found[1], when=(*RUNNING, *SERIES)), beside]


def _reactance(values: Values) -> Three:
    """Per unit; the low figure, for the largest fault current, corrected as for a set that was
    loaded before: its electromotive force then stands above its terminals.

    IEC 60909-0, correction factor of generators at their rated voltage (from memory): the
    current grows by 1 + x'' sin(phi), with phi of the rated power factor 0.8.
    """
    x = values.three("reactance")
    return Three(x.low / (1.0 + _SIN_RATED * x.low), x.usual, x.high)


def _winding(values: Values, pole: Pole, phase_deg: float, when: When) -> Source:
    amps = rated_a(values)
    volts = values.num("voltage") / (2.0 if values.pick("circuit") == "ac240" else 1.0)
    # For one leg: X = x'' U / I; R = 0.15 X (IEC 60909-0, generators up to 1 kV, from memory).
    x = _reactance(values).scaled(volts / amps)
    return Source(
        f"winding {pole}",
        ("winding", pole),
        ("winding", Pole.N),
        volts,
        values_hertz(values),
        x.scaled(0.15),
        x,
        phase_deg=phase_deg,
        rated_a=leg_a(values),
        limit=fault_limit(values.pick("excitation"), amps),
        group=SourceGroup.SET,
        when=when,
        shared_va=values.num("power"),
        surge_a=_surge_a(values, amps),
        in_step=values.pick("parallel") == "kit",
    )


def _surge_a(values: Values, amps: float) -> float | None:
    """What a leg gives for a start; of a set that is not electronic only where its plate tells."""
    if values.has("surge"):
        return amps * values.num("surge") / values.num("power")
    return ELECTRONIC_SURGE * amps if values.pick("excitation") == "electronic" else None


def _output(values: Values) -> list[Element]:
    """From the winding to the output, through main breaker and switch where they are fitted."""
    poles = poles_of(values)
    lines = live_poles(poles)
    rest = tuple(p for p in poles if p not in lines)
    behind = "main" if _has_switch(values) else "out"
    elements: list[Element] = [*straight("winding", "out", rest)]
    if _has_switch(values):
        elements += _switch(values, lines)
    if not values.has("breaker"):
        return [*elements, *straight("winding", behind, lines)]
    amps = values.num("breaker")
    contacts: tuple[Contact, ...] = switched("winding", behind, lines, contact_ohm(amps), ())
    volts = values.num("voltage") * len(lines)
    return [*elements, *contacts, breaker_in("main breaker", contacts, amps, volts, values)]


def _switch(values: Values, lines: tuple[Pole, ...]) -> list[Element]:
    """Windings side by side or in series; what each outlet gets of them."""
    # of a set whose power is not given the contact is any
    ohm = contact_ohm(2.0 * rated_a(values)) if values.has("power") else PLUG_CONTACT
    first, second = (("main", pole) for pole in lines)
    one, other = (("winding", pole) for pole in lines)
    out = SERIES if values.pick("switch_120") == "dead" else ()
    return [
        Contact("windings", one, other, ohm, PARALLEL),
        *switched("main", "out", lines, ohm, out, "out "),
        Contact("leg 1", first, ("leg 1", Pole.L), ohm),
        Contact("leg 2", second, ("leg 2", Pole.L), ohm),
    ]


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
    started = Selector("set", ("stopped", "running"), "stopped", "source")
    if not _has_switch(values):
        return Inside(tuple(elements), (started,))
    switch = Selector("voltage", ("120/240V", "120V"), "120/240V", "hand")
    return Inside(tuple(elements), (started, switch))


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
    captions=("power", "breaker", "neutral"),
    columns=(
        "power",
        "surge",
        "leg_current",
        "voltage",
        "excitation",
        "neutral",
        "bond_allowed",
        "parallel",
        "breaker",
        "switch_120",
    ),
    search=N_("generator genset set engine alternator portable"),
    source=SourceGroup.SET,
)
