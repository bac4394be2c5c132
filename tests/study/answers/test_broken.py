"""What devices have to break."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.answers.broken import Broken, worst_broken
from linework.study.studies import Studies
from tests.designs import situation_of
from tests.findings.camps import house


def told(draft: Draft) -> dict[str, list[Broken]]:
    situation = situation_of(draft)
    studies = Studies(situation.circuit, situation.state)
    devices = situation.circuit.devices
    return {devices[i].owner: worst for i, worst in worst_broken(studies).items()}


def test_the_strongest_short_at_its_load_side_counts() -> None:
    """No more than the supply can drive, and more than the far end of its circuit sees."""
    situation = situation_of(house())
    studies = Studies(situation.circuit, situation.state)
    (worst,) = told(house())["QF1"]
    strong = [f.strong for f in studies.faults if f.point.part in ("QF1", "EA1")]
    assert worst.amps == max(s.device_a.get(i) for s in strong for i, _ in s.device_a.pairs())
    assert worst.amps < 5000.0
    assert worst.volts == pytest.approx(120.0, rel=0.05)
    assert worst.hertz == 60.0


def test_it_is_worked_out_once_for_a_state() -> None:
    situation = situation_of(house())
    studies = Studies(situation.circuit, situation.state)
    assert worst_broken(studies) is worst_broken(studies)


def test_a_short_whose_cable_is_not_known_is_not_counted() -> None:
    draft = house()
    draft.rate_run("W1", length=None)
    assert "QF1" not in told(draft)
