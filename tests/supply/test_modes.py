"""Which state serves a mode best, and what hangs on what there."""

from __future__ import annotations

from pathlib import Path

import pytest

from linework.circuit import expand
from linework.design import Draft
from linework.storage import load
from linework.supply.answers import scene_of
from linework.supply.modes import Mode, standings
from tests.supply.plants import PLACE, WIRE, cabin, with_set
from tests.trial.rigs.houses import house_with_interlock

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
STILL, RUN, SHORE = Mode(), Mode(run=True), Mode(shore=True)


def test_the_trailer_stands_as_a_person_would_have_it():
    design = load(SAMPLES / "vaccination-trailer.linework")
    found = standings(expand(design))
    assert set(found) == {STILL, RUN, SHORE}
    at = {mode: dict(standing.choice) for mode, standing in found.items()}
    assert at[STILL]["XP1", "plug"] == at[STILL]["XP2", "plug"] == "unplugged"
    assert (at[RUN]["G1", "set"], at[RUN]["XP2", "plug"]) == ("running", "XD3")
    assert (at[RUN]["QT1", "lever"], at[SHORE]["QT1", "lever"]) == ("2", "1")
    assert at[SHORE]["XP1", "plug"] == "XD1"


def test_what_hangs_on_what_in_the_trailer():
    scene = scene_of(load(SAMPLES / "vaccination-trailer.linework"))
    plant = scene.plant
    assert plant.banks == (("GB1",),)
    named = {
        mode: {plant.owners[i]: onto for i, onto in wiring.loads.items()}
        for mode, wiring in plant.wirings.items()
    }
    assert "MA1" not in named[STILL]  # the air conditioner needs shore or the set
    assert named[RUN]["MA1"].firm == named[SHORE]["MA1"].firm == 0
    assert named[STILL]["EA1"].converter == 0  # the vaccines through the inverter
    assert named[STILL]["EL1"].banks == named[RUN]["EL1"].banks == ((0, 1.0),)
    still, run = plant.wirings[STILL], plant.wirings[RUN]
    assert [c.suns for c in still.charges] == [("GP1",)]
    assert {c.firm for c in run.charges} == {0, None}
    assert run.firm == (("G1",),)
    assert not run.converters  # its inverter passes through


def test_a_string_of_batteries_is_one_bank_of_their_voltage():
    scene = scene_of(load(SAMPLES / "mountain-hut.linework"))
    assert scene.plant.banks == (("GB1", "GB2", "GB3", "GB4"),)
    assert scene.plant.volts == (48.0,)


def test_an_inverter_hangs_on_the_bank_and_its_loads_on_it():
    d = cabin()
    d.part("inverter", "TB1", power="500 VA", neutral="bonded")
    d.part("load", "EA2", power="100 W")
    d.run("GB1.dc", "TB1.dc", **WIRE)
    d.run("TB1.ac_out", "EA2.in", **WIRE)
    (wiring,) = scene_of(d.design).plant.wirings.values()
    ((converter, onto),) = wiring.converters
    assert (converter.watts, converter.idle_w) == (pytest.approx(500.0), 12.0)
    assert onto.banks == ((0, 1.0),)


def two_banks() -> Draft:
    """A starter battery with its alternator, and a house battery behind a DC-DC charger."""
    d = cabin(array="", place="vehicle")
    d.part("battery", "GB2", voltage="12 V", capacity="80 Ah", chemistry="flooded")
    d.part("alternator", "G2", current="100 A")
    d.part("dc_charger", "TB2", current="30 A")
    d.run("G2.dc", "GB2.dc", **WIRE)
    d.run("GB2.dc", "TB2.dc_in", **WIRE)
    d.run("TB2.dc", "GB1.dc", **WIRE)
    return d


def test_two_banks_are_linked_while_the_engine_turns():
    scene = scene_of(two_banks().design)
    assert scene.plant.banks == (("GB1",), ("GB2",))
    for mode, wiring in scene.plant.wirings.items():
        links = [c for c in wiring.charges if c.link is not None]
        assert [(c.link, c.banks) for c in links] == [(1, ((0, 1.0),))]
        assert any(c.alternator for c in wiring.charges) is mode.engine


def test_a_set_that_only_charges():
    scene = scene_of(with_set(cabin()).design)
    assert set(scene.plant.wirings) == {STILL, RUN}
    firm = [c for c in scene.plant.wirings[RUN].charges if c.firm is not None]
    assert [c.watts for c in firm] == [pytest.approx(40.0 * 13.5)]


def test_a_board_that_the_sun_feeds_without_a_battery():
    d = Draft(place="field", **PLACE)
    d.part("solar_array", "GP1", voc="22 V", isc="12 A", power="200 W")
    d.part("solar_controller", "TC1", current="30 A", pv_voltage="100 V")
    d.part("motor", "MA1", circuit="dc", voltage="12 V", power="60 W")
    d.run("GP1.dc", "TC1.pv", **WIRE)
    d.run("TC1.dc", "MA1.in", **WIRE)
    scene = scene_of(d.design)
    (wiring,) = scene.plant.wirings.values()
    assert scene.plant.banks == ((),)
    assert [onto.banks for onto in wiring.loads.values()] == [((0, 1.0),)]
    assert [c.suns for c in wiring.charges] == [("GP1",)]


def test_a_supply_that_cannot_be_parted_is_always_there():
    d = Draft(place="building", **PLACE)
    d.part("supply", "GS1", outage="no")
    d.part("load", "EA1", power="100 W")
    d.run("GS1.out", "EA1.in", **WIRE)
    found = standings(expand(d.design))
    assert all(mode.shore for mode in found)


def test_an_interlock_is_moved_out_of_the_way():
    """A house whose main and set are barred from each other: on shore the main is closed, though
    the breaker of the set must be opened first."""
    found = standings(expand(house_with_interlock().design))
    for mode in (RUN, SHORE):
        assert len(found[mode].energised.fed) == 4, mode
    assert not found[STILL].energised.fed
