"""Light on a tilted plane from the sun of a day on the flat.

Angles in radian, times in solar time (noon is when the sun is highest; a clock may be an hour off),
light in kW/m2, a day's sum in kWh/m2. What is of a
day is an array (days, 1, samples), what is of its steps (days, steps, samples).
"""

from __future__ import annotations

import numpy as np

Array = np.ndarray
SOLAR_CONSTANT_KW = 1.367
"""kW/m2 above the air (World Radiation Center)."""
_LEAST_COS = 0.05
"""So low above the horizon the beam is not thrown up any more: it would grow beyond all bounds."""


def declination(day: Array) -> Array:
    """Of the sun on a day of the year, 1 to 365 (Spencer 1971)."""
    b = 2.0 * np.pi * (day - 1.0) / 365.0
    return (
        0.006918
        - 0.399912 * np.cos(b)
        + 0.070257 * np.sin(b)
        - 0.006758 * np.cos(2 * b)
        + 0.000907 * np.sin(2 * b)
        - 0.002697 * np.cos(3 * b)
        + 0.00148 * np.sin(3 * b)
    )


def distance_factor(day: Array) -> Array:
    """Square of mean over actual distance of the sun (Spencer 1971)."""
    b = 2.0 * np.pi * (day - 1.0) / 365.0
    return (
        1.00011
        + 0.034221 * np.cos(b)
        + 0.00128 * np.sin(b)
        + 0.000719 * np.cos(2 * b)
        + 0.000077 * np.sin(2 * b)
    )


def sunset(latitude: float, day: Array) -> Array:
    """Hour angle of sunset: 0 where it does not rise, pi where it does not set."""
    found: Array = np.arccos(np.clip(-np.tan(latitude) * np.tan(declination(day)), -1.0, 1.0))
    return found


def above_the_air(latitude: float, day: Array) -> Array:
    """Sum of a day on the flat above the air, kWh/m2 (FAO-56 equation 21)."""
    delta, ws = declination(day), sunset(latitude, day)
    height = ws * np.sin(latitude) * np.sin(delta) + np.cos(latitude) * np.cos(delta) * np.sin(ws)
    found: Array = np.maximum(24.0 / np.pi * SOLAR_CONSTANT_KW * distance_factor(day) * height, 0.0)
    return found


def diffuse_share(clearness: Array, ws: Array) -> Array:
    """Share of diffuse light in a day's sum (Erbs, Klein and Duffie 1982, daily; from memory)."""
    k = np.clip(clearness, 0.0, 1.0)
    winter = 1.0 - 0.2727 * k + 2.4495 * k**2 - 11.9514 * k**3 + 9.3879 * k**4
    winter = np.where(k < 0.715, winter, 0.143)
    summer = np.where(k < 0.722, 1.0 + 0.2832 * k - 2.5557 * k**2 + 0.8448 * k**3, 0.175)
    found: Array = np.clip(np.where(ws <= np.radians(81.4), winter, summer), 0.0, 1.0)
    return found


def hour_angles(steps: int) -> Array:
    """Of the middle of each step of a day, as a column."""
    return ((np.arange(steps) + 0.5) / steps - 0.5)[:, None] * 2.0 * np.pi


def _spread(weights: Array) -> Array:
    """Weights of the steps as shares of the day in 1/h; zero where none is."""
    total = weights.sum(axis=-2, keepdims=True) * (24.0 / weights.shape[-2])
    found: Array = weights / np.where(total > 0.0, total, 1.0)
    return found


def over_the_day(latitude: float, day: Array, steps: int) -> tuple[Array, Array]:
    """What each step has of a day's global and diffuse sum, in 1/h.

    Collares-Pereira and Rabl 1979 for the global, Liu and Jordan 1960 for the diffuse light (both
    from memory), rescaled so that the steps add up to the day.
    """
    w, ws = hour_angles(steps), sunset(latitude, day)
    up = np.maximum(np.cos(w) - np.cos(ws), 0.0)
    a = 0.409 + 0.5016 * np.sin(ws - np.pi / 3.0)
    b = 0.6609 - 0.4767 * np.sin(ws - np.pi / 3.0)
    return _spread(np.maximum(a + b * np.cos(w), 0.0) * up), _spread(up)


def cos_incidence(
    latitude: float, day: Array, steps: int, tilt: float, azimuth: float
) -> tuple[Array, Array]:
    """Cosines of the angle between the sun and the vertical, and the plane's normal.

    ``azimuth``: where the plane faces, from north over east.
    """
    w, delta = hour_angles(steps), declination(day)
    east = -np.cos(delta) * np.sin(w)
    north = np.cos(latitude) * np.sin(delta) - np.sin(latitude) * np.cos(delta) * np.cos(w)
    height = np.sin(latitude) * np.sin(delta) + np.cos(latitude) * np.cos(delta) * np.cos(w)
    across = np.sin(tilt) * (east * np.sin(azimuth) + north * np.cos(azimuth))
    return height, across + np.cos(tilt) * height


def transposed(
    beam: Array,
    diffuse: Array,
    height: Array,
    incidence: Array,
    above: Array,
    tilt: float,
    albedo: float,
) -> Array:
    """Light on the plane by Hay and Davies 1980: part of the diffuse light comes from where the
    sun stands, as much as the air lets through of its beam.

    ``beam`` and ``diffuse`` on the flat, ``above`` the beam square to the sun above the air.
    """
    ratio = np.maximum(incidence, 0.0) / np.maximum(height, _LEAST_COS)
    square = beam / np.maximum(height, _LEAST_COS)
    through = np.clip(square / above, 0.0, 1.0)
    sky = diffuse * (through * ratio + (1.0 - through) * (1.0 + np.cos(tilt)) / 2.0)
    found: Array = beam * ratio + sky + (beam + diffuse) * albedo * (1.0 - np.cos(tilt)) / 2.0
    return found


def on_plane(
    latitude: float,
    day: Array,
    total: Array,
    steps: int,
    tilt: float,
    azimuth: float,
    albedo: float = 0.2,
) -> Array:
    """Light on a plane in each step of days with these sums on the flat (kWh/m2)."""
    most = above_the_air(latitude, day)
    clearness = np.where(most > 0.0, total / np.where(most > 0.0, most, 1.0), 0.0)
    part = diffuse_share(clearness, sunset(latitude, day))
    of_all, of_diffuse = over_the_day(latitude, day, steps)
    whole = total * of_all
    diffuse = np.minimum(total * part * of_diffuse, whole)
    height, incidence = cos_incidence(latitude, day, steps, tilt, azimuth)
    above = SOLAR_CONSTANT_KW * distance_factor(day)
    return transposed(whole - diffuse, diffuse, height, incidence, above, tilt, albedo)


def cell_warmth(light: Array, air_c: Array, u0: float, u1: float, wind: float) -> Array:
    """Temperature of the cells in degC: Ta + G / (u0 + u1 v) (Faiman 2008; IEC 61853)."""
    found: Array = air_c + 1000.0 * light / (u0 + u1 * wind)
    return found
