"""The job's questions."""

from __future__ import annotations

from PySide6.QtWidgets import QDialog
from pytestqt.qtbot import QtBot

from linework.bench.file.jobform import JobForm
from linework.design import Design


def test_the_first_questions_make_settings(qtbot: QtBot) -> None:
    design = Design()
    form = JobForm(design, whole=False)
    qtbot.addWidget(form)
    form.family.setCurrentIndex(1)
    form.family.activated.emit(1)
    assert form.voltage.currentText() == "230 V"
    form.place.setCurrentIndex(form.place.findData("boat"))
    form.job.setText("Ketch")
    form.try_it()
    assert form.result() == QDialog.DialogCode.Accepted
    assert form.change is not None
    design.apply(form.change)
    settings = design.settings
    assert (
        settings.family,
        settings.place,
        settings.voltage,
        settings.frequency,
        settings.job,
    ) == (
        "INT",
        "boat",
        "230 V",
        "50 Hz",
        "Ketch",
    )


def test_a_voltage_without_unit_is_refused_in_the_form(qtbot: QtBot) -> None:
    form = JobForm(Design(), whole=True)
    qtbot.addWidget(form)
    form.show()
    form.voltage.setCurrentText("120")
    form.try_it()
    assert form.change is None
    assert form.fault.isVisible()
    assert "120" in form.fault.text()


def test_another_family_keeps_a_voltage_that_was_written(qtbot: QtBot) -> None:
    form = JobForm(Design(), whole=False)
    qtbot.addWidget(form)
    form.voltage.setCurrentText("48 V")
    form.family.setCurrentIndex(1)
    form.family.activated.emit(1)
    assert form.voltage.currentText() == "48 V"
