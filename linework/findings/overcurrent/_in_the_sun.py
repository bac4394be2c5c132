"""Whether a conductor carries what a solar array drives for good."""

from __future__ import annotations

from dataclasses import replace

from linework.design import Run
from linework.findings.view import View
from linework.kinds.solar_array import BRIGHT
from linework.study.ratings import run_ampacity
from linework.study.slack import exceeds, within


def needed_a(bright_a: float) -> float:
    """Least ampacity in ampere before corrections: 125 % of what flows in bright sun, which is
    156 % of the short-circuit current of the plate (NFPA 70 690.8(B))."""
    return BRIGHT * bright_a


def carries_sun(view: View, run: Run, bright_a: float) -> bool:
    """Whether a run carries ``bright_a`` as installed, and 125 % of it before corrections for
    temperature and grouping (NFPA 70 690.8(B)). CodesError where no table tells."""
    if exceeds(bright_a, view.ampacity(run).value):
        return False
    plain = replace(run, ratings=run.ratings.with_answers({"ambient": None, "grouped": None}))
    return within(needed_a(bright_a), run_ampacity(view.design, plain).value)
