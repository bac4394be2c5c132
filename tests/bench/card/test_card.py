"""The card: a row for each rating, one edit for each answer, refusals that change nothing."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QComboBox, QLabel, QWidget
from pytestqt.qtbot import QtBot

from linework.bench.card.card import Card
from linework.bench.card.row import ChoiceRow, TextRow
from linework.bench.states.shown import report_of
from linework.design import Draft, History, Part, changed
from linework.design.edits import rate, remove
from linework.kinds import RUN_RATINGS, Band, OneOf, kinds
from linework.wiring import Pole
from tests.bench.benches import part, run, small, two_sources, verdict

UNKNOWN = "[not known: joined to the frame / floating]"


@pytest.fixture
def holder(qtbot: QtBot) -> QWidget:
    room = QWidget()
    room.resize(1000, 800)
    qtbot.addWidget(room)
    with qtbot.waitActive(room):
        room.show()
    return room


def card_on(draft: Draft, holder: QWidget, designation: str) -> tuple[Card, History]:
    history = History(draft.design)
    card = Card(history, holder)
    history.listen(card.follow)
    names = {e.designation: e.id for e in (*draft.design.parts, *draft.design.runs)}
    card.show_element(names[designation])
    return card, history


def text_row(card: Card, key: str) -> TextRow:
    row = card.rows[key]
    assert isinstance(row, TextRow)
    return row


def choice_row(card: Card, key: str) -> ChoiceRow:
    row = card.rows[key]
    assert isinstance(row, ChoiceRow)
    return row


def type_into(row: TextRow, text: str) -> None:
    row.one.setFocus()
    row.one.selectAll()
    QTest.keyClicks(row.one, text)
    QTest.keyClick(row.one, Qt.Key.Key_Return)


def pick(row: ChoiceRow, label: str) -> None:
    number = row.box.findText(label)
    assert number >= 0
    row.box.setCurrentIndex(number)
    row.box.activated.emit(number)


# rows


@pytest.mark.parametrize("kind", sorted(kinds()))
def test_a_kind_gets_a_row_for_each_of_its_ratings_in_order(kind: str, holder: QWidget) -> None:
    draft = Draft()
    draft.part(kind, "A1")
    card, _ = card_on(draft, holder, "A1")
    card._fold()
    values = draft.design.values(part(draft.design, "A1"))
    assert list(card.rows) == [r.key for r in kinds()[kind].ratings if values.applies(r.key)]
    labels = [row.label.text() for row in card.rows.values()]
    assert all(labels)
    assert not [text for text in labels if "{" in text]


def test_no_piece_of_a_card_is_ever_a_window_of_its_own(holder: QWidget) -> None:
    card, _ = card_on(small(), holder, "G1")
    card._fold()
    assert [w for w in QApplication.topLevelWidgets() if w.isVisible()] == [holder]
    assert holder.isActiveWindow()


def test_a_run_gets_a_row_for_each_rating(holder: QWidget) -> None:
    card, _ = card_on(small(), holder, "W1")
    card._fold()
    assert list(card.rows) == list(RUN_RATINGS)


def test_quiet_ratings_wait_in_the_fold(holder: QWidget) -> None:
    card, _ = card_on(small(), holder, "G1")
    assert "stray_line" not in card.rows
    assert {"power", "excitation", "neutral"} <= set(card.rows)


def test_an_unknown_kind_has_a_card_without_rows(holder: QWidget) -> None:
    draft = Draft()
    draft.design.apply(changed("", [(None, Part("x", "warp_core", "A1"))]))
    card, _ = card_on(draft, holder, "A1")
    assert card.rows == {}
    assert card.isVisible()


# texts


def test_a_typed_value_is_one_edit(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "QF1")
    type_into(text_row(card, "rating"), "15 A")
    assert part(history.design, "QF1").ratings["rating"] == "15 A"
    assert history.undo()
    assert part(history.design, "QF1").ratings["rating"] == "20 A"
    assert history.undo() == ""
    assert text_row(card, "rating").one.text() == "20 A"


def test_leaving_a_field_commits_it_once(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "QF1")
    row = text_row(card, "rating")
    row.one.setFocus()
    row.one.setText("25 A")
    card.title.setFocus()
    assert part(history.design, "QF1").ratings["rating"] == "25 A"
    before = history.design.revision
    row.one.editingFinished.emit()
    assert history.design.revision == before


def test_a_decimal_comma_goes_into_the_file_as_a_point(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "W1")
    type_into(text_row(card, "length"), "2,5 m")
    assert run(history.design, "W1").ratings["length"] == "2.5 m"


@pytest.mark.parametrize("wrong", ["20", "20 V", "1.2.3 A", "twenty"])
def test_a_wrong_text_is_marked_with_the_reason_and_changes_nothing(
    holder: QWidget, wrong: str
) -> None:
    card, history = card_on(small(), holder, "QF1")
    before = history.design.revision
    row = text_row(card, "rating")
    type_into(row, wrong)
    assert history.design.revision == before
    assert row.one.text() == wrong
    assert row.one.property("wrong") == "true"
    assert row.fault.isVisible()
    assert wrong in row.fault.text()
    type_into(row, "30 A")
    assert not row.fault.isVisible()
    assert part(history.design, "QF1").ratings["rating"] == "30 A"


def test_escape_brings_back_what_holds_and_then_closes(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "QF1")
    row = text_row(card, "rating")
    row.one.setFocus()
    QTest.keyClicks(row.one, "99")
    QTest.keyClick(row.one, Qt.Key.Key_Escape)
    assert row.one.text() == "20 A"
    assert card.isVisible()
    QTest.keyClick(row.one, Qt.Key.Key_Escape)
    assert not card.isVisible()
    assert history.undo() == ""


def test_what_is_assumed_stands_in_brackets_and_is_not_written(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "G1")
    row = text_row(card, "reactance")
    assert row.one.text() == ""
    assert row.one.placeholderText() == "[0.07 / 0.12 / 0.24]"
    assert row.one.property("assumed") == "true"
    assert choice_row(card, "excitation").box.currentText().startswith("[")
    assert set(part(history.design, "G1").ratings) == {"power"}


def test_an_emptied_field_is_not_given_again(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "W1")
    row = text_row(card, "size")
    row.one.setFocus()
    row.one.clear()
    QTest.keyClick(row.one, Qt.Key.Key_Return)
    assert "size" not in run(history.design, "W1").ratings
    assert "12 AWG" in row.one.placeholderText()


# three figures


def test_three_figures_typed_in_one_line_or_in_three_fields(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "G1")
    type_into(text_row(card, "reactance"), "0.1 / 0.15 / 0.2")
    assert part(history.design, "G1").ratings["reactance"] == Band("0.1", "0.15", "0.2")
    row = text_row(card, "reactance")
    assert [field.isVisible() for field in (row.one, *row.three)] == [False, True, True, True]
    row.three[2].setText("0.3")
    row.three[2].commit()
    assert part(history.design, "G1").ratings["reactance"] == Band("0.1", "0.15", "0.3")
    row.three[0].setText("0.9")
    row.three[0].commit()
    assert "rising" in row.fault.text()
    assert part(history.design, "G1").ratings["reactance"] == Band("0.1", "0.15", "0.3")


def test_one_of_three_figures_alone_is_no_answer(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "G1")
    row = text_row(card, "reactance")
    row.more.setChecked(True)
    row.three[0].setText("0.1")
    row.three[0].commit()
    assert "reactance" not in part(history.design, "G1").ratings
    assert row.fault.isVisible()


# choices


def test_a_choice_offers_not_known_where_that_is_the_default(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "G1")
    assert choice_row(card, "neutral").box.currentText() == UNKNOWN
    pick(choice_row(card, "neutral"), "joined to the frame")
    pick(choice_row(card, "neutral"), "floating")
    assert part(history.design, "G1").ratings["neutral"] == "floating"
    pick(choice_row(card, "neutral"), UNKNOWN)
    assert "neutral" not in part(history.design, "G1").ratings


def test_possibilities_from_a_file_stay_what_they_are(holder: QWidget) -> None:
    draft = small()
    kept = OneOf(("bonded", "relay"))
    draft.rate("G1", neutral=kept)
    card, history = card_on(draft, holder, "G1")
    row = choice_row(card, "neutral")
    assert row.box.currentText().startswith("not known: joined to the frame / joined by a relay")
    row.box.activated.emit(row.box.currentIndex())
    assert part(history.design, "G1").ratings["neutral"] == kept


def test_the_wheel_passes_over_a_choice(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "G1")
    box = choice_row(card, "neutral").box
    before, revision = box.currentIndex(), history.design.revision
    at = box.rect().center()
    event = QWheelEvent(
        QPointF(at),
        QPointF(box.mapToGlobal(at)),
        QPoint(0, 0),
        QPoint(0, -120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(box, event)
    assert (box.currentIndex(), history.design.revision) == (before, revision)


# head, wires, seats


def test_the_designation_is_edited_and_a_taken_one_refused(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "QF1")
    card.designation.setText("QF7")
    card.designation.commit()
    assert [p.designation for p in history.design.parts if p.kind == "breaker"] == ["QF7"]
    card.designation.setText("G1")
    card.designation.commit()
    assert "taken" in card.head_fault.text()
    assert [p.designation for p in history.design.parts if p.kind == "breaker"] == ["QF7"]


def test_the_title_of_a_part_is_edited_and_that_of_a_run_is_not(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "XD1")
    card.title.setText("  beside the door ")
    card.title.commit()
    assert part(history.design, "XD1").title == "beside the door"
    card.show_element(run(history.design, "W2").id)
    assert not card.title.isEnabled()
    assert card.title.text() == "from QF1 to XD1"


def test_wires_of_a_run_are_read_and_refused(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "W2")
    assert card.wires is not None
    assert card.wires.placeholderText() == "[L>L N>N PE>PE]"
    card.wires.setText("L>N N>L PE>PE")
    card.wires.commit()
    crossed = ((Pole.L, Pole.N), (Pole.N, Pole.L), (Pole.PE, Pole.PE))
    assert run(history.design, "W2").poles == crossed
    card.wires.setText("L>elsewhere")
    card.wires.commit()
    assert "L>elsewhere" in card.head_fault.text()
    assert run(history.design, "W2").poles == crossed


def test_a_breaker_is_put_into_another_place(holder: QWidget) -> None:
    card, history = card_on(two_sources(), holder, "QF1")
    box = card._seat.findChild(QComboBox) if card._seat is not None else None
    assert box is not None
    assert box.currentText() == "QP1, place 1"
    box.activated.emit(box.findText("QP1, place 2"))
    (seat,) = history.design.seats_of("QF1")
    assert seat.place == "2"
    assert history.undo()
    (seat,) = history.design.seats_of("QF1")
    assert seat.place == "1"


def test_a_plug_is_allowed_into_several_outlets(holder: QWidget) -> None:
    draft = small()
    draft.part("plug", "XP1", configuration="5-20")
    draft.part("outlet", "XD2", configuration="5-20")
    card, history = card_on(draft, holder, "XP1")
    for name in ("XD1 bench", "XD2"):
        assert card._seat is not None
        boxes = {box.text(): box for box in card._seat.findChildren(QCheckBox)}
        boxes[name].setChecked(True)
    assert len(history.design.seats_of("XP1")) == 2


# following the design


def test_the_card_goes_with_its_part(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "EL1")
    history.do(remove(history.design, ["EL1"]))
    assert not card.isVisible()


def test_an_edit_from_elsewhere_is_shown(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "QF1")
    history.do(rate(history.design, "QF1", {"rating": "40 A"}))
    assert text_row(card, "rating").one.text() == "40 A"


def test_what_was_typed_is_not_lost_when_another_part_is_chosen(holder: QWidget) -> None:
    card, history = card_on(small(), holder, "QF1")
    text_row(card, "rating").one.setText("35 A")
    card.show_element("G1")
    assert part(history.design, "QF1").ratings["rating"] == "35 A"


# the foot


def foot_of(holder: QWidget, designation: str, state: str, case: str = "") -> Card:
    design, analysis, _ = verdict("small")
    card = Card(History(design), holder)
    names = {e.designation: e.id for e in (*design.parts, *design.runs)}
    card.show_element(names[designation])
    card.show_report(report_of(analysis, state, case))
    return card


def test_the_foot_tells_what_flows(holder: QWidget) -> None:
    # By hand: 100 W / 120 V is 833 mA, a little less behind the wires; 5 kVA / 120 V is 41.7 A.
    assert "Takes 83" in foot_of(holder, "EL1", "G1=running").told.foot.text()
    assert "of 41.7 A" in foot_of(holder, "G1", "G1=running").told.foot.text()
    told = foot_of(holder, "W3", "G1=running").told.foot.text()
    assert "L 83" in told
    assert "N 83" in told
    assert "fed by G1" in told


def test_the_foot_of_a_dead_part_says_so(holder: QWidget) -> None:
    for name in ("EL1", "QF1", "W3"):
        assert "Dead in this state." in foot_of(holder, name, "G1=stopped").told.foot.text()


def test_what_is_there_for_grounding_is_not_called_dead(holder: QWidget) -> None:
    draft = small()
    draft.part("electrode", "XE1")
    _, analysis, _ = verdict("small")
    card, _ = card_on(draft, holder, "XE1")
    card.show_report(report_of(analysis, "G1=running", ""))
    assert card.told.foot.text() == ""


def test_the_foot_waits_for_the_verdict(holder: QWidget) -> None:
    card, _ = card_on(small(), holder, "EL1")
    card.show_report(None)
    assert "worked out" in card.told.foot.text()


@pytest.mark.parametrize(
    ("case", "lamps"),
    [
        # A linked source: 120 V from line to ground. A floating one: the lamps divide the
        # voltage, and at half of it they are dark or dim (the picture "open ground").
        ("G1 neutral: joined to the frame", ["lit", "lit", "dark"]),
        ("G1 neutral: floating", ["lit", "dim", "dim"]),
    ],
)
def test_an_outlet_shows_three_bars(holder: QWidget, case: str, lamps: list[str]) -> None:
    (bars,) = foot_of(holder, "XD1", "G1=running", case).told.bars
    assert [bar.lamp for bar in bars.bars] == lamps
    assert [bar.accessibleName() for bar in bars.bars] == [
        "line-neutral",
        "line-ground",
        "neutral-ground",
    ]
    assert bars.words[0].text() == "120 V  lit"


def test_the_bars_say_when_the_ground_wire_is_whole_and_nothing_is_linked(
    holder: QWidget,
) -> None:
    (bars,) = foot_of(holder, "XD1", "G1=running", "G1 neutral: floating").told.bars
    assert "continuous to the source" in bars.meaning.text()


def test_help_and_source_of_an_assumption_are_shown_where_the_hand_is(holder: QWidget) -> None:
    card, _ = card_on(small(), holder, "G1")
    choice_row(card, "neutral").entered.emit("neutral")
    assert "ohmmeter" in card.told.help.text()
    text_row(card, "reactance").entered.emit("reactance")
    assert "Assumed" in card.told.help.text()


def test_the_card_is_as_high_as_what_it_says(holder: QWidget) -> None:
    card = foot_of(holder, "XD1", "G1=running", "G1 neutral: floating")
    card.resize(card.width(), card.wanted_height())
    QApplication.processEvents()
    labels = [label for label in card.findChildren(QLabel) if label.isVisible()]
    assert len(labels) > 5
    for label in labels:
        if label.wordWrap() and label.text():
            assert label.height() >= label.heightForWidth(label.width()), label.text()


# what is sound


def test_the_card_says_what_is_sound_about_its_part(holder: QWidget) -> None:
    design, analysis, _ = verdict("small")
    told = next(item for item in analysis.praise if item.quiet)
    card = Card(History(design), holder)
    card.show_element(told.subjects[0])
    assert not card.told.sound.isVisible()
    card.show_analysis(analysis)
    assert card.told.sound.isVisible()
    assert f"✓ {told.message} ({told.clause})" in card.told.sound.text().splitlines()
    card.show_analysis(None)  # while the drawing is judged anew nothing holds
    assert not card.told.sound.isVisible()


def test_what_holds_in_one_state_is_not_called_sound(holder: QWidget) -> None:
    design, analysis, _ = verdict("small")
    told = next(item for item in analysis.praise if item.quiet)
    card = Card(History(design), holder)
    card.show_element(told.subjects[0])
    card.show_analysis(replace(analysis, partial=True))
    assert not card.told.sound.isVisible()
