"""What parts that power passes through are made for, what protects them and what they carry."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.answers.behind import Behind, carried_a, device_before
from linework.study.studies import Studies
from linework.study.wires.rated import Rated, ends_of, rated_parts
from tests.designs import situation_of
from tests.findings.camps import caravan, house

PLUGGED = {"G1": "running", "XP1": "XD1"}


def studied(draft: Draft, **positions: str) -> Studies:
    situation = situation_of(draft, **positions)
    return Studies(situation.circuit, situation.state)


def rated(draft: Draft, studies: Studies) -> dict[str, Rated]:
    return {item.part: item for item in rated_parts(studies.circuit, draft.design)}


def test_each_by_its_rating_or_its_configuration_fit_for_circuits_of_20_a_where_small() -> None:
    draft = caravan()
    draft.part("plug", "XP9", configuration="5-15")
    found = rated(draft, studied(draft, **PLUGGED, XP9="unplugged"))
    assert {part: (r.amps, r.device_a, r.bare_a) for part, r in found.items()} == {
        "XD1": (30.0, 30.0, 30.0),
        "XD2": (20.0, 20.0, 20.0),
        "XP1": (30.0, 30.0, 30.0),
        "XI1": (30.0, 30.0, 30.0),
        "QP1": (found["QP1"].amps, found["QP1"].amps, found["QP1"].amps),
        "XP9": (15.0, 20.0, 20.0),
    }
    assert not found["QP1"].given
    assert found["XP1"].plugs
    assert not found["QP1"].plugs


def test_they_are_worked_out_once_for_a_circuit() -> None:
    draft = caravan()
    studies = studied(draft, **PLUGGED)
    circuit = studies.circuit
    assert rated_parts(circuit, draft.design) is rated_parts(circuit, draft.design)


def test_what_is_plugged_into_a_face() -> None:
    assert ends_of(caravan().design, "XD1") == ["XP1"]
    assert ends_of(caravan().design, "XD2") == []


def test_the_device_before_a_part_and_what_lies_behind_it() -> None:
    draft = caravan()
    studies = studied(draft, **PLUGGED)
    situation, found = studies.situation, rated(draft, studies)
    inlet = device_before(situation, found["XI1"])
    assert isinstance(inlet, Behind)
    assert inlet.device.owner == "QF1"
    outlet = device_before(situation, found["XD1"])
    assert isinstance(outlet, Behind)
    assert outlet.order(situation) < inlet.order(situation)
    ahead = inlet.ahead(situation)
    assert ahead is not None
    assert {studies.circuit.devices[i].owner for i in ahead.devices} == {"QP1"}


def test_nothing_protects_what_nothing_feeds() -> None:
    draft = caravan()
    studies = studied(draft, G1="running", XP1="unplugged")
    assert device_before(studies.situation, rated(draft, studies)["XI1"]) is False


def test_a_board_carries_what_its_feed_brings() -> None:
    """By hand: 1,200 W at 120 V are 10 A."""
    draft = house()
    studies = studied(draft)
    board = rated(draft, studies)["QP1"]
    assert carried_a(studies, draft.design, board) == pytest.approx(10.0, rel=0.03)
