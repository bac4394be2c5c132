"""One solar array on the inputs of several charge controllers.

What is checked
    By day, in every position: each array whose plus reaches the solar inputs of
    two parts at once.
Why it matters
    A controller goes by the voltage of the array: one that looks for the greatest
    power changes it to see where more comes. Two on one array see what the other
    does and find nothing; when one stops, the other gets all current.
How to cure it
    An array for each controller; side by side they may charge the same battery.
Limits
    Solar inputs of one part are its maker's matter and not judged. That each
    bears the current of the whole array is controller-overcurrent. Loads are
    reckoned as if each got as much.
Sources
    Makers' manuals of controllers, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.loads.sun import rows_before, sharing
from linework.words import N_

MESSAGE = N_(
    "{array} lies on the solar inputs of {controllers} at once: each goes by the voltage of the"
    " array, which the other changes. Give each an array of its own."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for what shares the same arrays."""
    for look in view.settled_looks:
        yield from _look(view, look)


def _look(view: View, look: Look) -> Iterator[Outcome]:
    situation, told = look.studies.situation, set[tuple[str, ...]]()
    for conversion in look.studies.circuit.conversions:
        arrays = [o for row in rows_before(situation, conversion) for o in row.owners]
        parts = {each.owner for each in sharing(situation, conversion)} if arrays else set()
        owners = tuple(sorted(parts, key=view.order))
        if len(owners) < 2 or owners in told:
            continue
        told.add(owners)
        yield look.hit(
            Level.WARNING,
            owners,
            MESSAGE,
            {"array": view.names(arrays), "controllers": view.names(owners)},
            (Evidence(N_("controllers on the array"), float(len(owners)), "count"),),
            touches=frozenset(arrays),
        )


RULE = Rule(
    "array-shared",
    N_("One solar array on several controllers"),
    check,
    {"NA": "maker", "INT": "maker"},
)
