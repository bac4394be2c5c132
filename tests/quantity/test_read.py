"""Reading typed text: what is accepted, what is refused, and what the refusal says."""

from __future__ import annotations

import subprocess
import sys

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from linework.quantity import KINDS, QuantityError, read
from linework.quantity.factors import scale
from linework.quantity.units import spellings_of, unit_of


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("20 A", "current", 20.0),
        ("20A", "current", 20.0),
        ("  20\u00a0A ", "current", 20.0),
        ("20a", "current", 20.0),
        ("6 mA", "current", 0.006),
        ("10 kA", "current", 10_000.0),
        ("10 KA", "current", 10_000.0),
        ("-5 A", "current", -5.0),
        ("\u22125 A", "current", -5.0),
        ("1,5 A", "current", 1.5),
        ("0,500 A", "current", 0.5),
        ("1234,567 A", "current", 1234.567),
        (",5 A", "current", 0.5),
        (".5 A", "current", 0.5),
        ("1.125 V", "voltage", 1.125),
        ("13.8 kV", "voltage", 13_800.0),
        ("75 mV", "voltage", 0.075),
        ("3.6 kW", "power", 3600.0),
        ("2 kVA", "apparent_power", 2000.0),
        ("25 ohm", "resistance", 25.0),
        ("25 Ω", "resistance", 25.0),
        ("25 \u2126", "resistance", 25.0),
        ("8 mohm", "resistance", 0.008),
        ("8 mΩ", "resistance", 0.008),
        ("8 kΩ", "resistance", 8000.0),
        ("2 Mohm", "resistance", 2e6),
        ("25 m", "length", 25.0),
        ("150 mm", "length", 0.15),
        ("15 cm", "length", 0.15),
        ("2 km", "length", 2000.0),
        ("2.5 mm2", "area", 2.5),
        ("2,5 mm²", "area", 2.5),
        ("20 \u00baC", "temperature", 20.0),
        ("20 °C", "temperature", 20.0),
        ("-40 degC", "temperature", -40.0),
        ("20 ms", "time", 0.02),
        ("2 min", "time", 120.0),
        ("1.5 h", "time", 5400.0),
        ("60 Hz", "frequency", 60.0),
        ("100 Ah", "charge", 100.0),
        ("2.4 kWh", "energy", 2400.0),
        ("0.8", "ratio", 0.8),
        ("80 %", "ratio", 0.8),
        ("80%", "ratio", 0.8),
        ("3", "count", 3.0),
        ("18 in3", "volume", 18.0),
        ("18 cu in", "volume", 18.0),
        ("16.387064 cm3", "volume", 1.0),
        ("10 nF", "capacitance", 1e-8),
        ("4,7 µF", "capacitance", 4.7e-6),
        ("4.7 \u03bcF", "capacitance", 4.7e-6),
        ("4.7 uF", "capacitance", 4.7e-6),
    ],
)
def test_one_number_and_one_unit(text: str, kind: str, value: float) -> None:
    assert read(text, kind) == value


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        # NIST SP 811 (2008), appendix B.8: exact factors of foot and inch, and the two fixed
        # points of its Fahrenheit formula.
        ("1 ft", "length", 0.3048),
        ("1 in", "length", 0.0254),
        ("1 in2", "area", 645.16),
        ("32 degF", "temperature", 0.0),
        ("212 °F", "temperature", 100.0),
        ("-40 F", "temperature", -40.0),
        ("-459.67 degF", "temperature", -273.15),
        # Common practice, no source: a nameplate horsepower is 746 W, not 745.7 W.
        ("5 hp", "power", 3730.0),
        # NEC chapter 9, table 8, metric column: 250 kcmil is 127 mm2, 1000 kcmil 507 mm2
        # (rounded there to three figures).
        ("250 kcmil", "area", 126.676875),
        ("1000 MCM", "area", 506.7075),
    ],
)
def test_factors_of_other_systems(text: str, kind: str, value: float) -> None:
    assert read(text, kind) == value


