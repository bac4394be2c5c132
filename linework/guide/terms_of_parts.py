"""Words of the trade for things: wires, devices, parts, and what is marked on them."""

from __future__ import annotations

from linework.guide.term import Term
from linework.words import N_

_CODE = N_("NFPA 70 Article 100, IEC 60050; from memory, in our words")
_PRACTICE = N_("common practice, no source")

OF_PARTS = (
    Term(
        N_("{neutral}"),
        N_(
            "The conductor that carries the current of one {hot} back. It carries current like"
            " that one, and is near the voltage of the {ground} only as long as it is whole and"
            " joined to it at one place."
        ),
        _CODE,
    ),
    Term(
        N_("{hot}"),
        N_(
            "A conductor that stands at a voltage against {ground}. What is called 120/240 V has"
            " two of them, in opposite phase."
        ),
        _CODE,
    ),
    Term(
        N_("{ground_wire}"),
        N_(
            "The green, bare or green-yellow conductor. It carries nothing as long as all is whole;"
            " when a {hot} touches metal it brings the current back, so that a {breaker} opens."
        ),
        _CODE,
        (N_("{equipment_ground}"),),
    ),
    Term(
        N_("{electrode}"),
        N_(
            "A rod or other metal in the soil. It holds the system near the voltage of the soil; it"
            " does not make a {breaker} open: the soil lets far too little current through."
        ),
        _CODE,
        (N_("{ground_rod}"),),
    ),
    Term(
        N_("{neutral_ground_link}"),
        N_(
            "The one piece of metal that joins {neutral} and {ground}: a screw, strap, relay or"
            " plug. A source needs just one while it feeds. None: a fault trips nothing. Two: the"
            " {ground_wires} carry load current."
        ),
        _CODE,
        (N_("{main_bonding_jumper}"), N_("{system_bonding_jumper}")),
    ),
    Term(
        N_("bonding"),
        N_(
            "Joining metal that people can touch by a conductor, so that it stays at one voltage"
            " and a fault on it finds its way back."
        ),
        _CODE,
    ),
    Term(
        N_("{gfci}"),
        N_(
            "A device that compares what goes out with what comes back and opens when some"
            " milliampere are missing. It protects people, with or without {a_ground_wire}; it does"
            " not see a touch of both conductors."
        ),
        _CODE,
    ),
    Term(
        N_("{afci}"),
        N_(
            "A device that opens on the arc of a loose or crushed conductor, at currents at which"
            " no {breaker} would."
        ),
        _CODE,
    ),
    Term(
        N_("overcurrent device"),
        N_(
            "{Breaker} or {fuse}: opens when its circuit carries more than it is made for, quickly"
            " on a short, slowly on an overload."
        ),
        _CODE,
    ),
    Term(
        N_("interrupting rating"),
        N_(
            "The largest fault current that {a_breaker} or {fuse} can break without bursting. It"
            " stands on its label (AIC, IR, Icn); the fault current where it is fitted must be"
            " below it."
        ),
        _CODE,
        (N_("breaking capacity"),),
    ),
    Term(
        N_("class T fuse"),
        N_(
            "A small, fast fuse that breaks 20 kA and more of direct current. Used first behind"
            " lithium banks, whose short-circuit current bursts cheaper fuses."
        ),
        N_("UL 248-15, from memory"),
        (N_("class T"),),
    ),
    Term(
        N_("{ampacity}"),
        N_(
            "The current that a conductor may carry for good without its insulation getting too"
            " hot. It falls with the heat around, with other loaded wires beside it, and with the"
            " marking of the terminals."
        ),
        _CODE,
    ),
    Term(
        N_("{transfer_switch}"),
        N_(
            "Puts loads on one source or another, never on both. Whether it switches the {neutral}"
            " too decides where {neutral} and {ground} may be joined."
        ),
        _CODE,
    ),
    Term(
        N_("interlock"),
        N_(
            "A plate or rod by which one {breaker} can be closed only while another is open. It"
            " leaves the {neutral} joined in every position."
        ),
        _PRACTICE,
    ),
    Term(
        N_("inverter-charger"),
        N_(
            "Makes alternating current from a battery, and while shore power or a set feeds it,"
            " passes that on and charges the battery. Its relay often joins {neutral} and {ground}"
            " while it inverts, and parts them while it passes."
        ),
        _PRACTICE,
    ),
    Term(
        N_("charge controller"),
        N_(
            "Sits between a solar array and a battery and holds the battery's voltage: a tracker"
            " (MPPT) turns a higher voltage into more current, a simple one (PWM) joins the two."
        ),
        _PRACTICE,
        (N_("MPPT"), N_("PWM")),
    ),
    Term(
        N_("galvanic isolator"),
        N_(
            "Lies in the {ground_wire} from the dock. It blocks the small direct voltage that eats"
            " a boat's metal and still lets a fault current through."
        ),
        N_("ABYC A-28, from memory"),
    ),
    Term(
        N_("isolation transformer"),
        N_(
            "Feeds a boat or tool through a winding of its own: no conductor of the dock meets one"
            " of the boat. What it feeds is a source of its own, with a link of its own."
        ),
        _CODE,
    ),
    Term(
        N_("configuration"),
        N_(
            "The shape of a plug and its {outlet}: how many blades, for what voltage and current."
            " 5-15 is the household one of 15 A and 125 V, L5-30 one that locks, of 30 A."
        ),
        N_("NEMA WD 6, IEC 60309; from memory"),
    ),
    Term(
        N_("management of a battery"),
        N_(
            "Electronics in a lithium battery that switch it off when a cell is too full, too"
            " empty, too cold, or asked for too much. Then all that hangs on it is dead."
        ),
        _PRACTICE,
        (N_("BMS"),),
    ),
)
