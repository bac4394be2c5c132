"""Load current on a ground wire."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.told import found, number, places

RULE = "ground-carries-load"


def shed(poles: str = "") -> Draft:
    """A supply, a feeder, a panel, a load of 1200 W."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="20 A", prospective="5 kA")
    draft.part("panel", "QP1", bond="absent")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("load", "EA1", power="1200 W")
    draft.seat("QF1", "QP1", "1")
    draft.run("GS1.out", "QP1.feed", "W1", poles=poles, size="12 AWG", length="50 ft")
    draft.run("QF1.load", "EA1.in", "W2", size="12 AWG", length="10 ft")
    return draft


def test_an_ordinary_circuit_carries_nothing_on_its_ground_wire() -> None:
    assert found(shed(), RULE) == []


def test_neutral_and_ground_exchanged_make_the_ground_wire_the_way_back() -> None:
    hits = found(shed("L>L N>PE PE>N"), RULE)
    assert [hit.level for hit in hits] == [Level.DANGER]
    assert hits[0].subjects == ("W1",)


def test_a_second_link_shares_the_current_and_explains_it() -> None:
    draft = shed()
    draft.rate("QP1", bond="fitted")
    hits = found(draft, RULE)
    assert [hit.level for hit in hits] == [Level.WARNING]
    assert places(draft, "bond-doubled") == {("QP1",)}
    # equal neutral and ground wires share the current half and half, but for the link's resistance
    assert number(hits[0], "current on the {ground_wire}") == pytest.approx(5.0, abs=0.25)
