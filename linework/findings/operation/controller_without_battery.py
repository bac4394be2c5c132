"""A solar charge controller that a switch leaves with its array and without its battery.

What is checked
    In every position by day: each charge controller whose array is live at its
    input, and whose output reaches no battery, where it does in another position.
Why it matters
    The battery holds the voltage down. Without it the controller, or what hangs
    on its output, may get that of the open array; makers ask that the array be
    opened first and joined last.
How to cure it
    Join the controller on the battery's side of the switch, behind its own fuse;
    or interlock the switch of the array with it; or a controller whose manual says
    that it bears this, and say so on its card.
Limits
    Fuses and breakers, and switches that are taken as closed, open it too; what
    a placard says of the order is not known. A hybrid inverter is not asked.
Sources
    Makers' manuals of controllers, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import Conversion
from linework.findings.model import Evidence, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.loads.sun import rows_before
from linework.study.situation import Situation
from linework.words import N_

MESSAGE = N_(
    "{where} has its array and no battery: nothing holds the voltage of {array} down, and many"
    " controllers are damaged so, or what hangs on them."
)
RATING = "without_battery"


def check(view: View) -> Iterator[Outcome]:
    """One hit for each controller and circuit."""
    looks = list(view.settled_looks)
    charging = {
        c.owner for look in looks for c in _asked(view, look) if _stored(look.studies.situation, c)
    }
    for look in looks:
        situation = look.studies.situation
        for conversion in _asked(view, look):
            arrays = [o for row in rows_before(situation, conversion) for o in row.owners]
            if conversion.owner in charging and arrays and not _stored(situation, conversion):
                yield look.hit(
                    Level.WARNING,
                    (conversion.owner,),
                    MESSAGE,
                    {"where": view.name(conversion.owner), "array": view.names(arrays)},
                    (Evidence(N_("batteries that it reaches"), 0.0, "count"),),
                    touches=frozenset(arrays),
                )


def _asked(view: View, look: Look) -> Iterator[Conversion]:
    """The charge controllers of which nobody said that they bear it."""
    for conversion in look.studies.circuit.conversions:
        values = view.values(conversion.owner)
        if RATING in values.declared and values.pick(RATING) != "bears":
            yield conversion


def _stored(situation: Situation, conversion: Conversion) -> bool:
    """Whether a battery lies across the output."""
    label, sources = situation.conductive, situation.circuit.sources
    output = sources[conversion.source]
    tops = {label[s.plus] for _, s in situation.active if s.data.group.stores}
    bottoms = {label[s.minus] for _, s in situation.active if s.data.group.stores}
    return label[output.plus] in tops and label[output.minus] in bottoms


RULE = Rule(
    "controller-without-battery",
    N_("Solar controller without its battery"),
    check,
    {"NA": "maker", "INT": "maker"},
)
