"""Adapters, cord sets and bonding plugs in the outlets they sit in."""

from __future__ import annotations

import pytest

from linework.circuit import expand
from linework.codes.conductors import resistance
from linework.design import Draft, EditError
from linework.kinds import kinds
from linework.kinds.cord_set import conductor_ohm
from linework.study.energised import energised
from linework.study.loads.loaded import loaded
from linework.study.neutral.bonds import neutral_systems
from linework.study.ways.paths import volts_between
from tests.designs import situation_of
from tests.kinds.cases import rated

SPLIT = {"circuit": "split"}


def outlet_on_a_set(split: bool, configuration: str, **generator: str) -> Draft:
    """A set with one breaker and one outlet in its own panel."""
    d = Draft(place="field")
    circuit = SPLIT if split else {}
    d.part("generator", "G1", **({"power": "6 kVA", "neutral": "bonded"} | circuit | generator))
    d.part("breaker", "QF1", rating="30 A", **circuit)
    d.part("outlet", "XD1", configuration=configuration, **circuit)
    d.seat("QF1", "G1", "1")
    d.seat("XD1", "QF1", "load")
    return d


@pytest.mark.parametrize(
    ("split", "outlet_circuit", "leg", "volts"),
    [
        # what stands between the contacts of its outlet end, by hand
        (False, "ac", "L1", {("L", "N"): 120.0}),
        (False, "split", "L1", {("L1", "N"): 120.0, ("L2", "N"): 120.0, ("L1", "L2"): 0.0}),
        (True, "ac", "L2", {("L", "N"): 120.0}),
        (True, "split", "L1", {("L1", "N"): 120.0, ("L1", "L2"): 240.0}),
        (True, "ac240", "L1", {("L1", "L2"): 240.0}),
    ],
)
def test_what_an_adapter_brings(
    split: bool, outlet_circuit: str, leg: str, volts: dict[tuple[str, str], float]
) -> None:
    d = outlet_on_a_set(split, "14-50" if split else "TT-30")
    circuit = "split" if split else "ac"
    d.part("adapter", "XA1", circuit=circuit, outlet_circuit=outlet_circuit, leg=leg)
    d.seat("XA1", "XD1", "face")
    situation = situation_of(d, G1="running")
    face = situation.circuit.terminals["XA1", "face"]
    for (a, b), expected in volts.items():
        assert volts_between(situation, face[a], face[b]) == pytest.approx(expected)
    if split and outlet_circuit == "ac":
        assert (
            situation.clusters[face["L"]]
            == situation.clusters[situation.circuit.terminals["XD1", "face"][leg]]
        )


def test_an_adapter_without_ground_leaves_the_contact_open() -> None:
    for ground, joined in (("through", True), ("none", False)):
        d = outlet_on_a_set(False, "5-15")
        d.part("adapter", "XA1", ground=ground)
        d.seat("XA1", "XD1", "face")
        situation = situation_of(d, G1="running")
        ends = [
            situation.circuit.terminals[p, t]["PE"] for p, t in (("XA1", "face"), ("G1", "frame"))
        ]
        assert (situation.metallic[ends[0]] == situation.metallic[ends[1]]) is joined


def test_an_adapter_of_two_legs_does_not_enter_an_outlet_of_one() -> None:
    d = outlet_on_a_set(False, "TT-30")
    d.part("adapter", "XA1", circuit="split", outlet_circuit="ac")
    with pytest.raises(EditError, match="L1"):
        d.seat("XA1", "XD1", "face")


def test_a_breaker_in_an_adapter_is_a_device() -> None:
    d = outlet_on_a_set(False, "TT-30")
    d.part("adapter", "XA1", breaker="15 A")
    d.seat("XA1", "XD1", "face")
    devices = {x.owner: x.data.rating_a for x in expand(d.design).devices}
    assert devices == {"QF1": 30.0, "XA1": 15.0}


@pytest.mark.parametrize("kind", ["adapter", "bond_plug"])
def test_pins_are_bare_only_while_they_are_in_no_outlet(kind: str) -> None:
    d = outlet_on_a_set(False, "5-15")
    d.part(kind, "X1")
    assert [p.owner for p in expand(d.design).pins] == ["X1"]
    d.seat("X1", "XD1", "face")
    assert expand(d.design).pins == ()


def test_a_cord_set_is_moved_by_hand_as_a_plug_is() -> None:
    d = outlet_on_a_set(False, "5-15")
    d.part("cord_set", "WX1", size="12 AWG", length="25 ft")
    d.seat("WX1", "XD1", "face")
    part = d.design.by_designation("WX1").id
    assert expand(d.design).selectors[part, "plug"].positions == ("unplugged", "XD1")


