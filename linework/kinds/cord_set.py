"""Cord set: a plug, a flexible cord and an outlet end as one part."""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.adapter import CONNECTOR, GROUND, pin_poles
from linework.kinds.common import CIRCUIT, PLUG_CONTACT, poles_of
from linework.kinds.kind import Kind
from linework.kinds.outlet import CONFIGURATION, CORD_END, face_place, mouth
from linework.kinds.plug import PLUG, UNPLUGGED
from linework.kinds.ratings import Rating
from linework.kinds.values import Values
from linework.wiring import Inside, Link, Pins, Place, Terminal, Three, is_protective
from linework.words import N_

_OHM_MM2_PER_M = 0.017241
"""Resistivity of annealed copper at 20 C (IEC 60028: 1/58)."""
_LAY = 1.02
"""Strands are longer than their cord (common practice, no source)."""
_HOT = 1.0 + 0.00393 * (75.0 - 20.0)
"""Rise of copper's resistance from 20 to 75 C (IEC 60028)."""

RATINGS = (
    CIRCUIT,
    replace(CONFIGURATION, label=N_("Configuration of its plug")),
    replace(
        CONNECTOR,
        needed=False,
        quiet=True,
        derive=lambda values: values.text("configuration"),
    ),
    Rating(
        "size",
        N_("Conductor size"),
        "size",
        needed=True,
        help=N_("As printed on the cord, for example 12 AWG or 2.5 mm2."),
    ),
    Rating(
        "length",
        N_("Length"),
        "length",
        low=0.0,
        high=1000.0,
        needed=True,
        usual=(0.2, 100.0),
        help=N_("On its label, or measured."),
    ),
    Rating(
        "marked",
        N_("Current marked on it"),
        "current",
        low=1.0,
        quiet=True,
        help=N_("Where its label gives one; else the tables for flexible cords decide."),
    ),
    GROUND,
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Its pins and the face at its other end."""
    poles = poles_of(values)
    return (Terminal("pins", pin_poles(values, poles), "in"), Terminal("face", poles, "out"))


def places(values: Values) -> tuple[Place, ...]:
    """Its face takes plugs, and goes on the pins of an inlet."""
    return (face_place(poles_of(values), values.text("connector"), CORD_END),)


def conductor_ohm(values: Values) -> Three:
    """Resistance of one conductor with its plug contact in ohm: cold for maximum faults, hot else.

    From geometry and resistivity. Without size and length that of the contact alone.
    """
    if not (values.has("size") and values.has("length")):
        return PLUG_CONTACT
    cold = _LAY * _OHM_MM2_PER_M * values.num("length") / values.area_mm2("size")
    hot = _HOT * cold + PLUG_CONTACT.usual
    return Three(cold + PLUG_CONTACT.low, hot, hot)


def inside(values: Values) -> Inside:
    """A conductor for each pole. As with a plug its positions are the outlets it may go to, and
    its pins are bare while it is in none."""
    poles, ohm = poles_of(values), conductor_ohm(values)
    kept = pin_poles(values, poles)
    bare = tuple(("pins", p) for p in poles if not is_protective(p))
    return Inside(
        (
            *(Link(str(p), ("pins", p), ("face", p), ohm, cord=True) for p in kept),
            Pins("pins", bare, UNPLUGGED),
            *mouth(poles, values.text("connector")),
        ),
        (PLUG,),
    )


KIND = Kind(
    key="cord_set",
    name=N_("{cord_set}"),
    letters="WX",
    strip="switching",
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "cord_set",
    seat="pins",
    roles=frozenset({"plug"}),
    captions=("size", "length"),
    columns=("configuration", "connector", "size", "length", "marked", "ground"),
    search=N_("cord set extension cord lead"),
    loose=True,
    cord=True,
)
