"""The margin: every finding with what can be done about it, consequences under their cause, and
the lists beneath. Nothing is changed there: it tells what a person wants."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from linework.advice import without_mends
from linework.analysis import Analysis, analyse
from linework.bench.judge.mending import rebased
from linework.bench.looks import height_of
from linework.bench.margin.margin import Margin
from linework.bench.margin.text import heading, sections
from linework.bench.margin.whywindow import WhyWindow, page
from linework.design import Change, EditError, Part
from linework.design.edits import accept_finding, move_parts, rate, remove, retitle
from linework.findings.judge import Gap
from linework.findings.model import Finding
from linework.findings.registry import rules
from linework.guide import parsed, reason_of
from tests.bench.benches import small, two_sources, verdict


def shown(name: str, qtbot: QtBot) -> Margin:
    design, analysis, _ = verdict(name)
    margin = Margin()
    qtbot.addWidget(margin)
    margin.resize(400, 700)
    margin.show_analysis(design, without_mends(analysis))
    with qtbot.waitActive(margin):
        margin.show()
    return margin


def test_each_finding_has_a_card_in_order(qtbot: QtBot) -> None:
    margin = shown("two_sources", qtbot)
    _, analysis, _ = verdict("two_sources")
    for card, finding in zip(margin.cards, analysis.findings, strict=True):
        assert card.finding is not None
        assert card.finding.number == finding.number
        assert card.level.text() == finding.level.word.capitalize()
        assert card.message.text() == finding.message
        assert card.title.text()[0].isupper()
        assert f"{finding.number}" in card.accessibleName()
        assert all(name in card.place.text() for name in finding.where)


def test_consequences_stand_under_their_cause_and_unfold_when_turned_to(qtbot: QtBot) -> None:
    margin = shown("two_sources", qtbot)
    cause = next(c for c in margin.cards if c.finding and c.finding.consequences)
    assert cause.finding is not None
    assert len(cause.children_cards) == len(cause.finding.consequences)
    assert all("follows from it" in child.level.text() for child in cause.children_cards)
    first = cause.children_cards[0]
    assert cause.isAncestorOf(first)
    assert first.finding is not None
    assert not first.why.isVisible()
    assert not first.message.isVisible()
    for name in (first.finding.level.word.capitalize(), *first.finding.where):
        assert name in first.title.text()
    assert first.finding.message in (first.toolTip(), first.accessibleDescription())
    first.setFocus()
    assert first.why.isVisible()
    assert first.message.isVisible()
    assert first.message.text() == first.finding.message
    assert "follows from it" in first.level.text()


def test_choosing_tells_which_finding(qtbot: QtBot) -> None:
    margin = shown("two_sources", qtbot)
    card = margin.cards[1]
    with qtbot.waitSignal(margin.chosen) as heard:
        QTest.mouseClick(card, Qt.MouseButton.LeftButton)
    assert heard.args == [card.finding]
    assert card.property("chosen") == "true"
    with qtbot.waitSignal(margin.chosen) as heard:
        QTest.keyClick(margin.cards[2], Qt.Key.Key_Return)
    assert heard.args == [margin.cards[2].finding]
    assert card.property("chosen") == "false"


def test_arrows_go_from_card_to_card(qtbot: QtBot) -> None:
    margin = shown("two_sources", qtbot)
    every = list(margin.every_card())
    every[0].setFocus()
    QTest.keyClick(every[0], Qt.Key.Key_Down)
    assert QApplication.focusWidget() is every[1]
    QTest.keyClick(every[1], Qt.Key.Key_Up)
    assert QApplication.focusWidget() is every[0]
    QTest.keyClick(every[0], Qt.Key.Key_Up)
    assert QApplication.focusWidget() is every[0]


def test_the_margin_goes_to_the_finding_of_a_flag(qtbot: QtBot) -> None:
    margin = shown("two_sources", qtbot)
    with qtbot.waitSignal(margin.chosen) as heard:
        margin.go_to(3)
    assert heard.args is not None
    assert heard.args[0].number == 3
    assert QApplication.focusWidget() is margin.cards[2]


def test_a_mend_is_offered_only_when_it_was_proven(qtbot: QtBot) -> None:
    margin = shown("two_sources", qtbot)
    _, analysis, _ = verdict("two_sources")
    finding = next(f for f in analysis.findings if f.mend is not None)
    card = next(c for c in margin.cards if c.finding and c.finding.number == finding.number)
    assert not card.mend.isVisible()
    assert finding.mend is not None
    change = Change(finding.mend.title, {"x": (None, Part("x", "lamp", "E9"))})
    margin.show_mend(finding.fingerprint, change)
    assert card.mend.isVisible()
    assert "Take the link out of QP1" in card.cure.text()
    with qtbot.waitSignal(margin.mend_wanted) as heard:
        card.mend.click()
    assert heard.args == [change]
    margin.forget_mends()
    assert not card.mend.isVisible()


def test_accepting_wants_a_reason_and_tells_who_and_when(qtbot: QtBot) -> None:
    margin = shown("two_sources", qtbot)
    margin.by = "A. Builder"
    margin.show_analysis(*verdict("two_sources")[:2])
    card = margin.cards[0]
    card.accept.click()
    assert card.form is not None
    assert card.form.by.text() == "A. Builder"
    card.form.reason.setText("measured")
    with qtbot.waitSignal(margin.accepted) as heard:
        card.form.give()
    assert heard.args is not None
    finding, reason, by, date = heard.args
    assert (finding, reason, by) == (card.finding, "measured", "A. Builder")
    assert len(date) == 10
    margin.refuse_acceptance(finding, "write the reason")
    assert card.form.fault.text() == "write the reason"
    QTest.keyClick(card.form.reason, Qt.Key.Key_Escape)
    assert card.form is None


def test_an_accepted_finding_shows_its_reason_and_can_be_taken_back(qtbot: QtBot) -> None:
    design = two_sources().design
    finding = analyse(design).findings[0]
    accepted = accept_finding(
        design,
        finding.rule,
        finding.subjects,
        finding.fingerprint,
        reason="agreed with the inspector",
        by="A. Builder",
        date="2026-03-01",
    )
    design.apply(accepted)
    margin = Margin()
    qtbot.addWidget(margin)
    margin.show_analysis(design, analyse(design))
    margin.show()
    card = next(c for c in margin.cards if c.finding and c.finding.accepted)
    assert "agreed with the inspector" in card.reason.text()
    assert "accepted" in card.level.text()
    assert not card.accept.isVisible()
    with qtbot.waitSignal(margin.taken_back) as heard:
        card.back.click()
    assert heard.args is not None
    assert heard.args[0].reason == "agreed with the inspector"


def test_a_caution_is_not_accepted_away(qtbot: QtBot) -> None:
    margin = Margin()
    qtbot.addWidget(margin)
    margin.cautions = frozenset(r.id for r in rules().values() if r.always_printed)
    assert margin.cautions
    design, analysis, _ = verdict("small")
    margin.show_analysis(design, analysis)
    margin.show()
    offered = {c.finding.rule: c.accept.isVisible() for c in margin.cards if c.finding is not None}
    assert offered["engine-fumes-and-heat"] is False
    assert offered["bond-missing"] is True


def test_states_are_offered_where_not_all_are_concerned(qtbot: QtBot) -> None:
    margin = shown("two_sources", qtbot)
    card = next(c for c in margin.cards if c.where.isVisible())
    assert card.finding is not None
    assert card.finding.standing is not None
    assert card.where.text() == f"In {card.finding.standing.count} of 6 states"
    with qtbot.waitSignal(margin.state_wanted) as heard:
        card.where.click()
    assert heard.args == [card.finding]
    always = next(c for c in margin.cards if c.finding and not c.finding.states)
    assert not always.where.isVisible()


def test_the_lists_beneath(qtbot: QtBot) -> None:
    margin = shown("two_sources", qtbot)
    design, analysis, _ = verdict("two_sources")
    found = {section.title: section.lines for section in sections(design, analysis)}
    assert any("no chassis or hull is drawn" in line for line in found["Not checked"])
    assert any("[" in line for line in found["Assumed"])
    texts = {label.text() for label in margin.area.findChildren(QLabel)}
    for lines in found.values():
        for line in lines:
            assert any(text.endswith(line) for text in texts), line


def test_the_heading_never_says_more_than_was_checked() -> None:
    design, analysis, _ = verdict("two_sources")
    assert heading(None) == "Nothing was checked yet."
    dangers = sum(f.level.word == "danger" for f in analysis.findings)
    assert heading(analysis).startswith(f"{dangers} dangers")
    doubted = replace(analysis, gaps=(Gap("x", "could not be read", ()),))
    assert heading(doubted).startswith(f"{dangers} dangers")
    assert heading(doubted).endswith("; not everything was checked")
    gap = Gap("x", "could not be read", ())
    bare = replace(analysis, findings=(), gaps=(), complete=True, partial=False)
    assert heading(bare) == "No findings"
    assert heading(replace(bare, gaps=(gap,))) == "No findings; not everything was checked"
    assert heading(replace(bare, complete=False)) == "No findings; not everything was checked"
    assert heading(replace(bare, partial=True)) == "No findings, in this state so far"
    lines = sections(design, replace(bare, complete=False, combinations=9000))
    assert any("9000" in line for section in lines for line in section.lines)


def test_a_form_that_is_being_filled_in_outlives_another_verdict(qtbot: QtBot) -> None:
    margin = shown("two_sources", qtbot)
    card = margin.cards[0]
    card.open_form()
    assert card.form is not None
    card.form.reason.setText("half a rea")
    design, analysis, _ = verdict("two_sources")
    margin.show_analysis(design, replace(analysis, revision=9))
    assert margin.cards[0].form is card.form
    assert card.form.reason.text() == "half a rea"


def test_what_is_found_has_its_room_as_soon_as_it_is_shown(qtbot: QtBot) -> None:
    margin = Margin()
    qtbot.addWidget(margin)
    margin.resize(330, 600)
    with qtbot.waitExposed(margin):
        margin.show()
    margin.show_analysis(*verdict("two_sources")[:2])
    for card in margin.every_card():
        for label in card.findChildren(QLabel):
            if label.isVisibleTo(card) and label.text():
                assert label.height() >= label.heightForWidth(label.width()), label.text()


def test_nothing_is_cut_off_at_the_right(qtbot: QtBot) -> None:
    margin = shown("two_sources", qtbot)
    margin.resize(margin.minimumWidth(), 700)
    QApplication.processEvents()
    room = margin.area.viewport()
    for card in margin.every_card():
        right = card.mapTo(room, card.rect().topRight()).x()
        assert right < room.width()
        for label in card.findChildren(QLabel):
            if label.isVisible() and not label.wordWrap():
                assert label.width() >= label.sizeHint().width(), label.text()


def test_trouble_is_shown_over_the_list(qtbot: QtBot) -> None:
    margin = shown("small", qtbot)
    assert not margin.trouble.isVisible()
    margin.show_trouble("The checking stopped.")
    assert margin.trouble.isVisible()
    buttons = {button.text(): button for button in margin.trouble.findChildren(QPushButton)}
    with qtbot.waitSignal(margin.again):
        buttons["Check again"].click()
    with qtbot.waitSignal(margin.troubled):
        buttons["Details…"].click()


# why


@pytest.mark.parametrize("rule", sorted(rules()))
def test_why_has_the_five_headings_of_every_rule(rule: str) -> None:
    reason = reason_of(rule)
    assert reason.opening.endswith(".")
    assert [heading.title for heading in reason.headings] == [
        "What is checked",
        "Why it matters",
        "How to cure it",
        "Limits",
        "Sources",
    ]
    assert all(heading.text for heading in reason.headings)


def test_why_of_an_unknown_rule_says_so() -> None:
    assert "no-such-rule" in reason_of("no-such-rule").opening


def test_headings_are_told_from_paragraphs() -> None:
    text = "Opening\nover two lines.\n\nFirst\n    one\n    line\n\n    next\nSecond\n    two"
    reason = parsed(text)
    assert reason.opening == "Opening over two lines."
    assert [(h.title, h.text) for h in reason.headings] == [
        ("First", "one line\n\nnext"),
        ("Second", "two"),
    ]


def test_the_why_window_tells_what_is_sound_there_all_the_same() -> None:
    _, analysis, _ = verdict("two_sources")
    finding = analysis.findings[0]
    assert "Sound there" not in page(finding, "NA")
    text = page(finding, "NA", ("QF1 can break 10 kA.",))
    assert "Sound there, and why" in text
    assert "QF1 can break 10 kA." in text


def test_what_nobody_doubts_is_not_in_the_margin() -> None:
    design, analysis, _ = verdict("small")
    quiet = [item.message for item in analysis.praise if item.quiet]
    lines = [line for section in sections(design, analysis) for line in section.lines]
    assert quiet
    assert not any(message in line for message in quiet for line in lines)


def test_the_why_window_shows_message_numbers_states_and_rule(qtbot: QtBot) -> None:
    _, analysis, _ = verdict("two_sources")
    finding = analysis.findings[0]
    window = WhyWindow()
    qtbot.addWidget(window)
    window.explain(finding, "NA")
    text = window.text.toPlainText()
    assert finding.message in text
    assert finding.spoken[0] in text
    assert "How to cure it" in text
    assert finding.rule in text
    assert not window.isModal()
    assert "<script" not in page(replace(finding, message="<script>"), "NA")


# mends on a drawing that moved on


def test_a_mend_fits_a_drawing_that_was_only_moved() -> None:
    design = two_sources().design
    made = rate(design, "QP1", {"bond": "absent"})
    design.apply(move_parts(design, ["QP1"], 50, 75))
    with pytest.raises(EditError):
        design.snapshot().apply(made)
    design.apply(rebased(made, design))
    part = design.part("QP1")
    assert (part.ratings["bond"], part.x, part.y) == ("absent", 50, 75)


def test_a_mend_is_refused_where_more_than_the_place_changed() -> None:
    design = two_sources().design
    made = rate(design, "QP1", {"bond": "absent"})
    design.apply(retitle(design, "QP1", "another"))
    with pytest.raises(EditError):
        design.apply(rebased(made, design))
    assert design.part("QP1").ratings["bond"] == "fitted"


def test_a_mend_of_a_part_that_is_gone_is_refused() -> None:
    design = small().design
    made = rate(design, "EL1", {"power": "60 W"})
    design.apply(remove(design, ["EL1"]))
    with pytest.raises(EditError):
        design.apply(rebased(made, design))


# what comes in moves nothing


def in_window(qtbot: QtBot) -> tuple[Margin, Analysis]:
    """A margin with the findings of two sources in a low window, so that it scrolls."""
    margin = shown("two_sources", qtbot)
    margin.resize(margin.width(), 420)
    margin.setFocus()
    return margin, verdict("two_sources")[1]


def again(margin: Margin, analysis: Analysis, findings: tuple[Finding, ...]) -> None:
    margin.show_analysis(verdict("two_sources")[0], replace(analysis, findings=findings))
    QApplication.processEvents()


def hover(card: QWidget, on: bool = True) -> None:
    """As when the pointer comes to rest on it, or leaves it."""
    card.setAttribute(Qt.WidgetAttribute.WA_UnderMouse, on)


def test_the_card_under_the_pointer_stays_where_it_is_when_others_come_and_go(
    qtbot: QtBot,
) -> None:
    margin, analysis = in_window(qtbot)
    bar = margin.area.verticalScrollBar()
    bar.setValue(bar.maximum() // 2)
    third = margin.cards[2]
    hover(third)
    for findings in (analysis.findings[2:], analysis.findings, analysis.findings[1:3]):
        at = height_of(third)
        again(margin, analysis, findings)
        assert third.isVisible()
        assert height_of(third) == at
    hover(third, False)


def test_who_is_at_the_top_sees_a_new_danger_above(qtbot: QtBot) -> None:
    margin, analysis = in_window(qtbot)
    again(margin, analysis, analysis.findings[2:])
    bar = margin.area.verticalScrollBar()
    bar.setValue(0)
    again(margin, analysis, analysis.findings)
    assert bar.value() == 0
    assert margin.cards[0].finding == analysis.findings[0]
    assert height_of(margin.cards[0]) >= height_of(margin.area)


def test_a_card_that_is_gone_stays_struck_through_until_the_pointer_leaves(qtbot: QtBot) -> None:
    margin, analysis = in_window(qtbot)
    first, second = margin.cards[:2]
    hover(first)
    at = height_of(first), height_of(second)
    again(margin, analysis, analysis.findings[1:])
    assert first.gone
    assert (height_of(first), height_of(second)) == at
    assert "No longer found" in first.level.text()
    assert not first.why.isEnabled()
    hover(first, False)
    QApplication.sendEvent(margin, QEvent(QEvent.Type.Leave))
    assert not first.isVisible()
    assert margin.cards[0] is second


def test_a_mend_that_comes_late_moves_no_button_and_no_card(qtbot: QtBot) -> None:
    margin, _ = in_window(qtbot)
    margin.forget_mends()
    QApplication.processEvents()
    card = next(c for c in margin.cards[1:] if c.accept.isVisible())
    hover(card)
    places = [height_of(card), *(b.pos() for b in (card.why, card.accept, card.where))]
    for one in margin.cards:
        assert one.finding is not None
        margin.show_mend(one.finding.fingerprint, Change("turn it"))
    QApplication.processEvents()
    assert card.mend.isVisible()
    assert [height_of(card), *(b.pos() for b in (card.why, card.accept, card.where))] == places
    hover(card, False)


def test_what_is_half_written_outlives_a_finding_whose_figures_change(qtbot: QtBot) -> None:
    margin, analysis = in_window(qtbot)
    card = margin.cards[0]
    card.open_form()
    assert card.form is not None
    card.form.reason.setText("half a rea")
    card.form.reason.setFocus()
    finding = replace(analysis.findings[0], fingerprint="another", message="Other figures.")
    again(margin, analysis, (finding, *analysis.findings[1:]))
    assert margin.cards[0] is card
    assert card.message.text() == "Other figures."
    assert card.form is not None
    assert card.form.reason.text() == "half a rea"
    assert card.form.reason.hasFocus()


def test_a_line_that_is_marked_for_copying_stays_marked(qtbot: QtBot) -> None:
    margin, analysis = in_window(qtbot)
    labels = [w for w in margin._lists.lines if isinstance(w, QLabel)]
    by_mouse = Qt.TextInteractionFlag.TextSelectableByMouse
    line = next(w for w in labels if w.textInteractionFlags() & by_mouse and len(w.text()) > 9)
    line.setSelection(2, 5)
    again(margin, analysis, analysis.findings[1:])
    assert line.selectedText() == line.text()[2:7]
