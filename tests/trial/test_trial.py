"""The trial's rigs hold together, its mistakes change something, its sums add up."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from linework.design.integrity import flaws_of
from tests.trial.judge.label import HARMLESS, Label, differences
from tests.trial.mistakes import MISTAKES, harmless, mistakes
from tests.trial.rigs import RIGS
from tests.trial.table import mistake_table
from tests.trial.trial import Outcome, Task, drawn, met

FOLDER = Path(__file__).resolve().parent


@pytest.mark.parametrize("name", RIGS)
def test_each_rig_is_drawn_whole(name: str) -> None:
    design = RIGS[name]().design
    assert [flaw.message for _, flaw in flaws_of(design)] == []
    assert 14 <= len(design.parts) <= 36


@pytest.mark.parametrize("name", RIGS)
def test_each_rig_says_why_it_is_sound(name: str) -> None:
    told = RIGS[name].__doc__ or ""
    assert "Minus" in told or "Neutral" in told or "hull" in told
    assert " guard" in told


def test_there_are_many_rigs_and_mistakes() -> None:
    assert len(RIGS) >= 20
    mild = [kind for kind in MISTAKES if hasattr(harmless, kind)]
    assert len(MISTAKES) - len(mild) >= 30


@pytest.mark.parametrize("name", RIGS)
def test_each_mistake_changes_the_design_and_leaves_the_sound_one_alone(name: str) -> None:
    design, untouched = RIGS[name]().design, RIGS[name]().design.elements
    shapes = {key: str(item) for key, item in untouched.items() if key in design}
    for kind in MISTAKES:
        for mistake in mistakes(design, kind):
            assert differences(design, mistake.design), kind
            assert mistake.place, kind
    assert {key: str(design.get(key)) for key in shapes} == shapes


def test_each_kind_of_mistake_can_be_made_somewhere() -> None:
    rigs = [draw().design for draw in RIGS.values()]
    assert [k for k in MISTAKES if not any(True for rig in rigs for _ in mistakes(rig, k))] == []


@pytest.mark.parametrize("kind", MISTAKES)
def test_each_kind_says_what_it_is(kind: str) -> None:
    assert MISTAKES[kind].__doc__


def test_the_judge_imports_no_reasoning_of_the_program() -> None:
    known = set()
    for file in sorted((FOLDER / "judge").glob("*.py")):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom):
                known.add(node.module or "")
            elif isinstance(node, ast.Import):
                known |= {name.name for name in node.names}
    own = {name for name in known if name.startswith("linework")}
    assert own == {"linework.design", "linework.kinds"}


# drawing and counting


def test_the_same_seed_draws_the_same_and_kinds_take_turns() -> None:
    every = [Task(kind, "rig", n) for kind in ("breaker_two_up", "strap_removed") for n in range(9)]
    assert drawn(every, 4, 1) == drawn(every, 4, 1)
    assert len({task.kind for task in drawn(every, 4, 1)}) == 2
    assert sorted(drawn(every, 0, 1)) == sorted(every)


def outcome(word: str, told: tuple[str, ...] = (), met_there: tuple[bool, ...] = ()) -> Outcome:
    findings = tuple((level, "rule", ("W1",), "message") for level in told)
    task = Task("breaker_two_up", "rig", 0)
    return Outcome(task, ("W1",), Label(word, "reason"), findings, met_there, (), ())


def test_verdicts() -> None:
    assert outcome("danger", ("warning",), (True,)).verdict == "found"
    assert outcome("danger", ("warning",), (True,)).softened
    assert outcome("danger", ("danger",), (False,)).verdict == "elsewhere"
    assert outcome("warning").verdict == "missed"
    assert outcome(HARMLESS, ("warning",), (True,)).verdict == "false alarm"
    assert outcome(HARMLESS).verdict == "quiet"
    assert outcome("not labelled", ("danger",), (True,)).verdict == "not counted"


def test_the_table_adds_up() -> None:
    text = mistake_table(
        [outcome("danger", ("danger",), (True,)), outcome("danger"), outcome(HARMLESS)]
    )
    assert "danger: 2: found 1 (50.0 %), elsewhere 0 (0.0 %), unchecked 0 (0.0 %), missed 1" in text
    assert "harmless: 1: quiet 1 (100.0 %), false alarm 0 (0.0 %)" in text
    assert "harmless share of 3 labelled: 33 %" in text


def test_one_mistake_is_met_from_end_to_end() -> None:
    found = met(Task("load_of_twice_the_voltage", "tender", 0))
    assert found.label.word == "warning"
    assert found.difference
