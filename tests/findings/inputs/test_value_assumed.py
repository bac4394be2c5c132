"""value-assumed: one line for each part whose answers are defaults."""

from __future__ import annotations

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.told import found, places

RULE = "value-assumed"
GIVEN = {"material": "copper", "insulation": "75", "ambient": "30 degC"}


def test_one_note_for_a_part_however_much_is_assumed() -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1")
    (finding,) = found(draft, RULE)
    assert finding.level is Level.NOTE
    assert finding.subjects == ("GS1",)
    assert "[30 A]" in finding.message
    assert "[500 A / 2 kA / 10 kA]" in finding.message


def test_what_is_given_is_not_assumed_any_more() -> None:
    draft = Draft(place="field")
    draft.part("battery", "GB1", voltage="12 V", capacity="100 Ah", fault_current="5 kA")
    (finding,) = found(draft, RULE)
    assert "chemistry" in finding.message
    assert "voltage" not in finding.message
    draft.rate("GB1", chemistry="agm")
    assert not found(draft, RULE)


def test_what_is_only_absent_is_not_assumed() -> None:
    draft = Draft(place="field")
    draft.part("breaker", "QF1", rating="20 A", interrupting="5 kA")
    # without a figure for its magnetic release it has none that counts: nothing stands in
    assert not found(draft, RULE)


def test_runs_of_which_the_same_is_assumed_share_a_line() -> None:
    draft = Draft(place="building")
    draft.part("junction_box", "XJ1")
    draft.part("junction_box", "XJ2")
    for n in (1, 2, 10):
        draft.run("XJ1.a", "XJ2.a", f"W{n}", size="12 AWG", length="5 ft")
    draft.run("XJ1.b", "XJ2.b", "W3", size="12 AWG", length="5 ft", **GIVEN)
    assert places(draft, RULE) == {("W1", "W2", "W10")}
    (finding,) = found(draft, RULE)
    assert finding.message.startswith("W1, W2, W10: assumed material [copper], insulation")


def test_a_jumper_is_not_asked_what_it_carries() -> None:
    draft = Draft(place="vehicle")
    draft.part("panel", "QP1", bond="absent", bus="100 A")
    draft.part("body", "XB1")
    draft.run(
        "QP1.ground", "XB1.tie", "W1", size="8 AWG", length="2 ft", installation="jumper",
        material="copper",
    )  # fmt: skip
    assert not found(draft, RULE)


def test_an_assumed_value_does_not_spoil_a_sound_design() -> None:
    draft = Draft(place="field")
    draft.part("generator", "G1", power="2 kVA", neutral="bonded")
    draft.part("outlet", "X1")
    draft.seat("X1", "G1", "1")
    assert found(draft, RULE)
    assert analyse(draft.design).sound