@pytest.mark.parametrize(
    "text",
    [
        "6 ft 3 in",
        "6ft 3in",
        "6ft3in",
        "6 feet 3 inches",
        "6'3\"",
        "6' 3\"",
        "6\u20323\u2033",
        "6\u20193\u201d",
        "75 in",
    ],
)
def test_feet_with_inches(text: str) -> None:
    assert read(text, "length") == 1.905


def test_inches_may_have_decimals_after_feet() -> None:
    assert read("1 ft 0,5 in", "length") == 0.3175
    assert read("0 ft 0.5 in", "length") == 0.0127


@pytest.mark.parametrize(
    "text",
    [
        "6'3",
        "6 ft 3",
        "6 ft 12 in",
        "6 ft 14 in",
        "6.5 ft 3 in",
        "6,5 ft 3 in",
        "-6 ft 3 in",
        "6 ft -3 in",
        "6 ft 3 m",
        "6 ft 3 ft",
        "6 ft 3 in 2 in",
        "6 m 3 in",
        "3 in 6 ft",
        "6 ft 1/2 in",
        "6 ft 1-1/2 in",
        "1,500 ft 3 in",
    ],
)
def test_feet_with_inches_refused(text: str) -> None:
    with pytest.raises(QuantityError, match=r"write \d"):
        read(text, "length")


def test_a_gauge_is_an_area() -> None:
    assert read("12 AWG", "area") == pytest.approx(3.30877, rel=1e-5)
    assert read("4/0", "area") == pytest.approx(107.2193, rel=1e-5)
    with pytest.raises(QuantityError, match="gauge"):
        read("99 AWG", "area")


# What a units library reads without a word, or reads as something else.
MISREAD = [
    ("10 m 3", "length"),
    ("1,500 A", "current"),
    ("-1,500 A", "current"),
    ("1,500,000 ohm", "resistance"),
    ("1 500 A", "current"),
    ("1\u00a0500 A", "current"),
    ("1'500 A", "current"),
    ("1_500 A", "current"),
    ("1,500.5 A", "current"),
    ("1.500,5 A", "current"),
    ("1..5 A", "current"),
    ("5. A", "current"),
    ("1e3 A", "current"),
    ("1E-3 A", "current"),
    ("1 x 10 A", "current"),
    ("2*10 A", "current"),
    ("2**10 A", "current"),
    ("10^3 A", "current"),
    ("10² A", "current"),
    ("5 A2", "current"),
    ("5 A*2", "current"),
    ("5 A + 3 A", "current"),
    ("5 A 3", "current"),
    ("5 A 3 A", "current"),
    ("+-5 A", "current"),
    ("--5 A", "current"),
    ("A", "current"),
    ("A 5", "current"),
    ("five A", "current"),
    ("(5) A", "current"),
    ("5", "current"),
    ("5 MA", "current"),
    ("5 Ma", "current"),
    ("5 aA", "current"),
    ("5 milliampere", "current"),
    ("5 C/s", "current"),
    ("5 coulomb/second", "current"),
    ("5 Ah/h", "current"),
    ("5 A h", "charge"),
    ("nan A", "current"),
    ("inf A", "current"),
    ("٣ A", "current"),
    ("120 VAC", "voltage"),
    ("5 M", "length"),
    ("5 MM", "length"),
    ("5 MOHM", "resistance"),
    ("1/2 hp", "power"),
    ("½ hp", "power"),
    ("1½ hp", "power"),
    ("5 mF", "capacitance"),
    ("5 MFD", "capacitance"),
    ("5 m2", "area"),
    ("5 cm", "area"),
    ("5 K", "temperature"),
    ("5 m", "time"),
    ("3.5", "count"),
    ("3 pieces", "count"),
    ("3 %", "count"),
    ("50 %%", "ratio"),
    ("", "current"),
    ("   ", "ratio"),
]


