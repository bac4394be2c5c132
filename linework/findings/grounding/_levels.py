"""How bad a missing neutral-ground link is: it depends on what the source feeds."""

from __future__ import annotations

from linework.findings.model import Level
from linework.findings.view import Look, View
from linework.study.ways.paths import fed_parts


def missing_bond_level(view: View, look: Look, owners: tuple[str, ...]) -> Level:
    """Danger for fixed wiring; warning for a vehicle or boat that a small set feeds by cord;
    note for cord-and-plug loads straight from a portable set."""
    fed = {part for owner in owners for part in fed_parts(look.studies.situation, owner)}
    kinds = [view.kind(part) for part in fed - set(owners)]
    if any(view.kind(owner).source.off_site for owner in owners):
        return Level.DANGER
    if not any(kind.fixed for kind in kinds) and not any(_wired_in(view, part) for part in fed):
        return Level.NOTE
    portable = all(view.kind(owner).source.driven for owner in owners)
    if view.place.aboard and portable and any(kind.lets_in for kind in kinds):
        return Level.WARNING
    return Level.DANGER


def _wired_in(view: View, part: str) -> bool:
    """Whether an outlet hangs on fixed wiring, not on a cord or in a source's own panel."""
    runs = view.design.runs_at(part, "feed") if view.kind(part).receptacle else []
    return any(view.run_values(run.id).pick("installation") != "cord" for run in runs)
