"""Figures read off a verdict."""

from __future__ import annotations

from collections.abc import Callable

from linework.findings.model import Finding
from tests.cases.judged import Judged
from tests.findings.told import number


def evidence(name: str) -> Callable[[Judged, Finding], float]:
    """A figure of the finding's own evidence."""
    return lambda _, finding: number(finding, name)


def amps(judged: Judged, state: str, run: str, pole: str) -> float:
    """Current in ampere in a conductor of a run, loads on."""
    return judged.report(*state.split()).run_a[run, pole]


def ground_share(judged: Judged, state: str, run: str) -> float:
    """What part of the current coming back the ground wire of a run carries, in percent."""
    ground, neutral = amps(judged, state, run, "PE"), amps(judged, state, run, "N")
    return 100.0 * ground / (ground + neutral)