@pytest.mark.parametrize(("text", "kind"), MISREAD)
def test_refused_with_an_example(text: str, kind: str) -> None:
    with pytest.raises(QuantityError, match=r"rite .*\d") as fault:
        read(text, kind)
    assert text.strip().replace("\u00a0", " ") in str(fault.value)


@pytest.mark.parametrize(
    ("text", "kind"),
    [("-1 m", "length"), ("-1 ohm", "resistance"), ("-1", "count"), ("-274 degC", "temperature")],
)
def test_what_cannot_be_negative(text: str, kind: str) -> None:
    with pytest.raises(QuantityError, match="cannot be below"):
        read(text, kind)


@pytest.mark.parametrize(
    ("text", "kind", "part"),
    [
        ("20", "current", "write for example 20 A"),
        ("1,500 A", "current", "1500 A or 1.5 A"),
        (
            "5 kVA",
            "power",
            "has a unit of apparent power, but power is asked for; write for example 1500 W",
        ),
        ("5 MA", "current", "did you mean mA?"),
        ("5 ampers", "current", "did you mean A?"),
        ("5 metres²", "length", "did you mean m?"),
        ("5 mohms", "resistance", "did you mean mohm?"),
        ("5 MOHM", "resistance", "did you mean Mohm?"),
        ("5 megaohm", "resistance", "did you mean Mohm?"),
        ("5 AA", "current", "did you mean A?"),
        ("5 milliampere", "current", "(A, mA, kA)"),
        ("1 1/2 hp", "power", "write 1.5 hp"),
        ("1/3 hp", "power", "write 0.3333 hp"),
        ("1e3 A", "current", "write the number out"),
        ("9 qqq", "voltage", "(V, mV, kV); write for example 120 V"),
        ("3 pieces", "count", "write 3"),
    ],
)
def test_the_refusal_helps(text: str, kind: str, part: str) -> None:
    with pytest.raises(QuantityError) as fault:
        read(text, kind)
    assert part in str(fault.value)


def test_every_suggestion_after_a_guess_is_accepted() -> None:
    for kind, text in (("current", "5 ampers"), ("time", "5 mins"), ("length", "7 metr")):
        with pytest.raises(QuantityError) as fault:
            read(text, kind)
        read(str(fault.value).rsplit("write ", 1)[1], kind)


def test_long_and_unprintable_text_is_shortened_in_the_message() -> None:
    with pytest.raises(QuantityError) as fault:
        read("5 " + "\x07" * 300, "current")
    assert "\x07" not in str(fault.value)
    assert len(str(fault.value)) < 250
    with pytest.raises(QuantityError, match="too long"):
        read("1" * 401 + " A", "current")


def test_a_number_too_large_for_a_float_is_refused() -> None:
    with pytest.raises(QuantityError, match="larger than"):
        read("9" * 310 + " A", "current")
    with pytest.raises(QuantityError, match="larger than"):
        read("9" * 308 + " km", "length")
    with pytest.raises(QuantityError, match="larger than"):
        read("9" * 320 + " ft 3 in", "length")


def test_unknown_kind_is_a_fault_of_the_program() -> None:
    with pytest.raises(KeyError):
        read("5 A", "speed")


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_every_kind_reads_its_own_example_and_units(kind) -> None:
    read(kind.example, kind.name)
    assert kind.units[0] == kind.unit
    assert read(f"2 {kind.unit}", kind.name) == 2.0
    for spelling in spellings_of(kind.name):
        read(f"2 {spelling}", kind.name)


def assert_read_or_refused(text: str, kind: str) -> None:
    try:
        value = read(text, kind)
    except QuantityError as refusal:
        fault = refusal
    else:
        assert isinstance(value, float)
        assert value >= KINDS[kind].least
        return
    assert str(fault)


@given(st.text(), st.sampled_from(sorted(KINDS)))
@example("{0} A", "current")
@example("5 {typed}", "current")
@example("5 {ground}", "current")
@example("\ud800 A", "current")
@example("5 \ud800", "length")
def test_no_text_crashes(text: str, kind: str) -> None:
    assert_read_or_refused(text, kind)


