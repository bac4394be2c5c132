"""Which report of an analysis belongs to the state that is shown."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.study.report import StateReport


def reports_of(analysis: Analysis | None, key: str) -> list[StateReport]:
    """The reports of a state, one for each case that it touches."""
    return [] if analysis is None else [r for r in analysis.reports if r.key == key]


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


def number_of(states: Sequence[StateReport], shown: StateReport | None) -> int:
    """Which of the states is electrically the shown one, from 1; 0 where it is none of them."""
    same = (n for n, report in enumerate(states, 1) if _same(report, shown))
    return next(same, 0)


def _same(one: StateReport, other: StateReport | None) -> bool:
    return other is not None and (one.circuits, one.passing) == (other.circuits, other.passing)
