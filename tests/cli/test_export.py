"""export as a user calls it: the ending says the form, sheets and paper are chosen, or nothing."""

from __future__ import annotations

import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest
from PySide6.QtGui import QGuiApplication, QImage

from linework.cli import main
from linework.cli.entry import parser
from linework.design import Change, Design, Draft
from linework.handover.formats import ENDINGS
from linework.storage import save

ROOT = Path(__file__).resolve().parents[2]
DATE = ("--date", "2026-03-01")


def small() -> Design:
    """A set, a board, a breaker and an outlet, the last two on a sheet of their own."""
    draft = Draft(place="field", job="Pump house")
    draft.part("generator", "G1", at=(600, 800), power="5 kVA", bond_allowed="yes")
    draft.part("panel", "QP1", at=(1600, 800), main="30 A", bond="absent")
    draft.part("breaker", "QF1", rating="20 A")
    draft.seat("QF1", "QP1", "1")
    draft.part("outlet", "XD1", at=(1000, 800), configuration="5-20")
    draft.run("G1.out", "QP1.feed", size="10 AWG", length="25 ft")
    draft.run("QF1.load", "XD1.feed", size="12 AWG", length="40 ft")
    on_two = replace(draft.design.part("XD1"), sheet=2)
    draft.design.apply(Change("another sheet", {"XD1": (draft.design.part("XD1"), on_two)}))
    return draft.design


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "pump.linework"
    save(small(), path)
    return path


def export(file: Path, out: str, *more: str) -> int:
    return main(["export", str(file), "-o", str(file.parent / out), *DATE, *more])


def written(file: Path) -> set[str]:
    return {path.name for path in file.parent.iterdir()} - {file.name}