@given(
    st.text(alphabet="0123456789.,'\"+-/ eE²%#mkMuAVWhftincs", max_size=12),
    st.sampled_from(sorted(KINDS)),
)
def test_no_text_of_likely_signs_crashes(text: str, kind: str) -> None:
    assert_read_or_refused(text, kind)


@given(
    st.decimals(0, 10**6, places=4),
    st.sampled_from(sorted(KINDS)),
    st.sampled_from([" ", "", "\u202f"]),
)
def test_point_and_comma_read_alike(figure, kind: str, gap: str) -> None:
    if kind == "count":
        return
    for unit in KINDS[kind].units:
        text = f"{figure:.4f}{gap}{unit}"
        assert read(text, kind) == read(text.replace(".", ","), kind)


@given(st.integers(1, 999), st.integers(0, 999), st.sampled_from(["current", "length", "ratio"]))
def test_three_digits_after_a_comma_are_never_guessed(whole: int, more: int, kind: str) -> None:
    unit = KINDS[kind].unit
    with pytest.raises(QuantityError, match=rf"as {whole}{more:03} or as"):
        read(f"{whole},{more:03} {unit}", kind)


PINT_NAMES = {
    "mA": ("milliampere", "ampere"),
    "kA": ("kiloampere", "ampere"),
    "mV": ("millivolt", "volt"),
    "kV": ("kilovolt", "volt"),
    "kW": ("kilowatt", "watt"),
    "kVA": ("kilovolt_ampere", "volt_ampere"),
    "W": ("watt", "volt_ampere"),
    "mohm": ("milliohm", "ohm"),
    "kohm": ("kiloohm", "ohm"),
    "Mohm": ("megaohm", "ohm"),
    "mm": ("millimeter", "meter"),
    "cm": ("centimeter", "meter"),
    "km": ("kilometer", "meter"),
    "ft": ("foot", "meter"),
    "ft2": ("foot**2", "meter**2"),
    "in": ("inch", "meter"),
    "ms": ("millisecond", "second"),
    "kHz": ("kilohertz", "hertz"),
    "mAh": ("milliampere_hour", "ampere_hour"),
    "kWh": ("kilowatt_hour", "watt_hour"),
    "%": ("percent", "dimensionless"),
    "uF": ("microfarad", "farad"),
    "nF": ("nanofarad", "farad"),
    "pF": ("picofarad", "farad"),
    "kcmil": ("kcmil", "millimeter**2"),
    "hp": ("horsepower", "watt"),
}


def test_our_own_factors_agree_with_pint() -> None:
    from fractions import Fraction

    import pint

    registry = pint.UnitRegistry(non_int_type=Fraction)
    seen = set()
    for kind in KINDS.values():
        for text in kind.units:
            unit = unit_of(kind.name, text)
            if unit.factor is None or text == kind.unit:
                continue
            ours, offset = scale(unit)
            theirs = registry.convert(Fraction(1), *PINT_NAMES[text])
            # The two trade figures differ on purpose, by less than a thousandth.
            tolerance = 1e-3 if text in ("hp", "kcmil") else 0.0
            assert float(ours) == pytest.approx(float(theirs), rel=tolerance, abs=0.0), text
            assert offset == 0
            seen.add(text)
    assert seen == set(PINT_NAMES)


def test_pint_is_loaded_only_for_a_factor_of_its_own() -> None:
    program = (
        "import sys, linework.quantity as q\n"
        "q.read('6 mA', 'current'); q.wire_size('12 AWG'); q.show(0.02, 'time')\n"
        "assert 'pint' not in sys.modules\n"
        "q.read('6 ft 3 in', 'length')\n"
        "assert 'pint' not in sys.modules\n"
        "q.read('68 degF', 'temperature')\n"
        "assert 'pint' in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", program], check=True, timeout=60)
