"""Autotransformer: one winding with a tap; what comes in and what goes out share a conductor."""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.common import POLES, VOLTAGE, about, straight
from linework.kinds.kind import Kind
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.kinds.windings import (
    BACKWARD,
    FORWARD,
    IMPEDANCE,
    POWER,
    X_OVER_R,
    Leg,
    driven,
    legs,
)
from linework.quantity import read
from linework.wiring import (
    Element,
    Follow,
    Inside,
    Join,
    Metal,
    Point,
    Pole,
    Selector,
    SourceGroup,
    Terminal,
)
from linework.words import N_


def _twice(values: Values) -> str | None:
    volts = values.setting.get("voltage")
    return None if volts is None else about(2.0 * read(volts, "voltage"), "voltage")


_HIGH = replace(
    VOLTAGE,
    key="high_voltage",
    label=N_("Voltage between its two {hots}"),
    default=None,
    help=N_("On its plate: the higher of its voltages."),
    derive=_twice,
)

RATINGS = (
    Rating(
        "form",
        N_("What it does"),
        "choice",
        "balance",
        choices=(
            Choice("balance", N_("makes a {neutral} between two {hots}")),
            Choice("up", N_("one {hot} and {neutral} in, two {hots} without {neutral} out")),
            Choice("down", N_("two {hots} without {neutral} in, one {hot} and {neutral} out")),
        ),
        help=N_("In the wiring diagram on its lid or in its manual: how many wires go in and out."),
    ),
    replace(VOLTAGE, help=N_("From {hot} to {neutral}.")),
    _HIGH,
    replace(
        POWER,
        help=N_(
            "On its plate, in VA or kVA. Of one that makes {a_neutral}: what the legs may differ"
            " by, the current that its {neutral} may carry times the voltage of one leg."
        ),
    ),
    IMPEDANCE,
    X_OVER_R,
)

_LOW = {"up": "primary", "down": "secondary"}
"""Where the lower voltage is."""


def terminals(values: Values) -> tuple[Terminal, ...]:
    """What comes in, what goes out, case."""
    return (
        Terminal("primary", _poles(values, "primary"), "in"),
        Terminal("secondary", _poles(values, "secondary"), "out"),
        Terminal("case", (Pole.PE,), "tie"),
    )


def _poles(values: Values, terminal: str) -> tuple[Pole, ...]:
    form = values.pick("form")
    if form == "balance":
        return POLES["split"] if terminal == "secondary" else POLES["ac240"]
    return POLES["ac"] if terminal == _LOW[form] else POLES["ac240"]


def inside(values: Values) -> Inside:
    """One winding with its tap, ground through, case."""
    case = ("case", Pole.PE)
    elements: list[Element] = [
        Join(("primary", Pole.PE), case),
        Join(("secondary", Pole.PE), case),
        Metal("case", case),
    ]
    balance = values.pick("form") == "balance"
    elements += _balanced(values) if balance else _stepped(values)
    first = {t: (t, _poles(values, t)[0]) for t in ("primary", "secondary")}
    rule = [Follow("forward", live=(first["primary"],))]
    if not balance:
        rule.append(Follow("backward", live=(first["secondary"],)))
    positions = (*(line.position for line in rule), "off")
    core = Selector("core", positions, "off", "follows", (*rule, Follow("off")))
    return Inside(tuple(elements), (core,))


def _balanced(values: Values) -> list[Element]:
    """The tap makes the neutral: half the voltage of the ends on either side of it."""
    through = straight("primary", "secondary", (Pole.L1, Pole.L2))
    if not values.has("power"):
        return [*through]
    ends: tuple[Point, Point] = (("primary", Pole.L1), ("primary", Pole.L2))
    high = values.num("high_voltage")
    halves = legs("half", "secondary", POLES["split"], high / 2.0, "")
    return [*through, *driven(values, halves, ends, high, FORWARD, "primary")]


def _stepped(values: Values) -> list[Element]:
    """The end that both sides share is the neutral of the lower and the second hot of the higher
    voltage."""
    low = _LOW[values.pick("form")]
    high = "primary" if low == "secondary" else "secondary"
    shared = Join((low, Pole.N), (high, Pole.L2))
    if not values.has("power"):
        return [shared]
    ends = {low: ((low, Pole.L), (low, Pole.N)), high: ((high, Pole.L1), (high, Pole.L2))}
    volts = {low: values.num("voltage"), high: values.num("high_voltage")}
    sides = (("primary", "secondary", FORWARD), ("secondary", "primary", BACKWARD))
    elements: list[Element] = [shared]
    for one, other, when in sides:
        leg = Leg(f"winding {other}", *ends[other], volts[other])
        elements += driven(values, [leg], ends[one], volts[one], when, one)
    return elements


KIND = Kind(
    key="autotransformer",
    name=N_("autotransformer"),
    letters="TA",
    strip="conversion",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "autotransformer",
    captions=("power",),
    columns=("form", "power", "voltage", "high_voltage", "impedance"),
    search=N_("autotransformer transformer balancing neutral step up step down 240 120"),
    source=SourceGroup.WINDING,
    fixed=True,
)
