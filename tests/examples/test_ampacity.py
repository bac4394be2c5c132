"""Published examples of ampacity."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.wires.ratings import run_ampacity
from tests.examples.published import published


@published("056", "Applying Correction Factors", "stallcupeducation.learnworlds.com")
def test_10_awg_at_120_f() -> None:
    # THHN copper, 40 A x 0.82 = 32.8 A; with the factor for four conductors together 26.24 A.
    d = Draft(place="building")
    d.part("supply", "GS1")
    d.part("load", "EA1", power="1 kW")
    hot = {"insulation": "90", "terminals": "90", "ambient": "120 degF"}
    alone = d.run("GS1.out", "EA1.in", size="10 AWG", length="10 ft", **hot)
    four = d.run("GS1.out", "EA1.in", size="10 AWG", length="10 ft", grouped="4", **hot)
    assert run_ampacity(d.design, alone).value == pytest.approx(32.8, abs=0.05)
    assert run_ampacity(d.design, four).value == pytest.approx(26.24, abs=0.05)
