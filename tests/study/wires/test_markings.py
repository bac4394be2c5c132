"""What devices are marked for."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.wires.markings import is_marked, made_for_direct, marked_v, parts_on
from tests.designs import situation_of


def drawn(**fuse: str) -> Draft:
    d = Draft(place="field", voltage="12 V")
    d.part("battery", "GB1", voltage="12 V")
    d.part("fuse", "F1", circuit="dc", rating="30 A", **fuse)
    d.part("lamp", "EL1", circuit="dc", voltage="12 V", power="24 W")
    d.run("GB1.dc", "F1.line", "W1", size="10 AWG", length="1 ft")
    d.run("F1.load", "EL1.in", "W2", size="10 AWG", length="1 ft")
    return d


def test_a_marking_that_is_given_counts_then_that_of_the_type() -> None:
    assert marked_v(drawn(voltage="58 V", type="ato").design, "F1", dc=True) == 58.0
    assert marked_v(drawn(type="ato").design, "F1", dc=True) == 32.0
    assert marked_v(drawn().design, "F1", dc=True) is None


@pytest.mark.parametrize(("word", "told"), [("yes", True), ("no", False), ("unknown", None)])
def test_a_switch_says_itself_whether_it_breaks_direct_current(
    word: str, told: bool | None
) -> None:
    d = Draft(place="field")
    d.part("isolator", "QS1", rating="30 A")
    if word != "unknown":
        d.rate("QS1", direct=word)
    assert made_for_direct(d.design, "QS1") is told


def test_a_fuse_is_made_for_direct_current_by_its_type() -> None:
    assert made_for_direct(drawn(type="ato").design, "F1") is True
    assert made_for_direct(drawn(type="class_j").design, "F1") is None


def test_devices_are_marked_and_loads_are_not() -> None:
    design = drawn().design
    assert [part.id for part in design.parts if is_marked(design, part.id)] == ["F1"]
    assert not is_marked(design, "W1")


def test_those_on_a_conductor_are_found_by_its_label() -> None:
    draft = drawn()
    situation = situation_of(draft)
    (system,) = situation.systems
    assert parts_on(draft.design, situation, {system.hot}) == ["F1"]
    assert parts_on(draft.design, situation, {system.back}) == []
