"""What lies in a portable power station beside its inverter: cells, chargers, a 12 V socket."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from linework.data import Confidence
from linework.kinds.common import about, live_poles, poles_of, switched, values_hertz
from linework.kinds.converters import (
    BATTERY_VOLTAGE,
    CHARGE_SHARE,
    CHARGER_LIMIT,
    battery_side,
    charging_source,
)
from linework.kinds.loads import ends
from linework.kinds.ratings import PRACTICE, Choice, Origin, Rating
from linework.kinds.solar_input import PV_CURRENT, PV_VOLTAGE
from linework.kinds.values import Values
from linework.wiring import (
    Convert,
    Draw,
    Element,
    Follow,
    Limit,
    Pole,
    Selector,
    Source,
    SourceGroup,
    Three,
    When,
)
from linework.words import N_

SOCKET = "12V socket"

_PACK_V, _PACK_OHM = 48.0, 0.02
"""Of cells that nothing outside touches: any figures do."""
_CHARGING = 0.9
"""Efficiency of its chargers (from memory)."""
_POWER_FACTOR = 0.95
"""Of its charger (from memory)."""


def _usual_charge(values: Values) -> str | None:
    return about(values.num("power"), "power") if values.has("power") else None


CHARGING_RATINGS = (
    Rating(
        "charge_power",
        N_("Charges from alternating current with"),
        "power",
        None,
        Origin(N_("its own rating; many take that at the most (from memory)"), Confidence.MEMORY),
        low=1.0,
        high=1e5,
        help=N_("On its plate or in its manual: AC input in W; amperes times volts where it tells"),
        derive=_usual_charge,
    ),
    Rating(
        "through",
        N_("Passes its input on to its outlets"),
        "choice",
        "yes",
        choices=(Choice("yes", N_("yes")), Choice("no", N_("no"))),
        quiet=True,
        help=N_(
            "Its manual calls it bypass, pass-through or UPS: while charged it does not invert."
        ),
    ),
    replace(
        PV_VOLTAGE,
        label=N_("Largest voltage of its solar input"),
        needed=False,
        quiet=True,
        help=N_(
            "On its plate or beside the socket: the upper figure of a range; more destroys it."
        ),
    ),
    replace(
        PV_CURRENT,
        label=N_("Largest short-circuit current of its solar input"),
        source=PRACTICE,
        derive=None,
        quiet=True,
        help=N_("On its plate or beside the socket, in A."),
    ),
    replace(
        BATTERY_VOLTAGE, key="in_voltage", label=N_("Voltage of the vehicle"), quiet=True, help=""
    ),
    Rating(
        "in_current",
        N_("Takes from a vehicle's socket"),
        "current",
        "10 A",
        low=0.5,
        high=100.0,
        quiet=True,
        help=N_("In its manual: car charging, in A; 8 to 10 A as a rule."),
    ),
)

LOW_VOLTAGE_RATINGS = (
    replace(
        BATTERY_VOLTAGE,
        label=N_("Voltage of its socket of direct current"),
        quiet=True,
        help=N_("Beside the socket."),
    ),
    Rating(
        "dc_current",
        N_("Its socket of direct current gives"),
        "current",
        "10 A",
        low=0.5,
        high=200.0,
        help=N_("Beside the socket or in its manual, in A."),
    ),
)


def pack() -> tuple[Element, ...]:
    """The cells, and what the bridge and the socket take from them."""
    plus, minus = ("cells", Pole.POS), ("cells", Pole.NEG)
    ohm, none = Three.exactly(_PACK_OHM), Three.exactly(0.0)
    cells = Source("cells", plus, minus, _PACK_V, 0.0, ohm, none, group=SourceGroup.PACK)
    return (cells, replace(battery_side(_PACK_V, (), "cells"), name="cell side"))


def low_voltage(values: Values) -> tuple[Element, ...]:
    """The socket of direct current: its electronics hold the voltage up to its current."""
    volts, amps = values.num("dc_voltage"), values.num("dc_current")
    held = CHARGER_LIMIT.scaled(amps)
    socket = Source(
        "socket",
        ("dc_out", Pole.POS),
        ("dc_out", Pole.NEG),
        volts,
        0.0,
        Three.exactly(0.02 * volts / amps),
        Three.exactly(0.0),
        rated_a=amps,
        limit=Limit(held, 0.0, None, held),
        group=SourceGroup.INVERTER,
        when=(("output", frozenset({"on"})),),
    )
    return (socket, Convert("socket", "socket", "cell side", _CHARGING))


def charging(values: Values) -> list[Element]:
    """What charges the cells: from alternating current, from the sun, from a vehicle; each while
    its input is live."""
    taken_w = values.opt("charge_power") or 0.0
    one, other = ends(poles_of(values))
    volts = values.num("voltage") * (1.0 if other is Pole.N else 2.0)
    shore = replace(
        battery_side(volts, _when("charger"), "ac_in"),
        name="charger input",
        a=("ac_in", one),
        b=("ac_in", other),
        power_factor=_POWER_FACTOR,
        works_v=(0.85 * volts, 1.1 * volts),
        hertz=values_hertz(values),
    )
    car = battery_side(values.num("in_voltage"), _when("vehicle"), "dc_in")
    most_v = max(values.opt("pv_voltage") or 0.0, 1.01 * _PACK_V)
    sun = replace(
        battery_side(_PACK_V, _when("sun"), "pv"),
        name="array side",
        works_v=(0.1 * _PACK_V, most_v),
    )
    taken = {
        "charger": (shore, taken_w),
        "vehicle": (car, values.num("in_current") * car.volts),
        "sun": (sun, (values.opt("pv_current") or 10.0) * most_v),
    }
    return [e for name, (draw, watts) in taken.items() for e in _charger(name, draw, watts)]


def _charger(name: str, draw: Draw, watts: float) -> Iterator[Element]:
    """One that takes so much; none where it takes nothing."""
    amps = _CHARGING * watts / (CHARGE_SHARE * _PACK_V)
    if amps:
        yield charging_source(name, amps, _PACK_V, draw.when, "cells")
        yield draw
        yield Convert(name, name, draw.name, _CHARGING)


def _when(charger: str) -> When:
    return ((charger, frozenset({"charging"})),)


def chargers(values: Values) -> tuple[Selector, ...]:
    """Each charges while its input is live."""
    inputs = {
        "charger": ("ac_in", live_poles(poles_of(values))[0]),
        "vehicle": ("dc_in", Pole.POS),
        "sun": ("pv", Pole.POS),
    }
    return tuple(
        Selector(
            name,
            ("charging", "off"),
            "off",
            "follows",
            (Follow("charging", live=(point,)), Follow("off")),
        )
        for name, point in inputs.items()
    )


def through(values: Values, poles: tuple[Pole, ...], ohm: Three, when: When) -> list[Element]:
    """What passes its input on; every pole is opened while it inverts."""
    passes = values.pick("through") == "yes"
    return [*switched("ac_in", "out", poles, ohm, when)] if passes else []