def test_sheets_are_written_each_to_its_file_and_named(
    file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert export(file, "x.svg") == 0
    assert written(file) == {"x-1.svg", "x-2.svg"}
    told = capsys.readouterr().out.splitlines()
    assert told == [f"written: {file.parent / name}" for name in ("x-1.svg", "x-2.svg")]
    words = [
        " ".join(ET.parse(file.parent / name).getroot().itertext())
        for name in sorted(written(file))
    ]
    assert "QP1" in words[0]
    assert "2 of 2" in words[1]
    ids = [
        {g.get("id") for g in ET.parse(file.parent / f"x-{n}.svg").iter() if g.get("id")}
        for n in (1, 2)
    ]
    assert {"G1", "QP1", "QF1", "W1"} <= ids[0]
    assert "XD1" in ids[1] - ids[0]


@pytest.mark.parametrize("asked", ["2", "diagram-2", " 2 ,2"])
def test_one_sheet_alone_takes_the_name_that_was_asked_for(file: Path, asked: str) -> None:
    assert export(file, "x.svg", "--sheets", asked) == 0
    assert written(file) == {"x.svg"}
    assert "2 of 2" in (file.parent / "x.svg").read_text(encoding="utf-8")


def test_on_another_paper_the_sheet_is_set_anew_in_its_true_size(file: Path) -> None:
    assert export(file, "x.svg", "--sheets", "1", "--paper", "a4") == 0
    root = ET.parse(file.parent / "x.svg").getroot()
    assert (root.get("width"), root.get("height")) == ("297mm", "210mm")
    assert root.get("viewBox") == "0 0 2970 2100"


def test_an_image_has_the_size_of_its_paper(qapp: QGuiApplication, file: Path) -> None:
    assert export(file, "x.png", "--sheets", "1", "--paper", "letter") == 0
    image = QImage(str(file.parent / "x.png"))
    assert (image.width(), image.height()) == (3300, 2550)  # 11 x 8.5 in at 300 dots


def test_an_image_needs_no_display(file: Path) -> None:
    out = file.parent / "x.png"
    bare = {k: v for k, v in os.environ.items() if not k.startswith(("QT_", "DISPLAY", "WAYLAND"))}
    command = [sys.executable, "-m", "linework", "export", str(file), "-o", str(out)]
    result = subprocess.run(
        [*command, "--sheets", "1"], cwd=ROOT, env=bare, capture_output=True, text=True, check=False
    )
    assert (result.returncode, result.stderr) == (0, "")
    assert QImage(str(out)).width() == 4961


def pages(file: Path, name: str) -> list[str]:
    return [page.extract_text() for page in pypdf.PdfReader(file.parent / name).pages]


def test_a_choice_of_pages_keeps_their_numbers(file: Path) -> None:
    assert export(file, "all.pdf") == 0
    assert export(file, "some.pdf", "--sheets", "runs,diagram,1") == 0
    every, some = pages(file, "all.pdf"), pages(file, "some.pdf")
    assert len(every) > len(some) == 4
    assert [page in every for page in some] == [True] * 4
    assert f"1 of {len(every)}" in " ".join(some[0].split())
    assert "W2" in some[3]


def test_links_of_a_choice_of_pages_lead_to_pages_of_it(file: Path) -> None:
    assert export(file, "some.pdf", "--sheets", "findings,diagram") == 0
    reader = pypdf.PdfReader(file.parent / "some.pdf")
    there = {page.indirect_reference.idnum for page in reader.pages if page.indirect_reference}
    links = [a.get_object() for page in reader.pages for a in page.get("/Annots", ())]
    assert links
    assert {link["/Dest"][0].idnum for link in links} <= there
    titles = {item.title for item in reader.outline}  # type: ignore[union-attr]
    assert {"One-line diagram 1", "One-line diagram 2", "Findings"} <= titles
    # and what stands on the same page
    assert titles.isdisjoint({"Test sheet", "Placards to cut out", "All states"})


def test_fields_to_be_filled_in_are_those_of_the_chosen_pages(file: Path) -> None:
    assert export(file, "tests.pdf", "--sheets", "tests") == 0
    fields = pypdf.PdfReader(file.parent / "tests.pdf").get_fields()
    assert fields
    assert export(file, "cover.pdf", "--sheets", "cover") == 0
    assert not pypdf.PdfReader(file.parent / "cover.pdf").get_fields()


def test_the_whole_set_on_another_paper(file: Path) -> None:
    assert export(file, "x.pdf", "--paper", "letter") == 0
    boxes = [page.mediabox for page in pypdf.PdfReader(file.parent / "x.pdf").pages]
    sizes = {(round(float(box.width)), round(float(box.height))) for box in boxes}
    assert (792, 612) in sizes  # 11 x 8.5 in
    assert sizes <= {(792, 612), (612, 792)}  # what is carried about stands upright
    told = " ".join(pages(file, "x.pdf"))
    assert [name for name in ("G1", "QP1", "QF1", "XD1") if name not in told] == []


@pytest.mark.parametrize("ending", [".svg", ".dxf", ".xlsx"])
def test_another_process_writes_the_same_bytes(file: Path, ending: str) -> None:
    made = []
    for seed in ("1", "2"):
        out = file.parent / f"{seed}{ending}"
        command = [sys.executable, "-m", "linework", "export", str(file), "-o", str(out), *DATE]
        subprocess.run(
            command if ending == ".xlsx" else [*command, "--sheets", "1"],
            cwd=ROOT,
            env=os.environ | {"PYTHONHASHSEED": seed},
            check=True,
            capture_output=True,
        )
        made.append(out.read_bytes())
    assert made[0] == made[1]


REFUSED = {
    "an ending that is not known": (("x.doc",), ".pdf, .svg"),
    "no ending": (("x",), ".pdf, .svg"),
    "a paper that is not known": (("x.pdf", "--paper", "A9"), "A3, A4, tabloid, letter"),
    "a sheet that is not there": (("x.svg", "--sheets", "3"), "1 to 2"),
    "a name that is not there": (("x.pdf", "--sheets", "runns"), "Did you mean 'runs'"),
    "a folder that is not there": (("no/such/x.svg",), "there is no such folder"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_done_is_said_and_nothing_is_written(
    file: Path, case: str, capsys: pytest.CaptureFixture[str]
) -> None:
    arguments, told = REFUSED[case]
    assert export(file, *arguments) == 2
    fault = capsys.readouterr().err
    assert told in fault
    assert "Traceback" not in fault
    assert written(file) == set()


def test_where_one_of_several_cannot_be_written_none_is(
    file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (file.parent / "x-2.svg").mkdir()
    assert export(file, "x.svg") == 2
    assert "x-2.svg was not saved: this is a folder" in capsys.readouterr().err
    assert written(file) == {"x-2.svg"}


def test_a_part_beyond_the_edge_of_the_paper_is_drawn_on_it(file: Path) -> None:
    design = small()
    far = replace(design.part("G1"), x=9000)
    design.apply(Change("far off", {"G1": (design.part("G1"), far)}))
    save(design, file)
    assert export(file, "x.svg") == 0
    drawn = [ET.parse(path).getroot() for path in sorted(file.parent.glob("x*.svg"))]
    ids = {group.get("id") for root in drawn for group in root.iter() if group.get("id")}
    assert {"G1", "QP1", "QF1", "XD1"} <= ids


def test_a_part_larger_than_the_paper_is_named_and_nothing_is_written(
    file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    draft = Draft(place="building", sheet="A4")
    draft.part("generator", "G1", at=(600, 800), power="5 kVA")
    draft.part("panel", "QP1", at=(1200, 800), main="30 A", bond="absent", places="30")
    for place in range(1, 31):
        draft.part("breaker", f"QF{place}", rating="20 A")
        draft.seat(f"QF{place}", "QP1", str(place))
    save(draft.design, file)
    (file.parent / "pump.linework.bak").unlink()
    assert export(file, "x.svg") == 2
    told = capsys.readouterr().err
    assert "QP1" in told
    assert "G1" not in told
    assert "on sheet 2 these parts" in told  # one of its own, and yet too small
    assert "larger paper" in told
    assert written(file) == set()


def test_help_names_every_ending(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        parser().parse_args(["export", "--help"])
    told = capsys.readouterr().out
    assert [ending for ending in ENDINGS if ending not in told] == []


def test_tables_are_written_each_to_its_file_or_into_one_workbook(file: Path) -> None:
    assert export(file, "x.csv") == 0
    assert {"x-materials.csv", "x-runs.csv", "x-findings.csv"} <= written(file)
    assert "x.csv" not in written(file)
    assert export(file, "x.xlsx") == 0
    assert export(file, "one.csv", "--sheets", "materials") == 0
    same = [(file.parent / name).read_bytes() for name in ("one.csv", "x-materials.csv")]
    assert same[0] == same[1]
