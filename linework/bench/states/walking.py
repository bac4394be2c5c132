"""What changes from one operating state to the next, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from linework.bench.states.board import Key, Lever, LeverBoard
from linework.bench.states.text import links_text
from linework.design import Design, Part
from linework.design.names import natural
from linework.words import say

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from linework.findings.model import Finding
    from linework.study.report import StateReport


def changes(
    design: Design, board: LeverBoard, before: StateReport, after: StateReport
) -> tuple[str, ...]:
    """Which levers move, which parts follow, what is fed from where now, and the links."""
    lines = [*_moved(board, before, after), *_fed(design, before, after)]
    links = links_text(design, [after])
    if links != links_text(design, [before]):
        lines.append(links)
    return tuple(lines)


def found_here(findings: Iterable[Finding], positions: Mapping[Key, str]) -> str:
    """The numbers of the open dangers and warnings that hold in a state, by its positions; "" for
    none."""
    numbers = [
        str(finding.number)
        for finding in findings
        if finding.open
        and finding.level.word != "note"
        and (finding.standing is None or finding.standing.holds(positions))
    ]
    return say("Findings in this state: {numbers}", numbers=", ".join(numbers)) if numbers else ""


def _moved(board: LeverBoard, before: StateReport, after: StateReport) -> list[str]:
    lines = []
    levers = [(lever, False) for lever in board.levers]
    for lever, follows in [*levers, *((lever, True) for lever in board.followers)]:
        old, new = before.positions.get(lever.key), after.positions.get(lever.key)
        if new is None or old == new:
            continue
        told = {"what": _name(lever), "to": lever.word(new)}
        if follows:
            lines.append(say("{what} moves by itself: {to}", **told))
        else:
            lines.append(say("{what} is moved to: {to}", **told))
    return lines


def _name(lever: Lever) -> str:
    return f"{lever.designation} {lever.title}".strip()


def _fed(design: Design, before: StateReport, after: StateReport) -> list[str]:
    """The loads that get another source, by where they are fed from now."""
    was, now = _sources(before), _sources(after)
    groups: dict[tuple[str, ...], list[str]] = {}
    for part, sources in now.items():
        if sources != was.get(part, ()):
            groups.setdefault(sources, []).append(_designation(design, part))
    lines = []
    for sources, loads in sorted(groups.items()):
        names = ", ".join(sorted(loads, key=natural))
        if sources:
            fed = ", ".join(_designation(design, source) for source in sources)
            lines.append(say("Fed from {sources} now: {loads}", sources=fed, loads=names))
        else:
            lines.append(say("Dead now: {loads}", loads=names))
    return lines


def _sources(report: StateReport) -> dict[str, tuple[str, ...]]:
    """By load what feeds it; a part may draw at several of its terminals."""
    found: dict[str, set[str]] = {}
    for load in report.loads:
        found.setdefault(load.part, set()).update(load.sources)
    return {part: tuple(sorted(sources)) for part, sources in found.items()}


def _designation(design: Design, part_id: str) -> str:
    part = design.get(part_id)
    return part.designation if isinstance(part, Part) else part_id
