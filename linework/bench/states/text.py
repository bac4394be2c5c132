"""The shown state in a few words: what feeds what, how many links between neutral and ground."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from linework.design import Design, Part, Run
from linework.design.names import natural
from linework.words import say

if TYPE_CHECKING:
    from linework.study.report import StateReport


def feeding(report: StateReport) -> list[str]:
    """The ids of the sources that feed anything beyond their own terminals."""
    owners = {o for (part, _), fed in report.live.items() for o in fed if o != part}
    return sorted(owners)


def part_name(design: Design, part_id: str) -> str:
    """A part by its title, else its designation."""
    part = design.get(part_id)
    if not isinstance(part, Part):
        return part_id
    return f"{part.designation} {part.title}".strip()


def links_text(design: Design, reports: Sequence[StateReport]) -> str:
    """How many neutral-ground links each live AC neutral has, and where; over cases "0 or 1"."""
    family = design.settings.family
    found: dict[tuple[str, ...], list[tuple[str, ...]]] = {}
    for report in reports:
        for bond in report.bonds:
            if bond.is_ac:
                found.setdefault(bond.sources, []).append(bond.places)
    if not found:
        return say("No live AC {neutral}.", family=family)
    told = "; ".join(
        _links(design, sources if len(found) > 1 else (), places)
        for sources, places in found.items()
    )
    return say("{Neutral_ground_links}: {told}", family=family, told=told)


def _links(design: Design, sources: tuple[str, ...], cases: list[tuple[str, ...]]) -> str:
    counts = say(" or ").join(str(n) for n in sorted({len(places) for places in cases}))
    where = sorted(
        {_designation(design, owner) for places in cases for owner in places}, key=natural
    )
    listed = f" ({', '.join(where)})" if where else ""
    fed = ", ".join(_designation(design, source) for source in sources)
    return say("on {fed} {counts}", fed=fed, counts=counts) + listed if fed else counts + listed


def _designation(design: Design, element_id: str) -> str:
    element = design.get(element_id)
    return element.designation if isinstance(element, Part | Run) else element_id
