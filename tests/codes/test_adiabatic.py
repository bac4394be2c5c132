"""What conductors survive, against published examples and the printed k."""

from __future__ import annotations

import pytest

from linework.codes import (
    CodesError,
    insulation_type,
    k_factor,
    limit_temperature_c,
    tabulated_k,
)
from linework.codes.tables import rows


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
