from __future__ import annotations

import doctest

import pytest

from linework.design import Draft, EditError, End
from linework.design import draft as module
from linework.kinds import Band
from linework.wiring import Pole


def test_the_example_is_true() -> None:
    result = doctest.testmod(module)
    assert result.attempted > 3
    assert result.failed == 0


def test_settings_are_checked() -> None:
    draft = Draft(place="field", voltage="230 V", wet=True)
    assert (draft.design.settings.place, draft.design.settings.wet) == ("field", True)
    with pytest.raises(EditError, match="place"):
        Draft(place="moon")
    with pytest.raises(EditError, match="no setting"):
        Draft(colour="red")


def test_a_part_is_called_by_its_designation() -> None:
    draft = Draft()
    made = draft.part("generator", "G1", "set", at=(25, 50), reactance=Band("0.1", "0.2", "0.3"))
    assert (made.id, made.designation, made.title, made.x, made.y) == ("G1", "G1", "set", 25, 50)
    assert draft.design.part("G1") == made
    with pytest.raises(EditError, match="G1 is taken"):
        draft.part("lamp", "G1")


def test_a_run_is_written_by_its_ends() -> None:
    draft = Draft()
    draft.part("generator", "G1")
    draft.part("outlet", "X.1")  # a point in a name is no hindrance
    first = draft.run("G1.out", "X.1.feed", size="12 AWG")
    assert (first.id, first.designation) == ("W1", "W1")
    assert (first.a, first.b) == (End("G1", "out"), End("X.1", "feed"))
    second = draft.run("G1.out", "X.1.feed", "cord", poles="L>N N>L PE")
    assert second.designation == "cord"
    assert second.poles == ((Pole.L, Pole.N), (Pole.N, Pole.L), (Pole.PE, Pole.PE))
    with pytest.raises(ValueError, match="X"):
        draft.run("G1.out", "X.1.feed", poles="X>N")
    with pytest.raises(KeyError):
        draft.run("G9.out", "X.1.feed")


def test_edits_by_name() -> None:
    draft = Draft()
    draft.part("panel", "QP1")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("load", "EA1")
    draft.seat("QF1", "QP1", "2")
    run = draft.run("QF1.load", "EA1.in", "feeder", size="12 AWG")
    assert [s.place for s in draft.design.seats_of("QF1")] == ["2"]
    draft.rate("EA1", power="1 kW")
    assert draft.design.part("EA1").ratings["power"] == "1 kW"
    draft.rate("EA1", power=None)
    assert dict(draft.design.part("EA1").ratings) == {}
    draft.rate_run("feeder", size=None, length="1 m")
    assert dict(draft.design.runs[0].ratings) == {"length": "1 m"}
    draft.run_poles("feeder", "L N")
    assert draft.design.runs[0].poles == ((Pole.L, Pole.L), (Pole.N, Pole.N))
    draft.cut("feeder")
    assert run.id not in draft.design
    draft.remove("QF1", "EA1")
    assert [part.id for part in draft.design.parts] == ["QP1"]
    assert draft.design.seats == []
    with pytest.raises(KeyError):
        draft.cut("feeder")
