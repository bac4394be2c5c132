"""Published examples of energy, batteries over time and fuel."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linework.data import Confidence
from linework.design import Draft
from linework.supply.answers import scene_of
from linework.supply.assumed import assumptions
from linework.supply.assumptions import usual
from linework.supply.figures import FuelLine
from linework.supply.ledger import Ledger, ledger_of
from linework.supply.simulate import simulate
from linework.supply.weather import Days
from tests.examples.published import COMPANIONS, published

WIRE = {"size": "6 AWG", "length": "3 ft"}


def field(capacity: str, usable: str = "100 %", **loads: dict[str, str]) -> Draft:
    """A lead battery of 12 V, warm and without losses worth naming, and loads on it."""
    d = Draft(place="field", climate="denver")
    d.part("battery", "GB1", voltage="12 V", capacity=capacity, chemistry="agm", usable=usable)
    for name, ratings in loads.items():
        d.part("load", name, circuit="dc", voltage="12 V", **ratings)
        d.run("GB1.dc", f"{name}.in", **WIRE)
    return d


def dark(d: Draft, days: int) -> Ledger:
    """The books of some warm days without sun, the battery giving back all."""
    scene = scene_of(d.design)
    draw = usual(assumptions(scene)) | {"round-trip-agm": np.ones(1)}
    shape = (days, 1, 1)
    some = Days(np.full(shape, 10.0), np.array([0]), np.zeros(shape), np.full(shape, 40.0))
    return ledger_of(scene, simulate(scene, [some], draw, 1), draw, 1)


@published("084", "Batteries-solar weblog", "batteries-solar.blogspot.com")
@pytest.mark.parametrize(("capacity", "lasts"), [("416.66 Ah", True), ("400 Ah", False)])
def test_five_times_a_day_is_two_and_a_half_days_at_half_depth(capacity, lasts) -> None:
    # 1000 Wh a day times 5 over 12 V: 416.66 Ah, half of which carries the load for 2.5 days.
    d = field(capacity, "50 %", EA1={"power": "100 W", "use": "hours", "use_hours": "10 h",
                                     "use_from": "0 h", "use_until": "10 h"})  # fmt: skip
    book = dark(d, 2)  # 2000 Wh, and what is left is the half day
    left = (float(book.least[0, 0, 0]) - 0.5) * float(capacity.split()[0]) * 12.0
    assert (left >= 497.0) is lasts  # a thousandth of it leaks


@published(
    "093",
    "How to size a PV module system for an off-grid application",
    "mediakit2010.com/how-to-size-a-pv-module-system-for-an-off-grid-application",
)
def test_the_energy_of_a_day_in_a_small_cabin() -> None:
    # 200 + 240 + 240 + 400 + 50 = 1130 Wh.
    def hours(watts: str, each: str) -> dict[str, str]:
        return {"power": watts, "use": "hours", "use_hours": each, "use_from": "0 h",
                "use_until": "24 h"}  # fmt: skip

    d = field(
        "400 Ah", EA1=hours("40 W", "5 h"), EA2=hours("60 W", "4 h"), EA3=hours("10 W", "24 h"),
        EA4=hours("50 W", "8 h"), EA5=hours("100 W", "0.5 h"),
    )  # fmt: skip
    assert float(dark(d, 1).served[0, 0]) == pytest.approx(1.130, abs=1e-9)


@published("092", "Basic Electrical Engineering with Numerical Problems, ex. 9.7", COMPANIONS)
def test_energy_that_comes_back_is_the_watt_hour_efficiency() -> None:
    # 30 A, 6 h, 2 V given after 40 A, 5 h, 2.5 V: 72 % of the energy. A cycle of our battery with
    # that figure: what comes out over what goes in at its posts.
    d = field("1000 Ah", EA1={"power": "60 W", "use": "hours", "use_hours": "6 h",
                              "use_from": "0 h", "use_until": "6 h"})  # fmt: skip
    d.part("supply", "GS1", plugged_hours="6 h")
    d.part("charger", "TB9", current="200 A", efficiency="100 %")
    d.run("GS1.out", "TB9.ac_in", **WIRE)
    d.run("TB9.dc", "GB1.dc", **WIRE)
    scene = scene_of(d.design)
    draw = usual(assumptions(scene)) | {"round-trip-agm": np.full(1, 0.72)}
    shape = (40, 1, 1)
    some = Days(np.full(shape, 10.0), np.array([0]), np.zeros(shape), np.full(shape, 40.0))
    (outcome,) = simulate(scene, [some], draw, 1)
    day = slice(96 * 30, 96 * 31)
    given = outcome.served[day].sum()
    taken = outcome.shore[day].sum()
    assert given / taken == pytest.approx(0.72, abs=0.03)  # it leaks and fills up besides


@published(
    "095",
    "Generator fuel consumption; diesel generator fuel consumption chart",
    "fuelconsumption.co.za/generator-fuel-consumption",
)
@pytest.mark.parametrize(("load", "litres"), [(25, 9.8), (50, 15.5), (75, 22.0), (100, 28.0)])
def test_the_fuel_of_a_set_lies_on_a_line(load: int, litres: float) -> None:
    # 2.6, 4.1, 5.8, 7.4 gal/h of a set of 100 kW: the line through the outer two, burnt in our
    # books by a set that carries such a load day and night.
    d = Draft(place="field", climate="denver")
    d.part("generator", "G1", power="200 kVA", neutral="bonded", outlets="0", fuel="diesel",
           quiet_from="0 h", quiet_until="0 h")  # fmt: skip
    d.part("load", "EA1", power=f"{load} kW", use="always")
    d.run("G1.out", "EA1.in", **WIRE)
    scene = scene_of(d.design)
    low, high = 2.6 * 3.785, 7.4 * 3.785
    slope = (high - low) / 75.0
    line = FuelLine(low - 25.0 * slope, slope, "example", Confidence.PUBLISHED)
    sets = {"G1": replace(scene.facts.sets["G1"], line=line)}
    scene = replace(scene, facts=replace(scene.facts, sets=sets))
    draw = usual(assumptions(scene))
    shape = (1, 1, 1)
    some = Days(np.full(shape, 10.0), np.array([0]), np.zeros(shape), np.full(shape, 20.0))
    book = ledger_of(scene, simulate(scene, [some], draw, 1), draw, 1)
    assert float(book.set_h[0, 0]) == 24.0
    assert float(book.litres[0, 0]) / 24.0 == pytest.approx(litres, rel=0.03)
