"""Automatic transfer switch: goes by itself to the live input that it prefers."""

from __future__ import annotations

from linework.kinds.kind import Carries, Kind
from linework.kinds.ratings import FROM_MEMORY, Choice, Rating
from linework.kinds.transfer import (
    CAPTIONS,
    COLUMNS,
    INPUTS,
    RATINGS,
    enclosure,
    input_poles,
    terminals,
    ways,
)
from linework.kinds.values import Values
from linework.wiring import Follow, Inside, Passing, Point, Pole, Selector, is_ungrounded
from linework.words import N_

BETWEEN = "changing over"
_LONGEST_S = 0.1
"""How long it is between its inputs: about six periods (from memory)."""

OWN_RATINGS = (
    Rating(
        "prefers",
        N_("Goes first to"),
        "choice",
        "1",
        choices=(Choice("1", N_("input 1")), Choice("2", N_("input 2"))),
        help=N_("The input that it takes while both are live."),
    ),
    Rating(
        "rests",
        N_("Where it stands while nothing is live"),
        "choice",
        "1",
        choices=(
            Choice("1", N_("on input 1")),
            Choice("2", N_("on input 2")),
            Choice("off", N_("on neither")),
        ),
        quiet=True,
    ),
    Rating(
        "senses",
        N_("Where it looks for voltage"),
        "choice",
        "hots",
        FROM_MEMORY,
        choices=(
            Choice("hots", N_("between its two {hots}")),
            Choice("neutral", N_("from {hot} to {neutral}")),
        ),
        help=N_(
            "Of two legs only: between the {hots} it does not notice an open {neutral}, nor does it"
            " take a source that feeds both legs with one {hot}. Its manual shows where its sensing"
            " wires go."
        ),
        quiet=True,
    ),
    Rating(
        "change",
        N_("Changeover"),
        "choice",
        "open",
        choices=(
            Choice("open", N_("opens before it closes")),
            Choice("closed", N_("closes before it opens")),
        ),
        help=N_("The second kind puts both sources in parallel for a moment."),
        quiet=True,
    ),
)


def _sensed(values: Values, position: str) -> tuple[Point, ...]:
    """Where it looks for voltage: between two hot conductors, or from one to the neutral (of two
    the second)."""
    terminal = f"in{position}"
    poles = input_poles(values, terminal)
    lines = [p for p in poles if is_ungrounded(p)]
    to_neutral = Pole.N in poles and (len(lines) == 1 or values.pick("senses") == "neutral")
    return ((terminal, lines[-1] if to_neutral else lines[0]),)


def inside(values: Values) -> Inside:
    """Contacts that follow the inputs: the preferred one, else the other, else rest."""
    closing = {BETWEEN} if values.pick("change") == "closed" else set()
    elements = [
        *ways(values, "in1", (("switch", frozenset({"1", *closing})),)),
        *ways(values, "in2", (("switch", frozenset({"2", *closing})),)),
        *enclosure(values),
    ]
    order = ("2", "1") if values.pick("prefers") == "2" else ("1", "2")
    rests = values.pick("rests")
    rule = (*(Follow(p, live=_sensed(values, p)) for p in order), Follow(rests))
    # The kind that closes first does so only while both inputs are live; else it opens first.
    both = _sensed(values, "1") + _sensed(values, "2") if closing else ()
    passing = tuple(Passing(a, b, BETWEEN, _LONGEST_S, both) for a, b in ("12", "21"))
    switch = Selector("switch", ("1", "off", "2"), rests, "follows", rule, passing)
    return Inside(tuple(elements), (switch,))


KIND = Kind(
    key="transfer_automatic",
    name=N_("automatic transfer switch"),
    letters="QA",
    changes_over=True,
    strip="switching",
    ratings=(*RATINGS, *OWN_RATINGS),
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "transfer_automatic",
    captions=(*CAPTIONS, "prefers"),
    columns=(*COLUMNS, "prefers", "senses", "change"),
    search=N_("automatic transfer switch relay ATS changeover"),
    carries=(Carries("rating", "load"),),
    inputs=INPUTS,
    fixed=True,
)
