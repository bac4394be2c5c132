"""A galvanic isolator that may burn open without a sign.

What is checked
    Each isolator that lies in a ground wire: whether it stays a conductor when
    it fails, or a monitor shows its state.
Why it matters
    A fault or a stroke nearby may burn its diodes open. All works as before, and
    the next fault puts the voltage of the shore on the metal of the boat.
How to cure it
    An isolator that is marked fail-safe, or a monitor that watches it.
Limits
    Nobody sees on a drawing what it is: what is not told is not checked. Whether
    its diodes are whole now is measured.
Sources
    ABYC A-28, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.kinds.run import NOT_GIVEN
from linework.words import N_

MESSAGE = N_(
    "{where} may burn open in a fault, and nobody sees it: the next one then puts the voltage of"
    " the shore on the metal of the boat. Fit one that is marked fail-safe, or a monitor that"
    " watches it."
)
ASK = N_(
    "whether {where} stays a conductor when it fails is on its label (fail-safe); if not, a monitor"
    " must show its state"
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each isolator that may, a gap for each of which nothing is said."""
    for part in view.parts_that(lambda kind: "failure" in kind.declared):
        values = view.values(part)
        sides = view.kind(part).keeps_apart(values)
        if not all(view.design.runs_at(part, side) for side in sides):
            continue  # "isolator-bypassed" tells
        if values.pick("failure") == NOT_GIVEN:
            yield NotChecked(ASK, {"where": view.name(part)}, (part,))
        elif values.pick("failure") == "open":
            watched = (Evidence(N_("monitors of it"), 0.0, "count"),)
            yield Hit(Level.WARNING, (part,), MESSAGE, {"where": view.name(part)}, watched)


RULE = Rule(
    "isolator-may-open",
    N_("Isolator that may open"),
    check,
    {"NA": "ABYC A-28", "INT": "practice"},
)
