"""What devices carry."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.answers.carried import Carried, carried, runs_behind
from linework.study.studies import Studies
from tests.designs import situation_of
from tests.findings.camps import house


def studied(draft: Draft, **positions: str) -> Studies:
    situation = situation_of(draft, **positions)
    return Studies(situation.circuit, situation.state)


def told(studies: Studies) -> dict[str, Carried]:
    return {item.device.owner: item for item in carried(studies)}


def test_the_worst_contact_counts_and_what_is_hardly_used_is_left_out() -> None:
    """By hand: 1,200 W at 120 V are 10 A, half of the rating of the breaker behind the main one."""
    found = told(studied(house()))
    assert set(found) == {"QF1"}
    assert found["QF1"].amps == pytest.approx(10.0, rel=0.03)
    assert found["QF1"].rating_a == 20.0


def test_of_a_continuous_load_all_of_it_flows_long() -> None:
    draft = house()
    assert told(studied(draft))["QF1"].long_a == 0.0
    draft.rate("EA1", continuous="yes")
    item = told(studied(draft))["QF1"]
    assert item.long_a == pytest.approx(item.amps)


def test_a_device_protects_the_runs_behind_it_up_to_the_next() -> None:
    studies = studied(house())
    devices = {device.owner: device for device in studies.circuit.devices}
    assert runs_behind(studies, devices["QF1"]) == {"W2"}
    assert runs_behind(studies, devices["GS1"]) == {"W1"}
