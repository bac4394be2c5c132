"""The main job by a person's hand: from the empty sheet to the drawing set, in a real window."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QDialog, QWidget

from linework.bench.file.jobform import JobForm
from linework.bench.frame.window import BenchWindow
from linework.storage import dumps, load
from tests.bench.person import Person

pytestmark = pytest.mark.window


@pytest.fixture
def person(empty_bench: BenchWindow) -> Person:
    return Person(empty_bench)


def judged(person: Person) -> set[str]:
    """Wait for the verdict; the ids of what is of level warning or danger."""
    judging = person.bench.judging
    person.wait(lambda: judging.up_to_date)
    assert judging.analysis is not None
    return {finding.rule for finding in judging.analysis.findings if finding.level > 1}


def mend_of(person: Person, rule: str) -> QWidget:
    """The button that mends a finding, once it lies still."""
    margin = person.bench.margin

    def shown() -> list[QWidget]:
        return [c.mend for c in margin.cards if c.finding and c.finding.rule == rule]

    person.wait(lambda: person.bench.judging.up_to_date and any(m.isVisible() for m in shown()))
    (button,) = shown()
    person.lies_still(button)
    return button


def begin(person: Person) -> None:
    def answer(form: QDialog) -> None:
        assert isinstance(form, JobForm)
        person.pick(form.place, "another vehicle")
        person.click(form.job)
        person.type("Seed library van")
        person.press("Return")

    button = person._named("New", person.bench.start)
    person.dialog(lambda: person.click(button), answer)
    assert person.design.settings.place == "vehicle"


def draw(person: Person) -> None:
    """A floating set, an inlet, the changeover, a board with two circuits, the chassis."""
    assert person.drag_part("generator", (600, 700)) == "G1"
    person.rate("G1", power="5 kVA", neutral="floating", bond_allowed="yes", breaker="30 A")
    inlet = person.type_part("L5-30 inlet", (600, 1600))
    switch = person.type_part("30 A transfer switch", (1300, 1100))
    board = person.type_part("panel", (2000, 1100))
    person.rate(board, bond="absent", places="4")
    first = person.drag_part("breaker", person.place_of(board, "1"))
    second = person.drag_part("breaker", person.place_of(board, "2"))
    outlet = person.type_part("5-20 outlet", (3100, 800))
    load_ = person.type_part("600 W fixed load", (3100, 1400))
    chassis = person.type_part("chassis", (2000, 2100))
    person.rate(first, rating="20 A", interrupting="10 kA", ground_fault="class_a")
    person.rate(second, rating="15 A", interrupting="10 kA")
    cables = [
        ("G1.out", f"{switch}.in2", "10 AWG", "10 ft"),
        (f"{inlet}.inside", f"{switch}.in1", "10 AWG", "10 ft"),
        (f"{switch}.load", f"{board}.feed", "10 AWG", "5 ft"),
        (f"{first}.load", f"{outlet}.feed", "12 AWG", "15 ft"),
        (f"{second}.load", f"{load_}.in", "14 AWG", "15 ft"),
        (f"{board}.ground", f"{chassis}.tie", "8 AWG", "3 ft"),
    ]
    for a, b, size, length in cables:
        run = person.join(a, b)
        person.rate_run(run, size=size, length=length)


def test_from_the_empty_sheet_to_the_drawing_set(
    person: Person, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert QGuiApplication.platformName() == "xcb"
    begin(person)
    draw(person)

    # judged: one thing is wrong; the offered mend cures it
    assert judged(person) == {"bond-missing"}
    person.click(mend_of(person, "bond-missing"))
    person.wait(lambda: person.design.by_designation("G1").ratings["neutral"] == "bonded")
    assert judged(person) == set()
    analysis = person.bench.judging.analysis
    assert analysis is not None
    assert analysis.silent
    # No shore is drawn at the inlet: what comes in there was not judged, and that is said.
    assert [(gap.rule, gap.where) for gap in analysis.gaps] == [("load-never-fed", ("XI1",))]

    # all of it undone, and done again
    whole = dumps(person.design)
    person.choose_nothing()
    person.press_while("ctrl+z", lambda: bool(person.bench.history.undo_title))
    assert not person.design.parts
    person.press_while("ctrl+shift+z", lambda: bool(person.bench.history.redo_title))
    assert dumps(person.design) == whole

    # saved, and read again
    file = tmp_path / "van.linework"
    person.dialog(lambda: person.press("ctrl+s"), person.name_file(file))
    person.wait(file.exists)
    assert dumps(load(file)) == whole

    # opened again in the window
    person.dialog(lambda: person.press("ctrl+o"), person.name_file(file))
    person.wait(lambda: not person.bench.history.undo_title)
    assert person.bench.filing.document.saved
    assert dumps(person.design) == whole
    assert judged(person) == set()

    # handed over
    paper = tmp_path / "van.pdf"
    person.dialog(lambda: person.press("ctrl+p"), person.name_file(paper))
    person.wait(paper.exists)
    text = "\n".join(page.extract_text() for page in PdfReader(paper).pages)
    names = [part.designation for part in person.design.parts]
    names += [run.designation for run in person.design.runs]
    assert len(names) == 15
    assert [name for name in names if name not in text] == []
    with capsys.disabled():
        print(f"\nA small van from nothing to the drawing set: {person.tally()}")
