"""What conductors survive, against published examples and the printed k."""

from __future__ import annotations

from math import sqrt

import pytest

from linework.codes import (
    CodesError,
    insulation_type,
    k_factor,
    least_area_mm2,
    limit_temperature_c,
    tabulated_k,
    withstand_a2s,
)
from linework.codes.tables import rows


def test_published_cable_of_95_mm2():
    """95 mm2 copper, cross-linked, 90 to 250 C, 1 s: 13.6 kA (course slides on IEC 60949,
    studylib.net/doc/25320408)."""
    assert sqrt(withstand_a2s("95 mm2", "copper", 90, 250).value) == pytest.approx(13.6e3, abs=50)
    assert k_factor("copper", 90, 250).value == pytest.approx(142.9, abs=0.1)


def test_published_withstand_of_10_awg():
    """10 AWG copper, thermoplastic 75 to 150 C, one period: 4300 A (fuse maker's data after ICEA,
    studylib.net/doc/13679022), published to two figures."""
    amps = sqrt(withstand_a2s("10 AWG", "copper", 75, 150).value / (1 / 60))
    assert amps == pytest.approx(4300, rel=0.015)


@pytest.mark.parametrize(
    ("amps", "seconds", "k", "area"), [(3000, 0.1, 143, 6.6), (2500, 0.1, 115, 6.9)]
)
def test_published_least_areas(amps, seconds, k, area):
    """Two cable-sizing pages (examples of quality C, every number checks)."""
    assert least_area_mm2(amps, seconds, k) == pytest.approx(area, abs=0.05)


@pytest.mark.parametrize("row", rows("common/adiabatic_k"), ids=lambda r: r["k_a_sqrt_s_per_mm2"])
def test_formula_gives_every_printed_k(row):
    """IEC 60364-4-43 / 5-54: all 51 within 1.2."""
    ends = float(row["initial_temp_c"]), float(row["final_temp_c"])
    computed = k_factor(row["material"], *ends).value
    assert computed == pytest.approx(float(row["k_a_sqrt_s_per_mm2"]), abs=1.2)


def test_printed_k_can_be_asked_for():
    assert tabulated_k("in cable", "PVC 70 C, S<=300 mm2", "copper").value == 115
    assert tabulated_k("in cable", "XLPE/EPR 90 C", "aluminium").value == 94
    with pytest.raises(CodesError, match="XLPE"):
        tabulated_k("in cable", "paper", "copper")


def test_limits_and_wire_types():
    assert limit_temperature_c("thermoplastic").value == 150.0
    thhn = insulation_type("THHN")
    assert (thhn.value, thhn.note, thhn.confirmed) == (90.0, "thermoplastic", False)
    assert limit_temperature_c(insulation_type("XHHW-2").note).value == 250.0
    for row in rows("na/insulation_types"):
        assert limit_temperature_c(row["material"]).value == float(row["short_circuit_limit_C"])


@pytest.mark.parametrize(
    "ask",
    [
        lambda: k_factor("copper", 160, 160),
        lambda: limit_temperature_c("wool"),
        lambda: insulation_type("THHQ"),
    ],
)
def test_unanswerable_questions_are_errors(ask):
    with pytest.raises(CodesError):
        ask()
