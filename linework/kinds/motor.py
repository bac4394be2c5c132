"""Motor: runs at its power, starts at its locked-rotor current; also the starter of an engine."""

from __future__ import annotations

from dataclasses import replace

from linework.data import Confidence
from linework.kinds.code_letter import CODE_LETTER, locked_rotor_a
from linework.kinds.common import CIRCUIT, WIDEST_VOLTAGE, about
from linework.kinds.habit import LOAD_HABIT
from linework.kinds.horsepower import direct_a, horsepower, scaled_a, table_a
from linework.kinds.kind import Kind
from linework.kinds.loads import (
    CASE,
    CONTINUOUS,
    CRITICAL,
    DWELLING_USE,
    LARGEST_DEVICE,
    LEAST_AMPACITY,
    LEAST_VOLTAGE,
    MOST_VOLTAGE,
    POWER,
    load_inside,
    power_a,
    terminals,
)
from linework.kinds.ratings import FROM_MEMORY, Choice, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import Inside
from linework.words import N_


def running_a(values: Values) -> float:
    """Running current in ampere: that of the plate, else that by which it is sized; 0 while no
    power is given."""
    given = values.given("running_current")
    return values.num("running_current") if given else sized_a(values)


def sized_a(values: Values) -> float:
    """The current in ampere by which wires and devices are sized: of horsepower that of the table
    even where the plate tells another (430.6(A)(1)), else that of the plate or of the power."""
    hp, volts = horsepower(values), values.num("voltage")
    if hp is not None and values.pick("circuit") == "dc":
        return direct_a(hp, volts)
    if hp is not None:
        return table_a(hp, volts) or scaled_a(hp, volts)
    given = values.given("running_current")
    return values.num("running_current") if given else power_a(values)


def _usual_running(values: Values) -> str | None:
    """By its horsepower, else by its power; nothing follows from no power."""
    return about(sized_a(values), "current") if values.given("power") else None


def _drawn_w(values: Values) -> float | None:
    """What it takes in watt where that is not the power on its plate."""
    direct = values.pick("circuit") == "dc"
    if not values.given("running_current") and horsepower(values) is None:
        return None
    factor = 1.0 if direct else values.num("power_factor")
    return running_a(values) * values.num("voltage") * factor


def _usual_start(values: Values) -> str | None:
    """By the code letter of its horsepower, else so many times its running current."""
    hp = horsepower(values) if values.applies("code_letter") else None
    if hp is not None:
        letter = values.pick("code_letter")
        found = locked_rotor_a(letter, hp, values.num("voltage"))
        if found is not None:
            return about(found, "current")
    times = 1.0 if values.pick("duty") == "starter" else 6.0
    return about(times * running_a(values), "current") if values.has("power") else None


RATINGS = (
    CIRCUIT,
    replace(
        POWER,
        usual=(1.0, 50e3),
        help=N_("In watts what it takes, in hp what its shaft gives, as on its plate."),
    ),
    WIDEST_VOLTAGE,
    Rating(
        "running_current",
        N_("Running current"),
        "current",
        source=Origin(
            N_("by its power; of horsepower NFPA 70 tables 430.247 and 430.248, one source each"),
            Confidence.PUBLISHED,
        ),
        low=0.0,
        help=N_("From the nameplate: FLA, of a sealed compressor RLA."),
        quiet=True,
        derive=_usual_running,
    ),
    Rating(
        "power_factor",
        N_("Power factor"),
        "ratio",
        "0.8",
        low=0.05,
        high=1.0,
        ac_only=True,
        help=N_("On its plate as PF or cos phi."),
    ),
    Rating(
        "start_current",
        N_("Locked-rotor current"),
        "current",
        source=Origin(
            N_("its code letter, else six times the running current: common practice, no source"),
            Confidence.PRACTICE,
        ),
        low=0.0,
        help=N_("From the nameplate (LRA)."),
        derive=_usual_start,
    ),
    CODE_LETTER,
    Rating(
        "soft_start",
        N_("Starting current with its soft starter"),
        "current",
        None,
        low=0.1,
        help=N_("Where one is fitted: from its data sheet, or measured after it has learnt."),
        quiet=True,
        ac_only=True,
    ),
    Rating(
        "start_power_factor",
        N_("Power factor while it starts"),
        "ratio",
        "0.35",
        FROM_MEMORY,
        low=0.05,
        high=1.0,
        ac_only=True,
        quiet=True,
        help=N_("No plate tells it; its data sheet may."),
    ),
    Rating(
        "duty",
        N_("Kind of motor"),
        "choice",
        "motor",
        choices=(
            Choice("motor", N_("motor")),
            Choice("hermetic", N_("air conditioner or refrigerator with a sealed compressor")),
            Choice("brief", N_("windlass, winch or thruster: runs for minutes")),
            Choice("starter", N_("starter of an engine: runs for seconds")),
        ),
        quiet=True,
    ),
    LARGEST_DEVICE,
    LEAST_AMPACITY,
    CASE,
    CONTINUOUS,
    LEAST_VOLTAGE,
    MOST_VOLTAGE,
    CRITICAL,
    DWELLING_USE,
    *LOAD_HABIT,
)

_HABITS = {"hermetic": "air-conditioner", "brief": "winch", "starter": "starter"}


def inside(values: Values) -> Inside:
    """A draw with a starting current; a starter takes nothing but that, for seconds."""
    dc, duty = values.pick("circuit") == "dc", values.pick("duty")
    guessed = dc and duty != "starter" and not values.given("start_current")
    soft = not dc and values.given("soft_start")
    return load_inside(
        values,
        None if guessed else values.opt("soft_start" if soft else "start_current"),
        1.0 if dc else values.num("start_power_factor"),
        lasts={"brief": "minutes", "starter": "seconds"}.get(duty, "hours"),
        watts=_drawn_w(values),
    )


KIND = Kind(
    key="motor",
    name=N_("motor"),
    letters="MA",
    strip="loads",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "motor_dc" if values.pick("circuit") == "dc" else "motor",
    captions=("power",),
    columns=(
        "power",
        "voltage",
        "power_factor",
        "running_current",
        "start_current",
        "code_letter",
        "soft_start",
        "largest_device",
        "least_ampacity",
    ),
    search=N_(
        "motor water pump fan blower compressor air conditioner windlass winch thruster starter"
    ),
    fixed=True,
    consumes=True,
    turns=True,
    habit=lambda values: _HABITS.get(values.pick("duty"), "pump"),
)
