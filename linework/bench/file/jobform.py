"""The first questions of a new sheet, and later what holds for the whole job."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLineEdit,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from linework.bench.file.beginnings import beginnings, begun
from linework.bench.looks import Combo, Label, em, mark
from linework.design import Change, Design, EditError, Settings
from linework.design.edits import change_settings
from linework.words import N_, say

FAMILIES = (("NA", N_("North America")), ("INT", N_("elsewhere")))
PLACES = (
    ("recreational", N_("a recreational vehicle or caravan")),
    ("vehicle", N_("another vehicle or trailer")),
    ("boat", N_("a boat")),
    ("building", N_("a building")),
    ("field", N_("in the field")),
)
SHEETS = ("A3", "A4", "tabloid", "letter")
VOLTAGES = {
    "NA": ("120 V", "240 V", "12 V", "24 V", "48 V"),
    "INT": ("230 V", "12 V", "24 V", "48 V"),
}
_TITLES = (
    ("site", N_("Address or vehicle")),
    ("owner", N_("Legal owner")),
    ("reference", N_("Whom to ask")),
    ("number", N_("Drawing number")),
    ("status", N_("Status")),
    ("drawn_by", N_("Drawn by")),
    ("checked_by", N_("Approved by")),
    ("revision", N_("Revision")),
)
"""What the title block asks for besides, in a line each."""
_WEATHER = (
    ("climate", N_("Climate: a place of the table")),
    ("latitude", N_("Latitude in degrees, south negative")),
    ("altitude", N_("Height above the sea")),
    ("sun", N_("Own sun, kWh/m² a day, twelve figures")),
    ("warmth", N_("Own warmth, °C, twelve figures")),
)
"""What supply over time asks for."""
_MAINS = {"NA": ("120 V", "60 Hz"), "INT": ("230 V", "50 Hz")}


class JobForm(QDialog):
    """Asks where, what and which voltage; with ``whole`` also what the title block says.

    ``change`` is the edit that the answers make, once it was accepted.
    """

    def __init__(self, design: Design, whole: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._design, self._whole = design, whole
        self.change: Change | None = None
        self.setWindowTitle(say("The job") if whole else say("A new sheet"))
        layout = QVBoxLayout(self)
        form = QFormLayout()
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        self.setMinimumWidth(em(self, 40))
        layout.addLayout(form)
        settings = design.settings
        self.family = self._choice(form, say("Where will it be used?"), FAMILIES, settings.family)
        self.place = self._choice(form, say("What is it?"), PLACES, settings.place)
        self.voltage = self._voltage(form, settings)
        if not whole:
            self.beginning = self._choice(form, say("What feeds it?"), (), "")
            self._offer()
            self.place.activated.connect(self._offer)
        self.job = self._text(form, say("What is it called?"), settings.job)
        self.titles: dict[str, QLineEdit] = {}
        if whole:
            self._title_block(form, settings)
        self.fault = Label()
        self.fault.setWordWrap(True)
        self.fault.setAccessibleName(say("Why this was refused"))
        mark(self.fault, "tone", "danger")
        self.fault.hide()
        layout.addWidget(self.fault)
        layout.addWidget(self._buttons())
        self.family.activated.connect(self._family_picked)

    def _choice(
        self, form: QFormLayout, name: str, items: tuple[tuple[str, str], ...], now: str
    ) -> Combo:
        box = Combo(name)
        for value, label in items:
            box.addItem(say(label), value)
        box.setCurrentIndex(max(box.findData(now), 0))
        form.addRow(name, box)
        return box

    def _offer(self) -> None:
        """The beginnings for the family and place that are chosen."""
        kept = self.beginning.currentData()
        self.beginning.clear()
        for name, told in beginnings(self.family.currentData(), self.place.currentData()):
            self.beginning.addItem(told, name)
        self.beginning.setCurrentIndex(max(self.beginning.findData(kept), 0))

    def _voltage(self, form: QFormLayout, settings: Settings) -> Combo:
        box = Combo(say("Which voltage?"))
        box.setEditable(True)
        box.addItems(VOLTAGES.get(settings.family, VOLTAGES["NA"]))
        box.setCurrentText(settings.voltage)
        form.addRow(say("Which voltage?"), box)
        return box

    def _text(self, form: QFormLayout, name: str, now: str) -> QLineEdit:
        line = QLineEdit(now)
        line.setAccessibleName(name)
        form.addRow(name, line)
        return line

    def _lines(self, form: QFormLayout, name: str, now: str) -> QPlainTextEdit:
        box = QPlainTextEdit(now)
        box.setAccessibleName(name)
        box.setPlaceholderText(say("a line each: A; first issue; 2026-03-01; by whom"))
        box.setTabChangesFocus(True)
        box.setFixedHeight(box.fontMetrics().lineSpacing() * 3 + em(self, 1))
        form.addRow(name, box)
        return box

    def _title_block(self, form: QFormLayout, settings: Settings) -> None:
        self.frequency = self._text(form, say("Frequency"), settings.frequency)
        for key, name in (*_TITLES, *_WEATHER):
            self.titles[key] = self._text(form, say(name), getattr(settings, key))
        self.revisions = self._lines(form, say("Revisions"), settings.revisions)
        sheets = tuple((name, name) for name in SHEETS)
        self.sheet = self._choice(form, say("Paper"), sheets, settings.sheet)
        self.wet = QCheckBox(say("wet: water, rain or condensation reach it"))
        self.wet.setAccessibleName(say("Wet place"))
        self.wet.setChecked(settings.wet)
        form.addRow("", self.wet)

    def _buttons(self) -> QDialogButtonBox:
        buttons = QDialogButtonBox()
        word = say("&Keep") if self._whole else say("&Begin")
        yes = buttons.addButton(word, QDialogButtonBox.ButtonRole.AcceptRole)
        yes.setDefault(True)
        buttons.addButton(say("&Leave"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.accepted.connect(self.try_it)
        buttons.rejected.connect(self.reject)
        return buttons

    def _family_picked(self) -> None:
        """The usual mains of the place, unless another was written."""
        family = self.family.currentData()
        usual = {mains[0] for mains in _MAINS.values()}
        before = self.voltage.currentText()
        self.voltage.clear()
        self.voltage.addItems(VOLTAGES[family])
        self.voltage.setCurrentText(_MAINS[family][0] if before in usual else before)
        if self._whole:
            self.frequency.setText(_MAINS[family][1])
        else:
            self._offer()

    def answers(self) -> dict[str, object]:
        """The settings as they were answered."""
        family = self.family.currentData()
        found: dict[str, object] = {
            "family": family,
            "place": self.place.currentData(),
            "voltage": self.voltage.currentText().strip(),
            "frequency": _MAINS[family][1],
            "job": self.job.text().strip(),
        }
        if self._whole:
            found |= {
                "frequency": self.frequency.text().strip(),
                **{key: line.text().strip() for key, line in self.titles.items()},
                "revisions": self.revisions.toPlainText().strip(),
                "sheet": self.sheet.currentData(),
                "wet": self.wet.isChecked(),
            }
        return found

    def try_it(self) -> None:
        """Take the answers, or say what is wrong with them."""
        try:
            self.change = change_settings(self._design, **self.answers())
        except EditError as fault:
            self.fault.setText(str(fault))
            self.fault.show()
            return
        self.accept()


def first_questions(parent: QWidget | None = None) -> Design | None:
    """Ask; a new design with what was chosen to begin with, None if it was thought better of."""
    design = Design()
    form = JobForm(design, whole=False, parent=parent)
    form.setWindowModality(Qt.WindowModality.WindowModal)
    if form.exec() != QDialog.DialogCode.Accepted:
        return None
    if form.change:
        design.apply(form.change)
    return begun(form.beginning.currentData(), design.settings)