def test_the_pins_of_a_cord_set_fed_from_its_outlet_end_are_live() -> None:
    """Fed the wrong way round, by a cord with plugs at both ends."""
    d = outlet_on_a_set(False, "5-15")
    d.part("plug", "XP1")
    d.seat("XP1", "XD1", "face")
    d.part("cord_set", "WX1", size="12 AWG", length="25 ft")
    d.run("XP1.cord", "WX1.face", size="12 AWG", length="1 ft")
    (live,) = energised(situation_of(d, G1="running", XP1="XD1")).live_pins
    assert (live.owner, live.sources) == ("WX1", ("G1",))


# cord sets


@pytest.mark.parametrize("size", ["16 AWG", "14 AWG", "12 AWG", "10 AWG", "6 AWG"])
def test_the_resistance_of_a_cord_set_is_that_of_the_table(size: str) -> None:
    """NFPA 70 chapter 9 table 8 (75 C), by the module that reads it."""
    kind = kinds()["cord_set"]
    ohm = conductor_ohm(rated(kind, size=size, length="100 m"))
    for at, found, contact in ((20.0, ohm.low, 10e-6), (75.0, ohm.high, 1e-3)):
        table = resistance(size, "copper", "stranded", at).value
        assert (found - contact) / 100.0 == pytest.approx(table, rel=0.02)


def test_the_drop_in_a_cord_set() -> None:
    """By hand: 1 kW nominal (14.4 ohm) behind 100 ft of 16 AWG, 4.99 ohm per 1000 ft at 75 C
    (NFPA 70 chapter 9 table 8), out and back, with two contacts of 1 milliohm."""
    d = outlet_on_a_set(False, "5-15")
    d.part("cord_set", "WX1", size="16 AWG", length="100 ft")
    d.seat("WX1", "XD1", "face")
    d.part("plug_load", "EP1", power="1000 W")
    d.seat("EP1", "WX1", "face")
    found = loaded(situation_of(d, G1="running", WX1="XD1"))
    share = 14.4 / (14.4 + 2.0 * (0.499 + 1e-3))
    assert found.load_v[0] == pytest.approx(120.0 * share, rel=3e-3)


def test_cord_sets_and_adapters_follow_one_another() -> None:
    d = outlet_on_a_set(False, "TT-30")
    d.part("adapter", "XA1", configuration="TT-30", connector="5-15")
    d.part("cord_set", "WX1", size="12 AWG", length="25 ft")
    d.part("plug_load", "EP1", power="100 W")
    d.seat("XA1", "XD1", "face")
    d.seat("WX1", "XA1", "face")
    d.seat("EP1", "WX1", "face")
    assert energised(situation_of(d, G1="running", WX1="XA1")).fed == {0: ("G1",)}
    assert not energised(situation_of(d, G1="running", WX1="unplugged")).fed


# the bonding plug


@pytest.mark.parametrize(("plugged", "number"), [(True, 1), (False, 0)])
def test_a_bonding_plug_bonds_the_whole_set(plugged: bool, number: int) -> None:
    d = outlet_on_a_set(False, "TT-30", neutral="floating")
    d.part("breaker", "QF2", rating="20 A")
    d.part("outlet", "XD2", configuration="5-20")
    d.seat("QF2", "G1", "2")
    d.seat("XD2", "QF2", "load")
    d.part("bond_plug", "XQ1")
    if plugged:
        d.seat("XQ1", "XD2", "face")
    (system,) = neutral_systems(situation_of(d, G1="running"))
    assert [b.owner for b in system.bonds] == ["XQ1"] * number
    assert system.ring == ()


def test_a_cord_set_goes_on_the_pins_of_an_inlet() -> None:
    d = outlet_on_a_set(False, "TT-30")
    d.part("cord_set", "WX1", configuration="TT-30", size="10 AWG", length="25 ft")
    d.part("inlet", "XI1", configuration="TT-30")
    d.part("load", "EA1", power="1 kW")
    d.run("XI1.inside", "EA1.in", size="10 AWG", length="6 ft")
    d.seat("WX1", "XD1", "face")
    assert not energised(situation_of(d, G1="running", WX1="XD1")).fed
    d.seat("XI1", "WX1", "face")
    live = energised(situation_of(d, G1="running", WX1="XD1"))
    assert live.fed
    assert not live.live_pins
    with pytest.raises(EditError):
        d.seat("XI1", "XD1", "face")
