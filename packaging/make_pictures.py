"""Takes the pictures of the guide from the running program: run it after the window's look changed.

``python packaging/make_pictures.py`` writes resources/guide/*.png, without a screen. The last
one, a sheet of the set, needs pdftoppm.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from linework.bench import looks
from linework.bench.file.filing import Reply
from linework.bench.frame.window import BenchWindow
from linework.design import Design, Draft
from linework.handover.document import set_bytes
from linework.storage import save

OUT = Path(__file__).resolve().parent.parent / "resources" / "guide"
SIZE = (1240, 800)
WIDE = 900
"""Pixels of a picture, from left to right."""
PATIENCE_S = 60.0
SMOOTH = Qt.TransformationMode.SmoothTransformation


def sources(draft: Draft, neutral: str = "floating") -> None:
    """The set and the inlet."""
    draft.part(
        "generator",
        "G1",
        at=(500, 700),
        power="5 kVA",
        neutral=neutral,
        bond_allowed="yes",
        breaker="30 A",
    )
    draft.part("inlet", "XI1", at=(500, 1500), configuration="L5-30")


def middle(draft: Draft) -> None:
    """The changeover and the board."""
    draft.part("transfer_switch", "QS1", at=(1250, 1000), rating="30 A")
    draft.part("panel", "QP1", at=(2000, 1000), bond="absent", places="4")


def circuits(draft: Draft) -> None:
    """What sits in the board, what hangs on it, and the chassis."""
    draft.part("breaker", "QF1", rating="20 A", interrupting="10 kA", ground_fault="class_a")
    draft.part("breaker", "QF2", rating="15 A", interrupting="10 kA")
    draft.seat("QF1", "QP1", "1")
    draft.seat("QF2", "QP1", "2")
    draft.part("outlet", "XD1", at=(2950, 800), configuration="5-20")
    draft.part("load", "EL1", at=(2950, 1350), power="600 W")
    draft.part("body", "XB1", at=(2000, 1900))


def runs(draft: Draft) -> None:
    """The cables."""
    for a, b, size, length in (
        ("G1.out", "QS1.in2", "10 AWG", "10 ft"),
        ("XI1.inside", "QS1.in1", "10 AWG", "10 ft"),
        ("QS1.load", "QP1.feed", "10 AWG", "5 ft"),
        ("QF1.load", "XD1.feed", "12 AWG", "15 ft"),
        ("QF2.load", "EL1.in", "14 AWG", "15 ft"),
        ("QP1.ground", "XB1.tie", "8 AWG", "3 ft"),
    ):
        draft.run(a, b, size=size, length=length)


def van(*parts: Callable[[Draft], None]) -> Design:
    """The van as far as these have drawn it."""
    draft = Draft(job="Seed library van", place="vehicle", sheet="A3")
    for each in parts:
        each(draft)
    return draft.design


def bonded(draft: Draft) -> None:
    """The sources as the mend leaves them."""
    sources(draft, "bonded")


def shot(bench: BenchWindow, name: str) -> None:
    """The window as it is, smaller."""
    image = bench.grab().toImage().scaledToWidth(WIDE, SMOOTH)
    keep(image, name)


def keep(image: QImage, name: str) -> None:
    """Write a picture with few colours."""
    small = image.convertToFormat(QImage.Format.Format_Indexed8)
    assert small.save(str(OUT / f"{name}.png"))


def wait(until: Callable[[], bool]) -> None:
    """Let the window live until something is so."""
    end = time.monotonic() + PATIENCE_S
    while not until():
        assert time.monotonic() < end, "waited in vain"
        QApplication.processEvents()
        time.sleep(0.01)


def rest(bench: BenchWindow) -> None:
    """Until it is judged and lies still."""
    wait(lambda: bench.judging.up_to_date and bench.view.sync.settled and not bench.view.busy)
    end = time.monotonic() + 0.5
    wait(lambda: time.monotonic() > end)


def show(bench: BenchWindow, design: Design, folder: Path, name: str) -> None:
    """Open a design."""
    file = folder / f"{name}.linework"
    save(design, file)
    bench.filing.open(file)
    rest(bench)


def choose(bench: BenchWindow, designation: str) -> None:
    """Choose a part, so that its card opens."""
    bench.view.select((bench.history.design.by_designation(designation).id,))
    rest(bench)


def window_pictures(bench: BenchWindow, folder: Path) -> None:
    """One after the other, as the example goes."""
    shot(bench, "beginning-1")
    stages = {
        "beginning-2": (van(sources), "G1"),
        "beginning-3": (van(sources, middle), "QP1"),
        "beginning-4": (van(sources, middle, circuits), "QF1"),
        "beginning-5": (van(sources, middle, circuits, runs), ""),
    }
    for name, (design, chosen) in stages.items():
        show(bench, design, folder, name)
        if chosen:
            choose(bench, chosen)
        shot(bench, name)
    finding = next(f for f in bench.judging.analysis.findings if f.rule == "bond-missing")
    bench.findings.choose(finding)
    rest(bench)
    shot(bench, "beginning-6")
    show(bench, van(bonded, middle, circuits, runs), folder, "beginning-7")
    for _ in range(2):
        bench.commands.do_walk()
    rest(bench)
    shot(bench, "beginning-7")


def sheet_picture(folder: Path) -> None:
    """The first sheet of the set."""
    design = van(bonded, middle, circuits, runs)
    data = set_bytes(design, date=date(2026, 3, 1))
    file = folder / "set.pdf"
    file.write_bytes(data)
    command = ["pdftoppm", "-r", "80", "-f", "1", "-l", "1", "-png", "-singlefile"]
    subprocess.run([*command, str(file), str(folder / "set")], check=True)
    keep(QImage(str(folder / "set.png")).scaledToWidth(WIDE, SMOOTH), "beginning-8")


def main() -> None:
    """All of them."""
    OUT.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for key in ("XDG_STATE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "HOME"):
            os.environ[key] = name
        app = QApplication(sys.argv)
        looks.dress(app, "light")
        bench = BenchWindow(ask=lambda title, text, replies: Reply.NO)
        bench.resize(*SIZE)
        bench.show()
        bench.judge.start()
        window_pictures(bench, folder)
        sheet_picture(folder)
        bench.judge.stop()
        bench.filing.document.close()


if __name__ == "__main__":
    main()
