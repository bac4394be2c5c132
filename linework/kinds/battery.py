"""Battery: a direct-current source that can be live from its posts on."""

from __future__ import annotations

from linework.data import Confidence
from linework.kinds.common import POLES, STANDS, about
from linework.kinds.habit import BANK_HABIT
from linework.kinds.kind import Kind
from linework.kinds.ratings import Band, Choice, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import Inside, Place, Pole, Source, SourceGroup, Terminal, Three
from linework.words import N_

_AMPERE_PER_AH: dict[str, Three] = {
    # Short-circuit current over capacity. Lithium at the cells: 12.8 V over the 2 milliohm of a
    # block of 100 Ah (a maker's data sheet); four cells of 60 Ah with 0.75 and three links with
    # 0.25 milliohm give 3.7 kA; low: 8 milliohm, electronics included. Lead from memory: blocks of
    # 12 V and 100 Ah give 2 to 4 kA absorbed, 1.2 to 2.5 kA flooded.
    "lithium": Three(16.0, 40.0, 64.0),
    "agm": Three(20.0, 30.0, 40.0),
    "flooded": Three(12.0, 18.0, 25.0),
}


_OVER_CRANKING = Three(2.2, 3.0, 4.5)
"""Short-circuit current over the cranking amperes of lead. At -18 C these leave 7.2 of 12.6 V after
30 s (SAE J537), so that 2.2 times as much flows in a short; warm twice that (from memory)."""


def _usual_fault_a(values: Values) -> Band:
    # of lithium the management decides what its label says, not the cells
    if values.given("cranking_amperes") and values.pick("chemistry") != "lithium":
        usual = _OVER_CRANKING.scaled(values.num("cranking_amperes"))
    else:
        usual = _AMPERE_PER_AH[values.pick("chemistry")].scaled(values.num("capacity"))
    return Band(*(about(amps, "current") for amps in (usual.low, usual.usual, usual.high)))


CHARGED = 1.2
"""Highest charging voltage over the nominal one: 14.4 V on 12 V, 57.6 V on 48 V (lithium iron
phosphate 14.2 to 14.6 V, lead 14.4 to 14.8 V by its data sheet; from memory)."""


def _usual_charged(values: Values) -> str:
    return about(CHARGED * values.num("voltage"), "voltage")


RATINGS = (
    Rating(
        "voltage",
        N_("Nominal voltage"),
        "voltage",
        "12 V",
        low=1.0,
        high=1000.0,
        help=N_("On its label; of cells in one case what they give together."),
    ),
    Rating(
        "capacity",
        N_("Capacity"),
        "charge",
        "100 Ah",
        low=0.1,
        usual=(2.0, 5e3),
        help=N_("On its label, in Ah; energy in Wh over its voltage."),
    ),
    Rating(
        "chemistry",
        N_("Chemistry"),
        "choice",
        "lithium",
        choices=(
            Choice("lithium", N_("lithium iron phosphate")),
            Choice("agm", N_("lead, absorbed")),
            Choice("flooded", N_("lead, flooded")),
        ),
        help=N_("On its label: LiFePO4, AGM or gel, flooded (with caps to fill)."),
    ),
    Rating(
        "fault_current",
        N_("Short-circuit current of the cells"),
        "current",
        source=Origin(
            N_(
                "usual for its cranking amperes, else its chemistry and capacity; lithium by a data"
                " sheet, lead from memory"
            ),
            Confidence.MEMORY,
        ),
        low=10.0,
        help=N_(
            "On its data sheet, else its voltage over its internal resistance. Of the cells: their"
            " management system is no overcurrent device."
        ),
        derive=_usual_fault_a,
    ),
    Rating(
        "charged_voltage",
        N_("Highest charging voltage"),
        "voltage",
        source=Origin(N_("1.2 times its nominal voltage, from memory"), Confidence.MEMORY),
        low=1.0,
        high=1200.0,
        quiet=True,
        help=N_(
            "Absorption or charge voltage, on its data sheet: all that is joined must stand it."
        ),
        derive=_usual_charged,
    ),
    Rating(
        "cranking_amperes",
        N_("Cranking amperes"),
        "current",
        None,
        low=10.0,
        quiet=True,
        help=N_("CCA or MCA, on its label: what it gives for 30 s to start an engine."),
    ),
    Rating(
        "discharge_limit",
        N_("Its management gives for good"),
        "current",
        None,
        low=0.1,
        quiet=True,
        help=N_("Continuous discharge current, on its data sheet. Above it the battery cuts out."),
    ),
    Rating(
        "discharge_peak",
        N_("Its management gives for a start"),
        "current",
        None,
        low=0.1,
        quiet=True,
        help=N_("Peak discharge current for some seconds, on its data sheet."),
    ),
    Rating(
        "charge_limit",
        N_("Its management takes"),
        "current",
        None,
        low=0.1,
        quiet=True,
        help=N_("Greatest charging current, on its data sheet. Above it the battery cuts out."),
    ),
    STANDS,
    *BANK_HABIT,
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """The two posts."""
    return (Terminal("dc", POLES["dc"], "both"),)


def places(values: Values) -> tuple[Place, ...]:
    """A terminal fuse may sit on the positive post."""
    offers = tuple((pole, ("dc", pole)) for pole in POLES["dc"])
    return (Place("post", frozenset({"fuse"}), offers),)


def fault_a(values: Values) -> Three:
    """Short-circuit current at the posts in ampere."""
    return values.three("fault_current")


def inside(values: Values) -> Inside:
    """The cells behind their resistance, U / Ik (IEC 61660, simplified)."""
    volts, ik = values.num("voltage"), fault_a(values)
    ohm = Three(volts / ik.high, volts / ik.usual, volts / ik.low)
    cells = Source(
        "cells",
        ("dc", Pole.POS),
        ("dc", Pole.NEG),
        volts,
        0.0,
        ohm,
        Three.exactly(0.0),
        group=SourceGroup.CELLS,
        charged_v=values.num("charged_voltage"),
    )
    return Inside((cells,))


KIND = Kind(
    key="battery",
    name=N_("battery"),
    letters="GB",
    strip="sources",
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "battery",
    captions=("voltage", "capacity"),
    columns=(
        "voltage",
        "capacity",
        "chemistry",
        "fault_current",
        "charged_voltage",
        "cranking_amperes",
        "discharge_limit",
        "discharge_peak",
        "charge_limit",
    ),
    search=N_("battery bank accumulator lithium lead cells starter house"),
    source=SourceGroup.CELLS,
)
