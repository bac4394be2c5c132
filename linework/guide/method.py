"""How the program works out what it says, what it does not know, and where its figures are from."""

from __future__ import annotations

from collections.abc import Iterator

from linework.data import Confidence, read_csv
from linework.guide.model import Block, Items, Page, Prose, Rows, Title
from linework.words import N_, say

KEY = "method"
TITLE = N_("Method and sources")

_PARTS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        N_("From single lines to every conductor"),
        (
            N_(
                "Each part is replaced by what is inside it: windings with their impedance,"
                " contacts with their resistance, links, metal that people can touch. Each run"
                " becomes its conductors, with the resistance of their size and length (cold for"
                " the largest fault current, hot for the smallest)."
            ),
            N_(
                "Nothing is merged but what is one conductor. The metal of a vehicle, a hull and"
                " the soil are conductors like others."
            ),
        ),
    ),
    (
        N_("Every state by itself"),
        (
            N_(
                "All positions of levers, plugs, relays and sources that are permitted are looked"
                " at; relays follow what is live at their inputs, and while they change over they"
                " are looked at too. States that are the same circuit are solved once."
            ),
            N_(
                "Of what is not known both possibilities are judged; a finding tells in which it"
                " holds."
            ),
        ),
    ),
    (
        N_("What is worked out of each"),
        (
            N_(
                "Node voltages by nodal analysis (Kirchhoff's laws, complex at mains frequency);"
                " each solution is put back into its equations, and one that does not fit them is"
                " told as not solved."
            ),
            N_(
                "A short at every point: to metal, between lines, plus to minus, between low and"
                " high figures of source and wires. The device that opens, by its time-current"
                " band; the heat of conductors by I²t."
            ),
            N_(
                "Where neutral and ground meet and by which pieces; what a tester shows; what"
                " flows through a person of 1000 Ω."
            ),
            N_(
                "The largest current that devices and sources let into a conductor together, as"
                " the largest flow through the network."
            ),
        ),
    ),
    (
        N_("What it does not know"),
        (
            N_(
                "The place, the weather, workmanship, torque, damage, what is not drawn. Surges"
                " and lightning, harmonics, electromagnetic disturbance. Whether an authority"
                " accepts what is drawn."
            ),
            N_(
                "What could not be judged stands under “Not checked” with the reason; nothing is"
                " called sound while something stands there."
            ),
        ),
    ),
)
_MARKS = {
    Confidence.DEFINED: N_("true by naming or by law of nature"),
    Confidence.DERIVED: N_("follows from theory or from other figures"),
    Confidence.AGREED: N_("two independent sources agree"),
    Confidence.PUBLISHED: N_("one source states it"),
    Confidence.PRACTICE: N_("what the trade usually does; no source"),
    Confidence.MEMORY: N_("from memory, or an assumption"),
}


def method_page() -> Page:
    """The whole account; sources that are a forum are not named."""
    return Page(KEY, say(TITLE), tuple(_blocks()))


def _blocks() -> Iterator[Block]:
    for title, texts in _PARTS:
        yield Title(say(title))
        yield Items(tuple(map(say, texts)))
    yield Title(say("How sure a figure is"))
    yield Prose(
        say(
            "Every figure of a table travels with a mark; what is not confirmed and bears on the"
            " verdict is listed under the findings and on the cover of the set."
        )
    )
    marks = tuple(
        (mark.value, say(text), say("confirmed") if mark.confirmed else say("not confirmed"))
        for mark, text in _MARKS.items()
    )
    yield Rows((say("Mark"), say("What stands behind it"), say("It counts as")), marks)
    yield Title(say("Sources of the tables"))
    rows = tuple(
        (row["code"], row["source"])
        for row in read_csv("tables/na/sources.csv")
        if row["forum"] == "no"
    )
    yield Rows((say("Code"), say("Source")), rows)
