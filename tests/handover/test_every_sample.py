"""The sets of all samples on several papers: whole files, every name, nothing of the inside.

The files are read by programs that are not ours: the checker of qpdf and the reader of poppler.
"""

from __future__ import annotations

import datetime
import io
import re
import shutil
import subprocess
from functools import cache
from math import hypot
from pathlib import Path

import pypdf
import pytest

from linework.codes.tables import forums, source_titles
from linework.design import Design, Part, Run
from linework.findings.registry import rules
from linework.handover.content import Content
from linework.handover.document import content_of, pages_bytes
from linework.handover.furniture import Furniture
from linework.handover.sheets import Sheet
from linework.handover.styles import size_of
from linework.handover.testing import TESTS
from linework.picture.pdf import POINTS_PER_TENTH
from linework.storage import load

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
DATE = datetime.date(2026, 3, 1)
NAMES = sorted(path.stem for path in SAMPLES.glob("*.linework"))
PAPERS = ("A3", "A4", "letter")
every = pytest.mark.parametrize(("name", "paper"), [(n, p) for n in NAMES for p in PAPERS])


@cache
def content(name: str, paper: str) -> Content:
    if paper != PAPERS[0]:
        known = content(name, PAPERS[0])
        return content_of(known.design, DATE, known.analysis, paper)
    return content_of(load(SAMPLES / f"{name}.linework"), DATE, None, paper)


@cache
def made(name: str, paper: str) -> bytes:
    return pages_bytes(content(name, paper))


def outside(*command: str, data: bytes, where: Path) -> str:
    """What a program says of a file; the test is skipped where it is not installed."""
    if shutil.which(command[0]) is None:
        pytest.skip(f"{command[0]} is not installed")
    where.write_bytes(data)
    done = subprocess.run([*command], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def told(name: str, paper: str, tmp_path: Path) -> str:
    path = tmp_path / "set.pdf"
    return outside("pdftotext", "-layout", str(path), "-", data=made(name, paper), where=path)


def sizes(design: Design) -> set[str]:
    """Of all runs, as they are written."""
    values = [design.run_values(run) for run in design.runs]
    return {each.text("size") for each in values if each.has("size")}


@every
def test_a_set_is_a_whole_file(name: str, paper: str, tmp_path: Path) -> None:
    path = tmp_path / "set.pdf"
    said = outside("qpdf", "--check", str(path), data=made(name, paper), where=path)
    assert "No syntax or stream encoding errors" in said


@every
def test_every_name_size_and_finding_is_found(name: str, paper: str, tmp_path: Path) -> None:
    words = told(name, paper, tmp_path)
    here = content(name, paper)
    parts = [e for e in here.design.elements.values() if isinstance(e, Part | Run)]
    names = [e.designation for e in parts if e.designation]
    assert len(names) > 10
    assert [n for n in names if not re.search(rf"\b{re.escape(n)}\b", words)] == []
    assert [size for size in sizes(here.design) if size not in words] == []
    numbers = [str(f.number) for f in here.told]
    listed = re.findall(r"(?:^|\s)(\d+)\s+(?:danger|warning|note|accepted)\b", words)
    assert [n for n in numbers if n not in listed] == []


@every
def test_nothing_of_the_inside_is_printed(name: str, paper: str, tmp_path: Path) -> None:
    words = told(name, paper, tmp_path)
    assert re.findall(r"\b[a-z]+_[a-z_]+\b", words) == []
    assert re.findall(r"\b[A-Z]+\d+=\w+", words) == []
    assert [rule for rule in rules() if "-" in rule and rule in words] == []
    addresses = [source_titles()[code].split(", ")[-1] for code in forums()]
    assert len(addresses) > 3
    assert [address for address in addresses if address in words] == []


@every
def test_references_lead_to_sheets_that_there_are(name: str, paper: str, tmp_path: Path) -> None:
    words = told(name, paper, tmp_path)
    count = len(pypdf.PdfReader(io.BytesIO(made(name, paper))).pages)
    numbers = [int(n) for n in re.findall(r"\bsheet (\d+)", words)]
    assert numbers
    assert all(1 <= n <= count for n in numbers)
    assert "sheet …" not in words


@every
def test_what_is_read_is_high_enough(name: str, paper: str) -> None:
    """Capitals of 2.5 mm on the paper chosen; only in the title block lower ones, and in diagrams,
    which are made smaller as a whole."""
    here = content(name, paper)
    small = []
    for page in pypdf.PdfReader(io.BytesIO(made(name, paper))).pages:
        text = page.extract_text()
        if "one-line diagram" in text:
            continue
        upright = page.mediabox.height > page.mediabox.width
        foot = block_top(here, TESTS if upright else Sheet("x", "", "", TESTS.make))

        def visit(
            words: str,
            cm: list[float],
            tm: list[float],
            font: object,
            size: float,
            foot: float = foot,
        ) -> None:
            if words.strip() and tm[5] * cm[3] + cm[5] > foot:
                high = size * hypot(tm[2], tm[3]) * hypot(cm[2], cm[3])
                if high < size_of(25) - 0.05 and len(words.strip()) > 1:
                    small.append((words.strip(), round(high, 2)))

        page.extract_text(visitor_text=visit)
    assert small == []


def block_top(here: Content, sheet: Sheet) -> float:
    """The upper edge of the title block from below, in points."""
    frame = Furniture(here, sheet, 0).frame
    return (frame.height - frame.block.top) * POINTS_PER_TENTH


@every
def test_fields_of_the_form_are_told_apart(name: str, paper: str) -> None:
    fields = pypdf.PdfReader(io.BytesIO(made(name, paper))).get_fields()
    assert fields
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(made(name, paper)))
    key = next(key for key in fields if key.startswith("read-"))
    page = next(p for p in writer.pages if "Measure, write, compare" in p.extract_text())
    writer.update_page_form_field_values(page, {key: "1.5"})
    out = io.BytesIO()
    writer.write(out)
    assert pypdf.PdfReader(out).get_fields()[key]["/V"] == "1.5"  # type: ignore[index]


@pytest.mark.parametrize("name", NAMES)
def test_the_same_bytes_come_twice(name: str) -> None:
    assert pages_bytes(content(name, "A4")) == made(name, "A4")
