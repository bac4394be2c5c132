"""Published examples of what a conductor survives."""

from __future__ import annotations

from math import log, sqrt

import pytest

from linework.codes import k_factor, least_area_mm2, withstand_a2s
from tests.examples.published import published


@published(
    "046", "Permissible short-circuit current (after IEC 60949)", "studylib.net/doc/25320408"
)
def test_95_mm2_for_a_second() -> None:
    # Copper, cross-linked, 90 to 250 C, 1 s: 13.6 kA; K = 225.669, which is k without the
    # logarithm of the warming.
    assert sqrt(withstand_a2s("95 mm2", "copper", 90, 250).value) == pytest.approx(13.6e3, abs=50)
    warming = log((234.5 + 250) / (234.5 + 90))
    assert k_factor("copper", 90, 250).value / sqrt(warming) == pytest.approx(225.669, abs=0.001)


@published("048", "Wire and cable short-circuit current", "studylib.net/doc/13679022")
def test_10_awg_for_a_period() -> None:
    # Copper, thermoplastic, 75 to 150 C, one period of 60 Hz: 4300 A, printed to two figures.
    amps = sqrt(withstand_a2s("10 AWG", "copper", 75, 150).value / (1 / 60))
    assert amps == pytest.approx(4300, rel=0.015)


@published(
    "050", "How to size a cable; Electrical cable calculation", "63.176.134.181; 3.106.244.115"
)
@pytest.mark.parametrize(
    ("amps", "seconds", "k", "area"), [(3000, 0.1, 143, 6.6), (2500, 0.1, 115, 6.9)]
)
def test_least_area(amps: float, seconds: float, k: float, area: float) -> None:
    # 6.6 and 6.9 mm2; pages without an author, used as every number checks.
    assert least_area_mm2(amps, seconds, k) == pytest.approx(area, abs=0.05)
