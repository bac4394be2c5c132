"""A figure that looks like a slip of its unit.

What is checked
    Each figure that was given against a wide band for its kind of part: lengths
    of runs and cords, ratings of devices, powers of sources and loads,
    capacities, ambient temperatures; and locked-rotor against running current.
Why it matters
    A thousand times too small, a load passes every check.
How to cure it
    Look at the unit; if the figure is right, accept the note with the reason.
Limits
    A slip from feet to meters stays within the bands.
Sources
    Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.design.names import natural
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.kinds import Rating, Values
from linework.kinds.motor import running_a
from linework.quantity import show
from linework.words import N_, say_within

MESSAGE = N_("{where}: {rating} {value} is unusual; {low} to {high} is usual. Is the unit right?")
START = N_(
    "{where}: {rating} {value} is {times} times the running current; {low} to {high} times is"
    " usual. Is one of the two in another unit?"
)

Band = tuple[float, float]
"""Least and greatest usual figure, in the base unit."""

START_TIMES: Band = (1.5, 15.0)
"""Locked-rotor over running current."""


def check(view: View) -> Iterator[Outcome]:
    """One note for each figure."""
    for part in sorted(view.design.parts, key=lambda p: natural(p.designation)):
        values = view.values(part.id)
        for rating in view.kind(part.id).ratings:
            yield from _figure(view, part.id, rating, values)
        if view.kind(part.id).turns:
            yield from _start(view, part.id, values)
    for run in sorted(view.design.runs, key=lambda r: natural(r.designation)):
        values = view.run_values(run.id)
        for rating in values.declared.values():
            yield from _figure(view, run.id, rating, values)


def _figure(view: View, subject: str, rating: Rating, values: Values) -> Iterator[Hit]:
    band = rating.usual
    if band is None or not values.given(rating.key):
        return
    figure = values.num(rating.key)
    if not band[0] <= figure <= band[1]:
        low, high = (show(value, rating.quantity, family=view.family) for value in band)
        yield _hit(view, subject, rating, figure, MESSAGE, {"low": low, "high": high})


def _start(view: View, subject: str, values: Values) -> Iterator[Hit]:
    running = running_a(values)
    if running <= 0.0 or not values.given("start_current"):
        return
    start = values.num("start_current")
    times = start / running
    if not START_TIMES[0] <= times <= START_TIMES[1]:
        low, high = (f"{value:g}" for value in START_TIMES)
        words = {"low": low, "high": high, "times": f"{times:.2g}"}
        rating = values.declared["start_current"]
        yield _hit(view, subject, rating, start, START, words)


def _hit(
    view: View, subject: str, rating: Rating, figure: float, message: str, words: dict[str, str]
) -> Hit:
    label = say_within(rating.label, family=view.family)
    shown = show(figure, rating.quantity, family=view.family)
    return Hit(
        Level.NOTE,
        (subject,),
        message,
        {"where": view.name(subject), "rating": label, "value": shown, **words},
        (Evidence(rating.label, figure, rating.quantity),),
    )


RULE = Rule(
    "units-suspicious",
    N_("Is the unit right?"),
    check,
    {"NA": "practice", "INT": "practice"},
)
