"""What follows from a design is kept while it stands, and no longer."""

from __future__ import annotations

from dataclasses import replace

from linework.design import Draft, changed, pole_map
from linework.kinds import OneOf
from linework.study.wires.ratings import direct_v


def _battery_and_lamp() -> Draft:
    draft = Draft()
    draft.part("battery", "GB1", voltage="12 V", capacity="100 Ah")
    draft.part("lamp", "EL1", circuit="dc", power="20 W", voltage="12 V")
    draft.run("GB1.dc", "EL1.in", "W1", size="10 AWG", length="3 ft")
    return draft


def test_it_is_made_once() -> None:
    design, made = _battery_and_lamp().design, []
    for _ in range(2):
        design.worked_out("a question", lambda: made.append(1))
    assert made == [1]


def test_a_change_forgets_it() -> None:
    draft = _battery_and_lamp()
    design = draft.design
    (run,) = design.runs_at("GB1")
    assert direct_v(design, run) == 12.0
    draft.rate("GB1", voltage="24 V")
    draft.rate("EL1", voltage="24 V")
    assert direct_v(design, run) == 24.0
    design.apply(changed("", [(run, None)]))
    assert design.runs_at("GB1") == []


def test_a_copy_and_a_case_know_nothing_of_it() -> None:
    draft = _battery_and_lamp()
    draft.part("inverter", "TB1", power="800 VA", neutral=OneOf(("bonded", "floating")))
    design = draft.design
    design.worked_out("a question", lambda: "of the design")
    read = design.in_case({("TB1", "neutral"): "bonded"})
    assert read.worked_out("a question", lambda: "of the case") == "of the case"
    assert design.snapshot().worked_out("a question", lambda: "of the copy") == "of the copy"


def test_what_is_handed_out_is_nobody_elses() -> None:
    design = _battery_and_lamp().design
    design.runs_at("GB1").clear()
    assert [run.designation for run in design.runs_at("GB1")] == ["W1"]
    (run,) = design.runs
    assert pole_map(design, run) == pole_map(design, replace(run, designation="W2"))
