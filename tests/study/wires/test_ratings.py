"""What a run carries as installed, and the largest device for it."""

from __future__ import annotations

import pytest

from linework.codes import CodesError
from linework.design import Draft, Run
from linework.study.wires.ratings import (
    direct_v,
    kind_of_device,
    largest_device,
    least_size,
    low_voltage,
    run_ampacity,
)


def laid(place: str = "building", kind: str = "ac", volts: str = "120 V", **run: str) -> Draft:
    draft = Draft(place=place)
    draft.part("breaker", "QF1", rating="20 A", circuit=kind, voltage=volts)
    draft.part("load", "EA1", circuit=kind, voltage=volts, power="100 W")
    draft.run("QF1.load", "EA1.in", "W1", length="10 ft", **run)
    return draft


def the_run(draft: Draft) -> Run:
    return next(run for run in draft.design.runs)


def carries(draft: Draft, device_a: float | None = None) -> float:
    return run_ampacity(draft.design, the_run(draft), device_a).value


def allows(draft: Draft, device_a: float, **asked: bool) -> float:
    run = the_run(draft)
    ampacity = run_ampacity(draft.design, run, device_a)
    return largest_device(draft.design, run, ampacity, **asked).value  # type: ignore[arg-type]


def test_terminals_limit_up_to_100_amperes_unless_marked() -> None:
    # NFPA 70 table 310.16, 4 AWG copper: 70 A at 60 C, 85 A at 75 C; 110.14(C)(1)
    assert carries(laid(size="4 AWG"), 70.0) == 70.0
    assert carries(laid(size="4 AWG", terminals="75"), 70.0) == 85.0
    assert carries(laid(size="1/0 AWG"), 150.0) == 150.0


def test_a_published_derating() -> None:
    # 10 AWG THHN at 120 F: 40 A x 0.82 = 32.8 A; four conductors together: x 0.8 = 26.24 A
    hot = {"size": "10 AWG", "insulation": "90", "terminals": "75", "ambient": "120 degF"}
    assert carries(laid(**hot)) == pytest.approx(32.8)
    assert carries(laid(**hot, grouped="4")) == pytest.approx(26.24)


def test_a_cord_has_a_table_of_its_own() -> None:
    # table 400.5(A)(1): 12 AWG, two counted conductors
    assert carries(laid(size="12 AWG", installation="cord")) == 25.0
    assert allows(laid(size="12 AWG", installation="cord"), 30.0) == 25.0
    assert allows(laid(size="16 AWG", installation="cord"), 20.0) == 20.0
    assert allows(laid(size="18 AWG", installation="cord"), 20.0) == 10.0


@pytest.mark.parametrize(
    ("place", "size", "ampacity", "device"),
    [
        # 33 CFR 183.425 table 5 at 75 C; table 552.10(E)(1); 240.6(A)
        ("vehicle", "10 AWG", 40.0, 30.0),
        ("recreational", "2/0 AWG", 265.0, 300.0),
        ("boat", "10 AWG", 40.0, 40.0),
        ("boat", "2 AWG", 170.0, 175.0),
    ],
)
def test_low_voltage_aboard(place: str, size: str, ampacity: float, device: float) -> None:
    draft = laid(place, "dc", "12 V", size=size)
    assert carries(draft) == ampacity
    assert allows(draft, 20.0) == device


def test_low_voltage_in_a_building_takes_the_buildings_table() -> None:
    assert carries(laid("building", "dc", "12 V", size="10 AWG"), 30.0) == 30.0


def test_from_fifty_volts_on_it_is_no_low_voltage() -> None:
    assert carries(laid("vehicle", "dc", "48 V", size="10 AWG"), 30.0) == 40.0
    assert carries(laid("vehicle", "dc", "50 V", size="10 AWG"), 30.0) == 30.0


def test_a_small_conductor_afloat_may_have_no_more_than_150_percent() -> None:
    # ABYC E-11: 18 AWG in an engine space 7 A; the next fuse is 10 A, 150 % is 10.5 A
    assert allows(laid("boat", "dc", "12 V", size="18 AWG", installation="engine"), 10.0) == 10.0
    # hotter: 6 A x sqrt((60 - 57) / (60 - 50)) = 3.3 A; the next fuse is 6 A, 150 % is 4.9 A
    hot = {"installation": "engine", "insulation": "60", "ambient": "57 degC"}
    thin = laid("boat", "dc", "12 V", size="18 AWG", **hot)
    assert allows(thin, 6.0) == pytest.approx(1.5 * 6.0 * (3 / 10) ** 0.5)


def test_the_voltage_of_a_direct_current_run_comes_from_its_ends() -> None:
    draft = laid("vehicle", "dc", "24 V", size="10 AWG")
    assert direct_v(draft.design, the_run(draft)) == 24.0
    assert direct_v(laid(size="10 AWG").design, the_run(laid(size="10 AWG"))) is None


def bank(place: str, marked: str, volts: str) -> Draft:
    draft = Draft(place=place)
    draft.part("battery", "GB1", voltage=volts)
    draft.part("fuse", "F1", rating="100 A", type="class_t", voltage=marked)
    draft.part("battery_disconnect", "QB1", rating="200 A", voltage=marked)
    draft.part("junction_box", "XJ1", circuit="dc")
    draft.seat("F1", "GB1", "post")
    draft.run("F1.load", "QB1.line", "W1", size="2 AWG")
    draft.run("QB1.load", "XJ1.a", "W2", size="2 AWG")
    return draft


def test_what_a_device_stands_is_not_the_voltage_of_its_run() -> None:
    for volts, low in (("12 V", True), ("51.2 V", False)):
        draft = bank("boat", "125 V", volts)
        for run in draft.design.runs:
            assert direct_v(draft.design, run) == float(volts.split()[0])
            assert low_voltage(draft.design, run) is low


def test_the_run_of_a_solar_array_has_the_voltage_of_its_string() -> None:
    draft = Draft(place="vehicle")
    draft.part("solar_array", "GP1", voc="22 V", isc="6 A", series="3")
    draft.part("isolator", "QB2", circuit="dc", rating="16 A", voltage="250 V")
    draft.part("solar_controller", "TC1", dc_voltage="12 V", current="20 A")
    draft.run("GP1.dc", "QB2.line", "W1", size="10 AWG")
    draft.run("QB2.load", "TC1.pv", "W2", size="10 AWG")
    assert [direct_v(draft.design, run) for run in draft.design.runs] == [66.0, 66.0]


def test_the_least_size_for_a_device() -> None:
    thin = laid(size="14 AWG")
    assert least_size(thin.design, the_run(thin), 20.0) == "12 AWG"
    assert least_size(thin.design, the_run(thin), 60.0) == "6 AWG"  # 55 A, the next rating is 60 A
    outlets = least_size(thin.design, the_run(thin), 60.0, several_outlets=True)
    assert outlets == "4 AWG"  # 70 A: no rounding up
    assert least_size(thin.design, the_run(thin), 6000.0) is None


def test_what_no_table_has_is_refused() -> None:
    with pytest.raises(CodesError):
        carries(laid(size="2.5 mm2"))
    with pytest.raises(KeyError):
        carries(laid())


def test_curves_of_breakers_and_fuses() -> None:
    assert {kind_of_device(c) for c in ("breaker", "iec_b", "iec_c")} == {"breaker"}
    assert {kind_of_device(c) for c in ("class_t", "anl", "ato")} == {"fuse"}
