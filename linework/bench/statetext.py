"""The shown state in a few words: what feeds what, how many links between neutral and ground."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from linework.design import Design, Part
from linework.words import say

if TYPE_CHECKING:
    from linework.study.report import StateReport


def feeding(report: StateReport) -> list[str]:
    """The ids of the sources that feed anything beyond their own terminals."""
    owners = {o for (part, _), fed in report.live.items() for o in fed if o != part}
    return sorted(owners)


def name(design: Design, part_id: str) -> str:
    """A part by its title, else its designation."""
    part = design.get(part_id)
    if not isinstance(part, Part):
        return part_id
    return f"{part.designation} {part.title}".strip()


def links_text(design: Design, reports: Sequence[StateReport]) -> str:
    """How many neutral-ground links each live AC neutral has; over cases "0 or 1"."""
    family = design.settings.family
    counts: dict[tuple[str, ...], list[int]] = {}
    for report in reports:
        for bond in report.bonds:
            if bond.is_ac:
                counts.setdefault(bond.sources, []).append(len(bond.places))
    if not counts:
        return say("No live AC {neutral}.", family=family)
    told = []
    for sources, numbers in counts.items():
        number = say(" or ").join(str(n) for n in sorted(set(numbers)))
        where = ", ".join(design.part(s).designation for s in sources if s in design)
        told.append(number if len(counts) == 1 else f"{where}: {number}")
    return say("{Neutral_ground_links}, {told}", family=family, told=", ".join(told))
