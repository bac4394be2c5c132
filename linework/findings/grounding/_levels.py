"""How bad a missing neutral-ground link is: it depends on what the source feeds."""

from __future__ import annotations

from collections.abc import Collection

from linework.design import Run, pole_map
from linework.findings.model import Level
from linework.findings.view import Look, View
from linework.study.neutral.bonds import forbids_link
from linework.study.ways.paths import fed_parts
from linework.wiring import is_dc, is_protective


def missing_bond_level(view: View, look: Look, owners: tuple[str, ...]) -> Level:
    """Danger for fixed wiring; warning for a vehicle or boat that a small source feeds by cord;
    note for cord-and-plug loads straight from it, for a single outlet on one that must float, and
    where it feeds nothing but what leads to a converter that is off.
    """
    fed = {
        part for owner in owners for part in fed_parts(look.studies.situation, owner, only_ac=True)
    }
    if any(view.kind(owner).source.off_site for owner in owners):
        return Level.DANGER
    others = fed - set(owners)
    wired = any(_stands(view, part) for part in others) and _serves(view, others)
    wired = wired or any(_wired_in(view, part) for part in fed)
    if not wired or (
        all(forbids_link(view.design, o) for o in owners) and _one_outlet(view, others)
    ):
        return Level.NOTE
    movable = not any(view.kind(owner).fixed for owner in owners)
    if movable and any(view.kind(p).lets_in and view.place_of(p).aboard for p in others):
        return Level.WARNING
    return Level.DANGER


def on_a_cord(view: View, part: str) -> bool:
    """Whether nothing but cords with plugs bring alternating current to a part: a tool, whatever
    its kind."""
    runs = [run for run in view.design.runs_at(part) if _alternating(view, run)]
    ends = [end.part for run in runs for end in (run.a, run.b) if end.part != part]
    cords = [view.run_values(run.id).pick("installation") == "cord" for run in runs]
    return bool(runs) and all(cords) and all(view.kind(end).plugs for end in ends)


def _alternating(view: View, run: Run) -> bool:
    return any(not is_dc(p) and not is_protective(p) for p, _ in pole_map(view.design, run))


def _stands(view: View, part: str) -> bool:
    """Whether what feeds a part is an installation. What draws or charges passes nothing on that
    hangs on the same neutral."""
    kind = view.kind(part)
    ends_there = kind.consumes or kind.source.charges
    return kind.fixed and not (ends_there and on_a_cord(view, part))


def _serves(view: View, parts: Collection[str]) -> bool:
    """Whether anything is used there, or may be: a board, a load, a charger."""
    kinds = [view.kind(part) for part in parts]
    return any(kind.board or kind.consumes or kind.source.charges for kind in kinds)


def _one_outlet(view: View, parts: Collection[str]) -> bool:
    """Whether a single appliance can be used there: one outlet, no board, nothing wired in."""
    kinds = [view.kind(part) for part in parts]
    return sum(kind.receptacle for kind in kinds) <= 1 and not any(
        kind.board or (kind.consumes and kind.fixed) for kind in kinds
    )


def _wired_in(view: View, part: str) -> bool:
    """Whether an outlet hangs on fixed wiring, not on a cord or in a source's own panel."""
    runs = view.design.runs_at(part, "feed") if view.kind(part).receptacle else []
    return any(view.run_values(run.id).pick("installation") != "cord" for run in runs)
