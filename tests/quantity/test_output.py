"""Writing figures: exactly for files, rounded for people."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from linework.quantity import KINDS, QuantityError, in_signs, read, show, write

FLOATS = st.floats(allow_nan=False, allow_infinity=False)


def possible(value: float, kind: str) -> float:
    """The value, or its like that a quantity of this kind can have."""
    if kind == "count":
        return float(abs(int(value)))
    return value if value >= KINDS[kind].least else abs(value)


@pytest.mark.parametrize("kind", sorted(KINDS))
@given(value=FLOATS)
@example(value=0.1 + 0.2)
@example(value=5e-324)
@example(value=1.7976931348623157e308)
@example(value=-0.0)
def test_what_is_written_reads_back_exactly_in_every_unit(kind: str, value: float) -> None:
    value = possible(value, kind)
    for unit in (None, *KINDS[kind].units):
        text = write(value, kind, unit)
        assert read(text, kind) == value
        assert not text.startswith("-0 ")
        assert "," not in text


@pytest.mark.parametrize(
    ("value", "kind", "unit", "text"),
    [
        (20.0, "current", None, "20 A"),
        (0.006, "current", "mA", "6 mA"),
        (2.5, "area", None, "2.5 mm2"),
        (4.572, "length", "ft", "15 ft"),
        (1.905, "length", "in", "75 in"),
        (100.0, "temperature", "degF", "212 degF"),
        (0.8, "ratio", None, "0.8"),
        (0.8, "ratio", "%", "80 %"),
        (3.0, "count", None, "3"),
        (1e-8, "capacitance", "nF", "10 nF"),
        (1e-8, "capacitance", None, "0.00000001 F"),
        (18.0, "volume", None, "18 in3"),
        (3730.0, "power", "hp", "5 hp"),
        (-0.0, "voltage", None, "0 V"),
        (1e21, "current", None, "1000000000000000000000 A"),
    ],
)
def test_the_form_of_files(value: float, kind: str, unit: str | None, text: str) -> None:
    assert write(value, kind, unit) == text


@pytest.mark.parametrize(
    ("value", "kind", "unit"),
    [
        (math.nan, "current", None),
        (math.inf, "current", None),
        (-1.0, "length", None),
        (-300.0, "temperature", None),
        (2.5, "count", None),
        (1.0, "current", "V"),
        (1.0, "current", "amps"),
        (1.0, "resistance", "Ω"),
    ],
)
def test_what_files_never_hold(value: float, kind: str, unit: str | None) -> None:
    with pytest.raises(QuantityError):
        write(value, kind, unit)


@pytest.mark.parametrize(
    ("value", "kind", "text"),
    [
        (8.2, "current", "8.2 A"),
        (0.00984, "current", "9.84 mA"),
        (1200.0, "current", "1.2 kA"),
        (999.4, "current", "999 A"),
        (999.6, "current", "1 kA"),
        (0.9996, "current", "1 A"),
        (-8.204, "current", "-8.2 A"),
        (1e-7, "current", "0 A"),
        (-1e-15, "current", "0 A"),
        (-0.0, "current", "0 A"),
        (6e-7, "current", "0.0006 mA"),
        (2.675, "current", "2.68 A"),
        (120.0, "voltage", "120 V"),
        (13_842.0, "voltage", "13.8 kV"),
        (1500.0, "power", "1.5 kW"),
        (0.25, "power", "0.25 W"),
        (5000.0, "apparent_power", "5 kVA"),
        (0.0004, "resistance", "0.4 mΩ"),
        (25.0, "resistance", "25 Ω"),
        (2.2e6, "resistance", "2.2 MΩ"),
        (3.30877, "area", "3.31 mm²"),
        (75.0, "temperature", "75 °C"),
        (-40.0, "temperature", "-40 °C"),
        (0.02, "time", "20 ms"),
        (90.0, "time", "90 s"),
        (150.0, "time", "2.5 min"),
        (7200.0, "time", "2 h"),
        (60.0, "frequency", "60 Hz"),
        (100.0, "charge", "100 Ah"),
        (2400.0, "energy", "2.4 kWh"),
        (0.0301, "ratio", "3.01 %"),
        (0.0, "ratio", "0 %"),
        (12_345.0, "count", "12345"),
        (1e-8, "capacitance", "10 nF"),
        (1e-9, "capacitance", "1 nF"),
        (4.7e-6, "capacitance", "4.7 µF"),
    ],
)
def test_what_people_are_shown(value: float, kind: str, text: str) -> None:
    assert show(value, kind) == text


def test_lengths_follow_the_family() -> None:
    assert show(7.62, "length", family="NA") == "25 ft"
    assert show(7.62, "length", family="INT") == "7.62 m"
    assert show(0.0, "length", family="NA") == "0 ft"


@pytest.mark.parametrize("kind", ["length", "volume"])
def test_what_the_family_decides_is_not_shown_without_one(kind: str) -> None:
    with pytest.raises(ValueError, match="depends on the family"):
        show(1.0, kind)


def test_digits_may_be_asked_for() -> None:
    assert show(123.456, "current", digits=5) == "123.46 A"
    assert show(123.456, "current", digits=1) == "100 A"


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, None])
def test_no_figure_is_not_shown_as_one(value: float) -> None:
    with pytest.raises(QuantityError, match="not a figure"):
        show(value, "current")


def test_a_count_is_not_rounded_away() -> None:
    with pytest.raises(QuantityError, match="whole number"):
        show(2.5, "count")


@pytest.mark.parametrize("kind", sorted(set(KINDS) - {"count"}))
@pytest.mark.parametrize("family", ["NA", "INT"])
@given(value=st.floats(-1e9, 1e9))
def test_what_is_shown_is_near_the_value(kind: str, family: str, value: float) -> None:
    value = possible(value, kind)
    text = show(value, kind, digits=3, family=family)
    again = read(text, kind)
    # Half a unit of the third figure at the most, or nought: no unit shown is larger than 1
    # but the smallest of each kind, of which half a thousandth may vanish.
    assert again == pytest.approx(value, rel=5.001e-3, abs=5.001e-4)
    assert not text.startswith("-0 ")
    figures = text.split()[0].lstrip("-").replace(".", "").strip("0")
    assert len(figures) <= 3
    assert Decimal(text.split()[0]).is_finite()


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("30 degC", "30 °C"),
        ("-4 degF", "-4 °F"),
        ("5 ohm", "5 Ω"),
        ("12 V", "12 V"),
        ("ohm", "ohm"),
    ],
)
def test_texts_of_files_are_shown_with_the_signs_of_units(text: str, shown: str) -> None:
    assert in_signs(text) == shown
