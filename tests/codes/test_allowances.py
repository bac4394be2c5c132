"""What NFPA 70 allows beyond its tables, at its boundaries."""

from __future__ import annotations

import pytest

from linework.codes import family

RULES = family("NA", "2023")


@pytest.mark.parametrize(
    ("size", "ampacity_a", "device_a"),
    [("16 AWG", 13.0, 20.0), ("18 AWG", 10.0, None), ("16 AWG", 20.0, None)],
)
def test_a_cord_on_a_circuit_of_20_a(size: str, ampacity_a: float, device_a: float | None) -> None:
    found = RULES.cord_device(size, ampacity_a)
    assert (None if found is None else found.value) == device_a


def test_parallel_conductors_count_from_1_0_on() -> None:
    pair = RULES.parallel("1/0 AWG", 2)
    assert pair is not None
    assert (pair.value, pair.clause) == (2.0, "NFPA 70 (2023) 310.10(G)")
    assert RULES.parallel("1 AWG", 2) is None


def test_taps_of_10_and_25_ft() -> None:
    assert [(a.value, b.value) for a, b in RULES.taps()] == [(3.048, 10.0), (7.62, 3.0)]
    assert all("240.21(B)" in a.clause for a, _ in RULES.taps())


@pytest.mark.parametrize(
    ("rating_a", "least_a"), [(100.0, 83.0), (200.0, 166.0), (400.0, 332.0), (99.0, None)]
)
def test_the_service_of_a_dwelling(rating_a: float, least_a: float | None) -> None:
    found = RULES.dwelling_service(rating_a)
    assert (None if found is None else found.value) == least_a


@pytest.mark.parametrize(
    ("volts", "amps", "set_va", "asked"),
    [
        (125.0, 20.0, 15e3, True),
        (250.0, 20.0, 15e3, False),
        (125.0, 30.0, 15e3, False),
        (125.0, 20.0, 15.1e3, False),
    ],
)
def test_outlets_that_come_protected(volts: float, amps: float, set_va: float, asked: bool) -> None:
    assert RULES.set_outlet_protection(volts, amps, set_va).value is asked
