"""Light on a plane: against published examples, the reference table, a general library."""

from __future__ import annotations

import math

import numpy as np
import pytest

from linework.supply import sun
from linework.supply.climate import MEAN_DAYS

LENGTHS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])


def day(*numbers: float) -> np.ndarray:
    return np.array(numbers, float).reshape(-1, 1, 1)


def test_above_the_air_is_that_of_the_published_example():
    """FAO Irrigation and Drainage Paper 56, example 8: 20 degrees south on 3 September,
    32.2 MJ/m2 a day, with a declination 0.6 degrees off that of Spencer."""
    found = sun.above_the_air(math.radians(-20.0), day(246.0))
    assert float(found[0, 0, 0]) * 3.6 == pytest.approx(32.2, rel=0.02)


def test_the_length_of_a_day_is_that_of_the_published_example():
    """The same, example 9: 11.7 h."""
    ws = sun.sunset(math.radians(-20.0), day(246.0))
    assert float(ws[0, 0, 0]) * 24.0 / math.pi == pytest.approx(11.7, abs=0.1)


@pytest.mark.parametrize("steps", [24, 48, 96])
@pytest.mark.parametrize("latitude", [-80.0, -35.0, 0.0, 40.0, 66.0, 89.0])
def test_the_steps_add_up_to_the_day(latitude, steps):
    numbers = day(*range(1, 366, 13))
    for shares in sun.over_the_day(math.radians(latitude), numbers, steps):
        whole = shares.sum(axis=1) * 24.0 / steps
        lit = sun.sunset(math.radians(latitude), numbers)[:, 0] > 0.4
        assert whole[lit] == pytest.approx(1.0)
        assert np.all((shares >= 0.0) & np.isfinite(shares))


def test_a_plane_that_lies_flat_has_what_falls_on_the_flat():
    numbers, total = day(*range(1, 366, 30)), day(*([4.0] * 13))
    found = sun.on_plane(math.radians(40.0), numbers, total, 96, 0.0, math.pi)
    assert found.sum(axis=1) / 4.0 == pytest.approx(total[:, 0], rel=0.03)


MEASURED = [  # monthly light on the flat and on the tilt, by hourly files (reference table, tier A)
    (39.83, 40.0, "2.50 3.17 4.66 4.79 6.33 7.27 6.72 5.99 5.18 3.68 2.46 2.08", 5.38),
    (33.45, 33.0, "3.41 4.33 5.76 7.14 8.08 8.47 7.46 6.84 6.16 4.95 3.81 3.06", 6.57),
    (-27.35, 27.0, "6.86 6.29 5.20 4.76 3.93 3.29 3.72 4.71 5.90 6.66 7.52 6.94", 5.97),
]


def reference() -> list[tuple[float, float, list[float], float]]:
    return [(a, b, [float(x) for x in c.split()], e) for a, b, c, e in MEASURED]


@pytest.mark.parametrize(("latitude", "tilt", "flat", "tilted"), reference())
def test_the_tilt_of_a_year_is_that_of_hourly_files(latitude, tilt, flat, tilted):
    """Denver, Phoenix and Brisbane, tilted as their latitude: yearly means within 5 %."""
    numbers, total = MEAN_DAYS.reshape(-1, 1, 1), np.array(flat).reshape(-1, 1, 1)
    found = (
        sun.on_plane(
            math.radians(latitude),
            numbers,
            total,
            96,
            math.radians(tilt),
            math.pi if latitude > 0.0 else 0.0,
        ).sum(axis=1)[:, 0]
        * 0.25
    )
    assert float((found * LENGTHS).sum() / 365.0) == pytest.approx(tilted, rel=0.05)


def test_cells_are_as_warm_as_in_the_worked_example():
    """800 W/m2 and 30 degC: 55.1 degC on a rack with 1 m/s, 83.3 degC on a flush roof (Faiman)."""
    light, air = np.array([0.8]), np.array([30.0])
    assert sun.cell_warmth(light, air, 25.0, 6.84, 1.0)[0] == pytest.approx(55.126, abs=0.001)
    assert sun.cell_warmth(light, air, 15.0, 0.0, 1.0)[0] == pytest.approx(83.333, abs=0.001)


# against pvlib, a general library, where it is installed


@pytest.mark.parametrize("latitude", [-33.0, 10.0, 47.0])
@pytest.mark.parametrize(("tilt", "azimuth"), [(0.0, 180.0), (30.0, 180.0), (60.0, 90.0)])
def test_angles_are_those_of_a_library(latitude, tilt, azimuth):
    irradiance = pytest.importorskip("pvlib.irradiance")
    position = pytest.importorskip("pvlib.solarposition")
    for number in (20.0, 120.0, 200.0, 300.0):
        delta = position.declination_spencer71(number)
        height, incidence = sun.cos_incidence(
            math.radians(latitude), day(number), 96, math.radians(tilt), math.radians(azimuth)
        )
        for step in (30, 48, 61):
            hour = math.degrees(float(sun.hour_angles(96)[step, 0]))
            zenith = position.solar_zenith_analytical(
                math.radians(latitude), math.radians(hour), delta
            )
            east = position.solar_azimuth_analytical(
                math.radians(latitude), math.radians(hour), delta, zenith
            )
            assert float(height[0, step, 0]) == pytest.approx(math.cos(zenith), abs=1e-9)
            expected = irradiance.aoi_projection(
                tilt, azimuth, math.degrees(zenith), math.degrees(east)
            )
            assert float(incidence[0, step, 0]) == pytest.approx(float(expected), abs=1e-6)


def test_the_sky_is_that_of_a_library():
    irradiance = pytest.importorskip("pvlib.irradiance")
    height, incidence, above = 0.6, 0.85, 1.36
    beam, diffuse, tilt = 0.35, 0.12, math.radians(35.0)
    ours = sun.transposed(
        *(np.array([x]) for x in (beam, diffuse, height, incidence, above)), tilt, 0.0
    )
    sky = irradiance.haydavies(
        35.0, 180.0, diffuse, beam / height, above,
        projection_ratio=incidence / height,
    )  # fmt: skip
    assert float(ours[0]) == pytest.approx(beam * incidence / height + float(sky), rel=1e-9)
