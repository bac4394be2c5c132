"""Words of the trade for what happens: faults, readings, states, and what is worked out."""

from __future__ import annotations

from linework.guide.term import Term
from linework.words import N_

_CODE = N_("NFPA 70 Article 100, IEC 60050; from memory, in our words")
_PRACTICE = N_("common practice, no source")
_BODY = N_("IEC 60479-1, from memory")
_OURS = N_("this program's word")

OF_PRACTICE = (
    Term(
        N_("{ground_fault}"),
        N_(
            "A {hot} touches metal or soil. If the way back is whole and short of resistance, the"
            " {breaker} opens; if not, the metal stays live and waits for a hand."
        ),
        _CODE,
    ),
    Term(
        N_("fault current"),
        N_(
            "What flows in a short: the voltage over the resistance of the whole loop, there and"
            " back, the source's own included. The largest decides what devices must break, the"
            " smallest whether they open in time."
        ),
        _CODE,
        (N_("short-circuit current"), N_("prospective current")),
    ),
    Term(
        N_("fault loop"),
        N_(
            "The way of a fault's current: source, {hot}, fault, metal, {ground_wire}, link, and"
            " back to the source. One open piece, and no device ever opens."
        ),
        _CODE,
        (N_("{ground_path}"),),
    ),
    Term(
        N_("open ground"),
        N_(
            "What a plug-in tester shows when the {ground} contact has no way to the {neutral}: a"
            " broken {ground_wire}, or a source that floats. The tester cannot tell which; an"
            " ohmmeter, all dead, can."
        ),
        _PRACTICE,
    ),
    Term(
        N_("open neutral"),
        N_(
            "The {neutral} is broken. On one {hot} the load is dead and its slot still live; on"
            " two, 120 V loads share 240 V between them, and some burn."
        ),
        _PRACTICE,
    ),
    Term(
        N_("reversed polarity"),
        N_(
            "Two conductors exchanged: {hot} with {neutral}, or plus with minus. Loads may work all"
            " the same; what should be off is live."
        ),
        _PRACTICE,
    ),
    Term(
        N_("floating source"),
        N_(
            "A source of which no conductor is joined to {ground} or frame. A first fault does"
            " nothing, and nobody notices; a second one is a short through whatever lies between."
        ),
        _CODE,
        (N_("floating"),),
    ),
    Term(
        N_("backfeed"),
        N_(
            "Power that runs from a load's side towards a source: to the public supply, or to the"
            " bare pins of a plug. It kills people who believe the wire dead."
        ),
        _CODE,
    ),
    Term(
        N_("multiwire circuit"),
        N_(
            "Two {hots} with one {neutral}. In opposite phase the {neutral} carries the difference;"
            " on one leg it carries the sum and burns. Both {breakers} must open together."
        ),
        N_("NFPA 70 210.4, from memory"),
        (N_("shared neutral"),),
    ),
    Term(
        N_("continuous load"),
        N_(
            "A load that runs for three hours or more. Wires and devices are made for 125 % of it,"
            " because heat has the time to build up."
        ),
        N_("NFPA 70 Article 100, 210.19, 210.20; from memory"),
        (N_("for three hours or more"),),
    ),
    Term(
        N_("voltage drop"),
        N_(
            "What is lost along the wires, there and back. It grows with length and current and"
            " shrinks with thicker wires; lamps fade, motors and converters give up."
        ),
        _PRACTICE,
    ),
    Term(
        N_("let-go current"),
        N_(
            "Above some 5 to 10 mA of alternating current a hand can no longer open; above 30 to 50"
            " mA for a second or more the heart may stop."
        ),
        _BODY,
    ),
    Term(
        N_("short-circuit strength"),
        N_(
            "How much fault current a board or bar stands for the time until a device opens. It is"
            " marked on it (SCCR, Icw)."
        ),
        _CODE,
        (N_("SCCR"),),
    ),
    Term(
        N_("state"),
        N_(
            "One way in which all levers, plugs and sources may stand at once. Each is solved by"
            " itself; what is sound in one may kill in another."
        ),
        _OURS,
        (N_("operating state"),),
    ),
    Term(
        N_("assumed value"),
        N_(
            "What was taken because nobody gave it: it stands in brackets, with where it is from."
            " A verdict is no better than these; the plate or the manual settles them."
        ),
        _OURS,
        (N_("assumed"),),
    ),
    Term(
        N_("not checked"),
        N_(
            "What could not be judged, with the reason and what to give. As long as one stands"
            " there, nothing is called sound."
        ),
        _OURS,
    ),
    Term(
        N_("mend"),
        N_(
            "A change that cures a finding. It is tried on a copy first, and offered only if the"
            " finding goes, nothing new comes and nothing that worked stops."
        ),
        _OURS,
    ),
    Term(
        N_("surge of a start"),
        N_(
            "A motor takes five to eight times its current while it starts. A set or inverter that"
            " carries it running may not start it."
        ),
        _PRACTICE,
        (N_("starting current"), N_("locked-rotor current"), N_("inrush")),
    ),
    Term(
        N_("state of charge"),
        N_("How full a battery is, in percent of what it holds."),
        _PRACTICE,
    ),
    Term(
        N_("derating"),
        N_(
            "Carrying less than the table says, because of heat, height, or loaded wires beside"
            " each other."
        ),
        _CODE,
    ),
    Term(
        N_("lock-out"),
        N_(
            "Making an installation dead and keeping it so: every source off, opened, locked and"
            " tagged, then proved dead with a tester that was tried before and after."
        ),
        N_("NFPA 70E 120.5, from memory"),
    ),
)
