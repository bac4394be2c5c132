"""Ten minutes by example: from the empty sheet to the drawing set, one small van."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.guide.model import Block, Items, Page, Prose, Shown, Title
from linework.words import N_, say

KEY = "beginning"
TITLE = N_("Ten minutes by example")

_WHAT = N_(
    "A van carries books to villages. A portable generating set feeds it where there is no mains;"
    " a {cord} from a house feeds it where there is. Two circuits: {a_outlet} for the desk, and"
    " a heater that is wired in. What follows draws it, checks it, and prints it."
)
_LAST = N_(
    "What you gave decides what you get. Go through what is listed as assumed, and what was not"
    " checked, before anybody buys cable. Local codes and a licensed electrician decide."
)


@dataclass(frozen=True)
class Step:
    """A part of the example: what to do, one thing after the other, and what is seen then."""

    title: str
    do: tuple[str, ...]
    picture: str
    caption: str


STEPS = (
    Step(
        N_("Say what it is"),
        (
            N_("On the empty sheet choose “New: a few questions first…”."),
            N_("Choose another vehicle as its place, write a name for the job, press Enter."),
            N_(
                "“What feeds it?” stays at nothing yet here; another time it lays down a sound"
                " beginning that you fill in."
            ),
        ),
        "beginning-1",
        N_("The empty sheet: strip of parts below, margin at the right, levers above."),
    ),
    Step(
        N_("Put the sources down"),
        (
            N_("Drag the generator from the strip onto the paper, at the left."),
            N_(
                "Its card opens. From the plate: 5 kVA, a breaker of 30 A. From the manual: its"
                " neutral floats, and a link may be fitted. What you do not know you leave:"
                " what is taken for it stands in brackets."
            ),
            N_("Click an empty place below it, type “L5-30 inlet” and press Enter."),
        ),
        "beginning-2",
        N_("The card of the generator lies beside it, with a thin line to it."),
    ),
    Step(
        N_("Let them never meet"),
        (
            N_("Click right of both, type “30 A transfer switch”, press Enter."),
            N_("Right of it: “panel”. On its card: no neutral-ground link, four places."),
        ),
        "beginning-3",
        N_("Sources left, what they feed right: power flows one way over the sheet."),
    ),
    Step(
        N_("Fill the panel"),
        (
            N_("Drag two breakers from the strip into its places: 20 A and 15 A."),
            N_("The first feeds an outlet: choose ground-fault protection for people on its card."),
            N_("Put down “5-20 outlet”, “600 W fixed load” and “chassis”."),
        ),
        "beginning-4",
        N_("Parts that sit in a place of another go where that goes."),
    ),
    Step(
        N_("Draw the runs"),
        (
            N_(
                "Drag from terminal to terminal: set and inlet to the switch, switch to panel,"
                " breakers to what they feed, ground bar to chassis. One line stands for all the"
                " conductors."
            ),
            N_("Give each its size and length on its card: 10 AWG, 10 ft."),
        ),
        "beginning-5",
        N_("Drawn: what is live is full and has the colour and letter of its source."),
    ),
    Step(
        N_("Read what is wrong"),
        (
            N_(
                "In the margin stands one danger: nothing joins neutral and ground while the"
                " generator feeds. A fault would trip nothing, and a tester reads “open ground”."
            ),
            N_("Click it: its place is shown. “Why” tells what it rests on."),
            N_("“Mend” joins them in the set, as its maker allows. It was tried on a copy first."),
        ),
        "beginning-6",
        N_("A finding in the margin and its numbered flag on the sheet."),
    ),
    Step(
        N_("Walk through the states"),
        (
            N_("Press F8 again and again: every position of every lever, plug and source."),
            N_("Hover over the outlet: what a tester would show there, and the volts."),
        ),
        "beginning-7",
        N_("The levers stand above the paper; what moves by itself is shown moving."),
    ),
    Step(
        N_("Hand it over"),
        (
            N_("Under the findings stands what was assumed, and what was not checked, and why."),
            N_("Press Ctrl+P and name a file: the drawing set, with the findings that are left."),
        ),
        "beginning-8",
        N_("The first sheet of the set: the verdict, what it rests on, the list of sheets."),
    ),
)


def beginning_page(family: str) -> Page:
    """The whole example."""
    return Page(KEY, say(TITLE), tuple(_blocks(family)))


def _blocks(family: str) -> Iterator[Block]:
    yield Prose(say(_WHAT, family=family))
    for number, step in enumerate(STEPS, start=1):
        yield Title(say("{number}. {title}", number=number, title=say(step.title)))
        yield Items(tuple(map(say, step.do)), numbered=True)
        yield Shown(step.picture, say(step.caption))
    yield Title(say("And then"))
    yield Prose(say(_LAST))
