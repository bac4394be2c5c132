"""What hangs on a part or run, seen from the sources."""

from __future__ import annotations

from linework.study.answers.downstream import (
    downstream,
    on_conductors,
    parts_links,
    ungrounded,
    watching,
)
from tests.findings.camps import camp
from tests.study.ways.test_protection import live


def test_behind_a_feeder_lies_the_board_with_all_it_feeds() -> None:
    situation = live(camp())
    behind = downstream(situation, ("W1",))
    assert behind == {"W1", "QP1", "QF1", "QF2", "W2", "W3", "EA1", "XD1"}


def test_behind_a_branch_lies_its_load_alone() -> None:
    situation = live(camp())
    assert downstream(situation, ("W2",)) == {"W2", "EA1"}
    assert downstream(situation, ("QF1",)) == {"QF1", "W2", "EA1"}
    assert downstream(situation, ()) == frozenset()


def test_metal_behind_it_loses_its_ground() -> None:
    situation = live(camp())
    assert ungrounded(situation, ("W2",)) == {"EA1"}
    assert ungrounded(situation, ("W1",)) >= {"QP1", "EA1", "XD1"}
    assert ungrounded(situation, ()) == frozenset()


def test_a_link_behind_it_is_lost_and_one_before_it_is_not() -> None:
    assert not parts_links(live(camp()), ("W1",))
    draft = camp(neutral="floating")
    draft.rate("QP1", bond="fitted")
    situation = live(draft)
    assert parts_links(situation, ("W1",))
    assert not parts_links(situation, ("W2",))


def test_a_ground_fault_device_watches_what_lies_on_its_load_side() -> None:
    draft = camp()
    draft.rate("QF2", ground_fault="class_a")
    situation = live(draft)
    assert watching(situation, ("W3",)) == {"QF2"}
    assert watching(situation, ("W2",)) == frozenset()


def test_all_on_the_conductors_of_a_source() -> None:
    assert on_conductors(live(camp()), "G1") >= {"G1", "W1", "QP1", "W2", "EA1", "W3", "XD1"}
