"""What a controller gives in the sun, and that nothing of it is there at night."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.loads.loaded import Loaded, loaded
from linework.study.loads.sun import yields
from linework.study.situation import Situation
from tests.designs import situation_of


def roof(series: str = "2", strings: str = "1", **controller: str) -> Draft:
    """Modules of 99 W on a controller that charges a 12 V battery with a load on it."""
    d = Draft(place="vehicle")
    plate = {"voc": "22 V", "isc": "6 A", "vmp": "18 V", "imp": "5.5 A", "coldest": "-10 degC"}
    d.part("solar_array", "GP1", series=series, strings=strings, **plate)
    d.part("solar_controller", "TC1", **({"current": "20 A", "pv_voltage": "100 V"} | controller))
    d.part("battery", "GB1")
    d.part("load", "EA1", circuit="dc", power="60 W")
    d.run("GP1.dc", "TC1.pv", "W1", size="10 AWG", length="1 ft")
    d.run("TC1.dc", "GB1.dc", "W2", size="8 AWG", length="1 ft")
    d.run("GB1.dc", "EA1.in", "W3", size="12 AWG", length="1 ft")
    return d


def only(situation: Situation) -> Loaded:
    found = loaded(situation)
    assert found.solved, found.cause
    assert all(check.sound for check in found.checks)
    return found


def amps(draft: Draft, run: str, sun: str = "day") -> float:
    situation = situation_of(draft, GP1=sun)
    (index,) = (
        i for i, b in enumerate(situation.circuit.branches) if (b.owner, b.pole) == (run, "+")
    )
    return only(situation).amps(index)


def test_a_controller_gives_what_the_array_yields() -> None:
    """By hand: two modules of 99 W, 97 % of it at 12 V and the drop of a foot of cable."""
    found = only(situation_of(roof(), GP1="day"))
    assert amps(roof(), "W2") == pytest.approx(0.97 * 198.0 / 12.0, rel=0.02)
    assert found.source_w[0] < 0.0  # the battery is charged
    assert amps(roof(), "W1") == pytest.approx(5.5, rel=0.01)


def test_and_no_more_than_its_rating() -> None:
    assert amps(roof(strings="4"), "W2") == pytest.approx(20.0)
    # By hand: 278.4 W (20 A at 13.5 V over 97 %) from 50.16 V behind (50.16 - 36) / 22 ohm are
    # 6.01 A at 46.3 V: an array that is not used to the full stands above its knee.
    assert amps(roof(strings="4"), "W1") == pytest.approx(6.01, abs=0.02)


def test_a_controller_that_changes_no_voltage_gives_the_current_of_the_array() -> None:
    assert amps(roof(series="1", type="pwm"), "W2") == pytest.approx(5.5)
    assert amps(roof(series="1", type="pwm"), "W1") == pytest.approx(5.5, rel=0.01)


def test_power_is_kept() -> None:
    """What the array gives less what the cable loses is what the controller gives, over 97 %."""
    situation = situation_of(roof(), GP1="day")
    found = only(situation)
    owner = {s.owner: i for i, s in enumerate(situation.circuit.sources)}
    lost = sum(
        found.amps(i) ** 2 * b.r_hot
        for i, b in enumerate(situation.circuit.branches)
        if b.owner == "W1"
    )
    taken = found.source_w[owner["GP1"]] - lost
    assert found.source_w[owner["TC1"]] == pytest.approx(0.97 * taken, rel=1e-3)


def test_at_night_the_battery_feeds_the_load() -> None:
    found = only(situation_of(roof(), GP1="night"))
    assert amps(roof(), "W2", "night") == pytest.approx(0.0, abs=1e-9)
    assert found.source_w[0] == pytest.approx(60.0, rel=0.03)


def test_nothing_flows_back_into_the_array() -> None:
    situation = situation_of(roof(common="none"), GP1="night")
    node = situation.circuit.terminals["GP1", "dc"]["+"]
    assert situation.feeds(node) == []


@pytest.mark.parametrize("feet", [120, 400])
def test_what_a_long_cable_loses_does_not_arrive(feet: int) -> None:
    """By hand: 5.5 A at 36 V less both ways of 10 AWG, 1.24 ohm for 1000 ft at 75 C."""
    draft = roof()
    draft.rate_run("W1", length=f"{feet} ft")
    arriving = 5.5 * (36.0 - 2 * feet * 1.24e-3 * 5.5)
    assert amps(draft, "W1") == pytest.approx(5.5, rel=0.01)
    assert amps(draft, "W2") == pytest.approx(0.97 * arriving / 12.0, rel=0.02)


def test_arrays_drawn_one_by_one_in_series_yield_what_one_of_two_modules_does() -> None:
    draft = roof(series="1")
    draft.part("solar_array", "GP2", **draft.design.part("GP1").ratings)
    draft.cut("W1")
    for name, ends, poles in (
        ("W1", ("GP1.dc", "TC1.pv"), "+"),
        ("W4", ("GP1.dc", "GP2.dc"), "->+"),
        ("W5", ("GP2.dc", "TC1.pv"), "-"),
    ):
        draft.run(*ends, name, poles=poles, size="10 AWG", length="0.5 ft")
    situation = situation_of(draft, GP1="day", GP2="day")
    (made,) = yields(situation).values()
    assert (made.array_a, made.array_w) == pytest.approx((5.5, 198.0), rel=0.01)
