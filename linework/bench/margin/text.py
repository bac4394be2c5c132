"""The words of the margin: the heading over the findings, and the lists under them."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from linework.design import Design, Part, Run
from linework.words import say, say_count

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.design import Accepted


@dataclass(frozen=True)
class Section:
    """A list under the findings. ``tone`` is a tone of the style sheet; ``items``: what the lines
    stand for, where it can be taken back."""

    title: str
    lines: tuple[str, ...]
    tone: str = ""
    sign: str = ""
    items: tuple[Accepted, ...] = ()


def heading(analysis: Analysis | None, drawn: bool = True) -> str:
    """How many findings there are; where there are none, exactly what that says."""
    if not drawn:
        return say("Nothing is drawn yet.")
    if analysis is None:
        return say("Nothing was checked yet.")
    counts = Counter(f.level.word for f in analysis.findings if f.open)
    words = [
        say_count("{count} danger", "{count} dangers", counts["danger"]),
        say_count("{count} warning", "{count} warnings", counts["warning"]),
        say_count("{count} note", "{count} notes", counts["note"]),
    ]
    told = ", ".join(
        w for w, level in zip(words, ("danger", "warning", "note"), strict=True) if counts[level]
    )
    text = told or say("No findings")
    if analysis.partial:
        return say("{text}, in this state so far", text=text)
    if analysis.gaps or not analysis.complete:
        return say("{text}; not everything was checked", text=text)
    return text


def sections(design: Design, analysis: Analysis) -> list[Section]:
    """What stands under the findings, most urgent first; empty lists are left out."""
    found = [
        Section(say("Not checked"), _gaps(analysis), "warning", "?"),
        _left_over(design, analysis),
        Section(say("Sound here, and why"), _praise(analysis), "sound", "✓"),
        Section(say("Assumed"), _assumed(analysis), "assumed"),
        Section(say("Rests on unconfirmed values"), tuple(analysis.unconfirmed), "quiet"),
    ]
    return [section for section in found if section.lines]


def _gaps(analysis: Analysis) -> tuple[str, ...]:
    lines = [": ".join(filter(None, (", ".join(g.where), g.reason))) for g in analysis.gaps]
    if not analysis.complete:
        lines.append(
            say(
                "Of {count} combinations of positions and unknowns not all were looked at.",
                count=analysis.combinations,
            )
        )
    return tuple(dict.fromkeys(lines))


def earlier_acceptances(analysis: Analysis | None) -> dict[tuple[str, tuple[str, ...]], Accepted]:
    """By rule and subjects of a finding the acceptance that held for it before its evidence
    changed. None while only one state was judged: there every number may be another."""
    if analysis is None or analysis.partial:
        return {}
    return {(item.rule, item.subjects): item for item in analysis.stale}


def _left_over(design: Design, analysis: Analysis) -> Section:
    """Acceptances of what is not found at its place any more."""
    there = {(finding.rule, finding.subjects) for finding in analysis.findings}
    gone = () if analysis.partial else analysis.stale
    items = tuple(item for item in gone if (item.rule, item.subjects) not in there)
    lines = tuple(
        say(
            "{where}: {reason} ({by}, {date})",
            where=", ".join(_name(design, subject) for subject in item.subjects),
            reason=item.reason,
            by=item.by or say("nobody named"),
            date=item.date,
        )
        for item in items
    )
    return Section(say("Accepted before, no longer found there"), lines, "quiet", items=items)


def _praise(analysis: Analysis) -> tuple[str, ...]:
    lines = []
    for item in analysis.praise:
        if item.quiet:
            continue  # on the card of its part
        clause = f" ({item.clause})" if item.clause and item.clause != "practice" else ""
        lines.append(f"{item.message}{clause}")
    return tuple(dict.fromkeys(lines))


def _assumed(analysis: Analysis) -> tuple[str, ...]:
    return tuple(
        f"{item.where} {item.rating}: [{item.value}] ({item.source})" for item in analysis.assumed
    )


def _name(design: Design, element_id: str) -> str:
    element = design.get(element_id)
    return element.designation if isinstance(element, Part | Run) else element_id
