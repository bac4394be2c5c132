"""One formatter makes the words of evidence for screen, paper and command line."""

from __future__ import annotations

import math

from linework.findings.model import Evidence
from linework.quantity import KINDS, show
from linework.words import say


def shown(evidence: Evidence, family: str) -> str:
    """ "voltage on metal 57 V"; what never happens or is not defined is said in words."""
    name = say(evidence.name, family=family)
    if evidence.quantity == "text" or evidence.value is None:
        return f"{name} {evidence.note}"
    return f"{name} {value_text(evidence.value, evidence.quantity, family)}"


def value_text(value: float, quantity: str, family: str | None = None) -> str:
    """A number with its unit; infinity is "never", NaN "not defined"."""
    if math.isnan(value):
        return say("not defined")
    if math.isinf(value):
        return say("never")
    if quantity not in KINDS:
        return f"{value:.3g}"
    return show(value, quantity, family=family)
