"""How bad a missing neutral-ground link is: it depends on what the source feeds."""

from __future__ import annotations

from linework.findings.model import Level
from linework.findings.view import Look, View
from linework.study.paths import fed_parts

_FIXED = {"panel", "transfer_switch", "junction_box", "load", "lamp", "motor"}


def missing_bond_level(view: View, look: Look, owners: tuple[str, ...]) -> Level:
    """Danger for fixed wiring; warning for a vehicle or boat that a small set feeds by cord;
    note for cord-and-plug loads straight from a portable set."""
    fed = {part for owner in owners for part in fed_parts(look.studies.situation, owner)}
    kinds = {view.kind(part).key for part in fed}
    if not kinds & _FIXED:
        return Level.NOTE
    portable = all(view.kind(owner).key == "generator" for owner in owners)
    if view.mobile and portable and "inlet" in kinds:
        return Level.WARNING
    return Level.DANGER
