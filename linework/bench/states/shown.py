"""Which report of an analysis belongs to the state that is shown."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.study.report import StateReport


def reports_of(analysis: Analysis | None, key: str) -> list[StateReport]:
    """The reports of a state, one for each case that it touches; equal states share them."""
    if analysis is None:
        return []
    own = [r for r in analysis.reports if r.key == key]
    shared = [r for r in analysis.reports if key in r.also and r.key != key]
    return own or shared


def report_of(analysis: Analysis | None, key: str, case: str) -> StateReport | None:
    """The report of a state in a case; in the first case where this one does not touch it."""
    found = reports_of(analysis, key)
    return next((r for r in found if r.case == case), found[0] if found else None)


def liveliest(analysis: Analysis) -> StateReport | None:
    """The state in which most loads are fed, by as few sources as can be: good to begin with."""
    at_rest = [r for r in analysis.reports if not r.passing]
    return max(at_rest, key=_liveliness, default=None)


def _liveliness(report: StateReport) -> tuple[int, int, int]:
    fed = sum(bool(load.sources) for load in report.loads)
    sources = {owner for owners in report.live.values() for owner in owners}
    return fed, -len(sources), len(report.live)


def resting(analysis: Analysis) -> tuple[str, ...]:
    """The keys of the states shown in which nothing is moving."""
    return tuple(dict.fromkeys(r.key for r in analysis.reports if not r.passing))


def walk(analysis: Analysis) -> list[StateReport]:
    """The states to step through: each electrically different one once, at rest."""
    seen: dict[str, StateReport] = {}
    for report in analysis.reports:
        if not report.passing:
            seen.setdefault(report.key, report)
    return list(seen.values())


def number_of(states: Sequence[StateReport], key: str) -> int:
    """Which of the states the key is, from 1; 0 where it is none of them."""
    for number, report in enumerate(states, 1):
        if key == report.key or key in report.also:
            return number
    return 0
