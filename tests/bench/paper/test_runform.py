"""A run by the keyboard."""

from __future__ import annotations

from pytestqt.qtbot import QtBot

from linework.bench.paper.runform import RunForm
from linework.design import Design
from linework.sheet.compose import compose
from tests.bench.benches import two_sources


def run_form(qtbot: QtBot, design: Design, *chosen: str) -> RunForm:
    form = RunForm(design, compose(design), chosen)
    qtbot.addWidget(form)
    return form


def test_a_run_is_drawn_between_the_chosen_parts(qtbot: QtBot) -> None:
    draft = two_sources()
    draft.part("outlet", "XD1")
    draft.part("breaker", "QF2", rating="15 A")
    draft.seat("QF2", "QP1", "2")
    design = draft.design
    form = run_form(qtbot, design, "QF2", "XD1")
    assert form.start.currentText() == "QF2: load"
    assert form.goal.currentText() == "XD1: feed"
    assert form.fault.text() == ""
    form.try_it()
    assert form.change is not None
    design.apply(form.change)
    (run,) = design.runs_at("XD1")
    assert (run.a.part, run.b.part) == ("QF2", "XD1")


def test_the_form_says_why_two_terminals_cannot_be_joined(qtbot: QtBot) -> None:
    draft = two_sources()
    draft.part("battery", "GB1")
    form = run_form(qtbot, draft.design, "GB1", "GS1")
    assert "never joined to alternating" in form.fault.text()
    assert not form._yes.isEnabled()
    wired = draft.design.part("GS1")
    assert wired.kind == "supply"
    for number in range(form.goal.count()):
        form.goal.setCurrentIndex(number)
        assert bool(form.fault.text()) is not form._yes.isEnabled(), form.goal.currentText()
