"""How much of a current flows for hours."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.studies import Studies
from tests.designs import situation_of


def share(draft: Draft, run: str, **positions: str) -> float:
    """The long share on the first conductor of a run."""
    situation = situation_of(draft, **positions)
    studies = Studies(situation.circuit, situation.state)
    amps, long = studies.demand.amps(situation.circuit.branches_of[run][0])
    return long / amps


def board() -> Draft:
    """600 W for hours and 200 W for minutes behind one board."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="30 A", outage="no")
    draft.part("panel", "QP1", bond="absent")
    draft.run("GS1.out", "QP1.feed", "W1", size="10 AWG", length="1 ft")
    for n, power, long in ((1, "600 W", "yes"), (2, "200 W", "no")):
        draft.part("breaker", f"QF{n}", rating="20 A")
        draft.seat(f"QF{n}", "QP1", str(n))
        draft.part("load", f"EA{n}", power=power, continuous=long)
        draft.run(f"QF{n}.load", f"EA{n}.in", f"W{n + 1}", size="12 AWG", length="1 ft")
    return draft


def test_each_branch_by_what_it_feeds() -> None:
    draft = board()
    assert share(draft, "W2") == pytest.approx(1.0)
    assert share(draft, "W3") == 0.0
    assert share(draft, "W1") == pytest.approx(0.75, abs=1e-3)


def test_nothing_long_is_nothing() -> None:
    draft = board()
    draft.rate("EA1", continuous="no")
    assert share(draft, "W1") == 0.0


def test_an_inverter_passes_it_on_to_its_battery() -> None:
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", capacity="200 Ah")
    draft.part("fuse", "F1", rating="200 A", type="class_t")
    draft.part("inverter_charger", "TB1", power="2 kVA", neutral="relay")
    draft.run("GB1.dc", "F1.line", "W1", size="4/0 AWG", length="1 ft")
    draft.run("F1.load", "TB1.dc", "W2", size="4/0 AWG", length="1 ft")
    draft.part("load", "EA1", power="300 W", continuous="yes")
    draft.run("TB1.ac_out", "EA1.in", "W3", size="12 AWG", length="1 ft")
    assert share(draft, "W2", TB1="on") == pytest.approx(1.0)


def test_what_the_wires_lose_takes_nothing_off() -> None:
    # 600 W at 120 V are 5 A, though 400 ft of wire let only 4.5 A pass
    draft = board()
    draft.rate_run("W2", size="14 AWG", length="400 ft")
    situation = situation_of(draft)
    studies = Studies(situation.circuit, situation.state)
    branch = situation.circuit.branches_of["W2"][0]
    assert studies.loaded.amps(branch) < 4.6
    assert studies.demand.amps(branch) == (pytest.approx(5.0), pytest.approx(5.0))


def test_what_charges_a_battery_does_not_grow_with_the_loads_beside_it() -> None:
    """25 A of an alternator on a bank; 30 ft of thin wire let a load of 48 W take less."""
    draft = Draft(place="recreational")
    draft.part("alternator", "G1", current="25 A")
    draft.part("battery", "GB1", capacity="100 Ah")
    draft.part("load", "EA1", circuit="dc", voltage="12 V", power="48 W")
    draft.run("G1.dc", "GB1.dc", "W1", size="4 AWG", length="3 ft")
    draft.run("GB1.dc", "EA1.in", "W3", size="18 AWG", length="30 ft")
    situation = situation_of(draft, G1="running")
    studies = Studies(situation.circuit, situation.state)
    drawn = studies.loaded.load_a[0]
    assert drawn < 3.7
    amps, _ = studies.demand.amps(situation.circuit.branches_of["W1"][0])
    assert amps == pytest.approx(25.0 + 4.0 - drawn)
