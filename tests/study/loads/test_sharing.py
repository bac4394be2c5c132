"""An inverter-charger with an input limit charges with what its loads leave."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.loads.loaded import Loaded, loaded
from tests.designs import situation_of
from tests.findings.told import cured, found


def aboard(limit: str | None = None, load: str = "1200 W") -> Draft:
    """A supply of 15 A, an inverter-charger of 100 A at 12 V, a load behind it."""
    d = Draft(place="vehicle")
    d.part("supply", "GS1", breaker="15 A", prospective="2 kA", outage="no")
    d.part("inverter_charger", "TB1", power="2 kVA", charge="100 A", neutral="relay")
    d.rate("TB1", input_limit=limit)
    d.part("battery", "GB1", capacity="400 Ah", fault_current="5 kA")
    d.part("load", "EA1", power=load)
    d.run("GS1.out", "TB1.ac_in", "W1", size="10 AWG", length="3 ft")
    d.run("GB1.dc", "TB1.dc", "W2", size="4/0 AWG", length="2 ft")
    d.run("TB1.ac_out", "EA1.in", "W3", size="10 AWG", length="3 ft")
    return d


def amps(d: Draft) -> tuple[Loaded, float, float]:
    """The solution, what the supply gives and what the charger gives, in ampere."""
    situation = situation_of(d, TB1="on")
    solved = loaded(situation)
    assert solved.solved, solved.cause
    by_name = {situation.circuit.sources[i].data.name: abs(a) for i, a in solved.source_a.items()}
    return solved, by_name["source L"], by_name["charger"]


def test_without_a_limit_it_charges_in_full() -> None:
    """13.5 V at 100 A over 90 % is 1500 W; at a power factor of 0.95 some 13 A beside 10 A."""
    _, supply, charger = amps(aboard())
    assert charger == pytest.approx(100.0)
    assert supply == pytest.approx(1500 / 0.95 / 120 + 10, rel=0.02)


def test_with_a_limit_the_loads_come_first() -> None:
    """Of 15 A the load leaves 5 A: 570 W at a power factor of 0.95, 513 W after 90 %, 38 A at
    13.5 V."""
    _, supply, charger = amps(aboard("15 A"))
    assert charger == pytest.approx(5 * 120 * 0.95 * 0.9 / 13.5, rel=0.02)
    assert supply == pytest.approx(15.0, rel=0.02)


def test_loads_beyond_the_limit_leave_nothing() -> None:
    _, supply, charger = amps(aboard("15 A", "2400 W"))
    assert charger == pytest.approx(0.0, abs=1e-6)
    assert supply == pytest.approx(20.0, rel=0.02)


def test_a_limit_that_is_not_reached_changes_nothing() -> None:
    _, _, charger = amps(aboard("30 A"))
    assert charger == pytest.approx(100.0)


@pytest.mark.parametrize(("limit", "told"), [(None, True), ("15 A", False)])
def test_the_breaker_at_the_dock_holds_with_the_limit(limit: str | None, told: bool) -> None:
    d = aboard(limit)
    hits = found(d, "source-overloaded")
    assert bool(hits) is told
    for hit in hits:
        assert not [f for f in cured(d, hit).findings if f.rule == "source-overloaded"]
        assert d.design.part("TB1").ratings["input_limit"] == "15 A"
