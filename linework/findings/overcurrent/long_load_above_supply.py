"""A device too small for loads that run for three hours or more.

What is checked
    In every state, with all drawn loads on: each fuse and breaker must be rated
    for the current of short loads and 125 % of that of loads marked as running
    for three hours or more; for those alone that is 80 % of its rating.
Why it matters
    Its terminals and its neighbours warm it up for hours: it opens below its
    rating, and ages.
How to cure it
    A larger device where the conductors allow it, or the long loads on several.
Limits
    Which loads run long is said on their cards. A converter counts in the
    share of what it feeds; charging a battery is not counted as long. What is
    plugged in is worth knowing: it can be plugged in elsewhere. Devices listed for
    their full rating cannot be drawn yet.
Sources
    NFPA 70 (2023) 210.20(A), 215.3, 210.23(A)(1) (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.overcurrent._larger_device import larger_device
from linework.findings.overcurrent._plugged import only_plugged_in
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.carried import Carried, carried, runs_behind
from linework.study.slack import exceeds, shows_more
from linework.study.wires.ratings import rules_of
from linework.words import N_

MESSAGE = N_(
    "{device} carries {amps} A, {long} A of it for three hours or more: it must be rated {needed} A"
    " and is {rating} A."
)
PLUGGED = N_(
    "{device} carries {amps} A, {long} A of it for three hours or more by what is plugged in: for"
    " so long {most} A are enough for its {rating} A. Plug something into another circuit."
)
NO_TABLE = N_("{fault}")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each device that only its long loads are too much for."""
    for look in view.settled_looks:
        for item in carried(look.studies):
            if item.long_a <= 0.0 or shows_more(item.amps, item.rating_a):
                continue  # beyond its rating at once: told by "device-below-load"
            try:
                needed = rules_of(view.design).design_current(item.amps - item.long_a, item.long_a)
            except CodesError as fault:
                yield NotChecked(NO_TABLE, {"fault": fault}, (item.device.owner,))
                continue
            if exceeds(needed.value, item.rating_a):
                yield _hit(view, look, item, needed.value)


def _hit(view: View, look: Look, item: Carried, needed: float) -> Hit:
    plugged = only_plugged_in(view, look, set(item.device.branches) & look.studies.situation.closed)
    return look.hit(
        Level.NOTE if plugged else Level.WARNING,
        (item.device.owner,),
        PLUGGED if plugged else MESSAGE,
        {
            "device": view.name(item.device.owner),
            "amps": f"{item.amps:.1f}",
            "long": f"{item.long_a:.1f}",
            "needed": f"{needed:.1f}",
            "rating": f"{item.rating_a:g}",
            "most": f"{item.rating_a * item.amps / needed:.3g}",
        },
        (
            Evidence(N_("rating needed"), needed, "current"),
            Evidence(N_("current"), item.amps, "current"),
            Evidence(N_("of it for three hours or more"), item.long_a, "current"),
            Evidence(N_("rated"), item.rating_a, "current"),
        ),
        touches=runs_behind(look.studies, item.device),
        mend=None if plugged else larger_device(view, look, item.device, needed),
        clause=view.clause({"NA": "210.23(A)(1)"}) if plugged else "",
    )


RULE = Rule(
    "long-load-above-supply",
    N_("Long loads above 80 % of a device"),
    check,
    {"NA": "210.20(A), 215.3", "INT": "433.1"},
    causes=("device-below-load",),
)
