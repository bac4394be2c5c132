"""The sets of all samples on several papers: whole files, every name, nothing of the inside.

The files are read by programs that are not ours: the checker of qpdf and the reader of poppler.
"""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from math import hypot
from pathlib import Path

import pypdf
import pytest

from linework.codes.tables import forums, source_titles
from linework.design import Design, Part, Run
from linework.findings.registry import rules
from linework.handover.content import Content
from linework.handover.document import SHEETS, pages_bytes
from linework.handover.furniture import Furniture
from linework.handover.styles import size_of
from linework.picture.pdf import POINTS_PER_TENTH
from tests.handover.drawn import SAMPLES, printed, whole

NAMES = sorted(path.stem for path in SAMPLES.glob("*.linework"))
PAPERS = ("A3", "A4", "letter")
PAIRS = [(n, p) for n in NAMES for p in PAPERS if p == PAPERS[0] or not n.endswith("as-sketched")]
every = pytest.mark.parametrize(("name", "paper"), PAIRS)


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
    return outside("pdftotext", "-layout", str(path), "-", data=printed(name, paper), where=path)


def sizes(design: Design) -> set[str]:
    """Of all runs, as they are written."""
    values = [design.run_values(run) for run in design.runs]
    return {each.text("size") for each in values if each.has("size")}


@every
def test_a_set_is_a_whole_file(name: str, paper: str, tmp_path: Path) -> None:
    path = tmp_path / "set.pdf"
    said = outside("qpdf", "--check", str(path), data=printed(name, paper), where=path)
    assert "No syntax or stream encoding errors" in said


@every
def test_every_name_size_and_finding_is_found(name: str, paper: str, tmp_path: Path) -> None:
    words = told(name, paper, tmp_path)
    here = whole(name, paper)
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
    count = len(pypdf.PdfReader(io.BytesIO(printed(name, paper))).pages)
    numbers = [int(n) for n in re.findall(r"\bsheet (\d+)", words)]
    assert numbers
    assert all(1 <= n <= count for n in numbers)
    assert "sheet …" not in words


@every
def test_what_stands_on_a_later_page_of_its_sheet_is_named_by_that(name: str, paper: str) -> None:
    reader = pypdf.PdfReader(io.BytesIO(printed(name, paper)))
    pages = [" ".join(page.extract_text().split()) for page in reader.pages]
    for place, named in (
        ("Make it dead", r"By the order of sheet (\d+)"),
        ("Make it dead", r"\d+ steps, sheet (\d+)"),
        ("Device schedule", r"\bas sheet (\d+)"),
    ):
        at = {n for n, words in enumerate(pages, start=1) if place in words}
        told = {int(n) for words in pages for n in re.findall(named, words)}
        assert len(at) == 1
        assert told == at, named


@every
def test_what_is_read_is_high_enough(name: str, paper: str) -> None:
    """Capitals of 2.5 mm on the paper chosen; only in the title block lower ones, and where a block
    of the conductor drawing is wider than the paper."""
    here = whole(name, paper)
    small = []
    for page in pypdf.PdfReader(io.BytesIO(printed(name, paper))).pages:
        foot = block_top(here)
        least = size_of(19 if "conductor drawing" in page.extract_text() else 25)

        def visit(
            words: str,
            cm: list[float],
            tm: list[float],
            font: object,
            size: float,
            foot: float = foot,
            least: float = least,
        ) -> None:
            if words.strip() and tm[5] * cm[3] + cm[5] > foot:
                high = size * hypot(tm[2], tm[3]) * hypot(cm[2], cm[3])
                if high < least - 0.05 and len(words.strip()) > 1:
                    small.append((words.strip(), round(high, 2)))

        page.extract_text(visitor_text=visit)
    assert small == []


def block_top(here: Content) -> float:
    """The upper edge of the title block from below, in points."""
    frame = Furniture(here, 0).frame
    return (frame.height - frame.block.top) * POINTS_PER_TENTH


@every
def test_fields_of_the_form_are_told_apart(name: str, paper: str) -> None:
    fields = pypdf.PdfReader(io.BytesIO(printed(name, paper))).get_fields()
    assert fields
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(printed(name, paper)))
    key = next(key for key in fields if key.startswith("read-"))
    page = next(p for p in writer.pages if "Measure, write, compare" in p.extract_text())
    writer.update_page_form_field_values(page, {key: "1.5"})
    out = io.BytesIO()
    writer.write(out)
    assert pypdf.PdfReader(out).get_fields()[key]["/V"] == "1.5"  # type: ignore[index]


@pytest.mark.parametrize("name", NAMES)
def test_the_same_bytes_come_twice(name: str) -> None:
    assert pages_bytes(whole(name, PAPERS[0])) == printed(name, PAPERS[0])


def annex_of(name: str, paper: str) -> int:
    """The first page of the annex, as the outline leads to it."""
    reader, here = pypdf.PdfReader(io.BytesIO(printed(name, paper))), whole(name, paper)
    annex = {here.say(sheet.title) for sheet in SHEETS if sheet.annex}
    entries = [each for each in reader.outline if not isinstance(each, list)]
    pages = [reader.get_destination_page_number(each) for each in entries if each.title in annex]
    return 1 + min(page for page in pages if page is not None)


@pytest.mark.parametrize(
    ("name", "paper", "most"),
    [
        ("vaccination-trailer", "A3", 10),
        ("beekeepers-trailer", "A3", 5),
        ("beekeepers-trailer", "A4", 10),
    ],
)
def test_a_set_is_no_thicker_than_it_need_be(name: str, paper: str, most: int) -> None:
    assert annex_of(name, paper) - 1 <= most


@pytest.mark.parametrize("paper", ["A4", "letter"])
@pytest.mark.parametrize("name", ["vaccination-trailer", "beekeepers-trailer"])
def test_the_cover_is_one_page_with_the_list_of_all_sheets(name: str, paper: str) -> None:
    """The sheets that are signed, and beside them those of the annex."""
    here = whole(name, paper)
    first = pypdf.PdfReader(io.BytesIO(printed(name, paper))).pages[0].extract_text()
    numbered = [
        here.say(sheet.title)
        for sheet in SHEETS
        if re.search(rf"\d+\n{here.say(sheet.title)}", first)
    ]
    assert {"Test sheet", "Placards to cut out", "Bill of materials", "All states"} <= {*numbered}
    assert first.index("Signatures") < first.index("Annex") < first.index("Bill of materials")
    assert first.index("inspected by") < first.index("Bill of materials")


LEAST_FULL = 0.45
"""A page of a stretch holds so much of what it could; a table that is kept whole may leave half."""


def how_full(data: bytes, here: Content, where: Path) -> list[float]:
    """Of each page that is no diagram how far down it is used, of the room above the title block:
    the mean of its left and right half, each down to the lowest ink. 1 of a diagram."""
    where.write_bytes(data)
    drawn = ["one-line diagram" in p.extract_text() for p in pypdf.PdfReader(where).pages]
    done = subprocess.run(
        ["pdftoppm", "-r", "25.4", "-gray", str(where)], capture_output=True, check=True
    ).stdout
    frame = Furniture(here, 0).frame
    top, bottom = frame.area.top // 10 + 3, frame.block.top // 10 - 2
    # inside the marks that halve the sheet
    left, right = frame.area.left // 10 + 7, frame.area.right // 10 - 7
    middle = (left + right) // 2
    found, at = [], 0
    for diagram in drawn:
        head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", done[at : at + 40])
        assert head is not None
        wide, high = int(head[1]), int(head[2])
        dots = done[at + head.end() : at + head.end() + wide * high]
        at += head.end() + wide * high
        if diagram:  # on A4 of another format
            found.append(1.0)
            continue
        halves = ((left, middle), (middle, right))
        inked = [
            [y for y in range(top, bottom) if min(dots[y * wide + a : y * wide + b]) < 170]
            for a, b in halves
        ]
        lowest = [max(rows, default=top) for rows in inked]
        found.append(sum(y - top for y in lowest) / 2 / (bottom - top))
    return found


@pytest.mark.parametrize(("name", "paper"), [*PAIRS, ("vaccination-trailer", "tabloid")])
def test_no_page_but_the_last_of_a_stretch_is_half_empty(
    name: str, paper: str, tmp_path: Path
) -> None:
    """A stretch ends before a diagram, before the annex and with the set."""
    if shutil.which("pdftoppm") is None:
        pytest.skip("pdftoppm is not installed")
    here = whole(name, paper)
    data = printed(name, paper)
    full = how_full(data, here, tmp_path / "set.pdf")
    pages = pypdf.PdfReader(io.BytesIO(data)).pages
    diagrams = {n for n, page in enumerate(pages) if "one-line diagram" in page.extract_text()}
    last = {n - 1 for n in (*diagrams, annex_of(name, paper) - 1, len(pages))}
    assert len(full) == len(pages) > len(last)
    assert [
        (n + 1, round(each, 2))
        for n, each in enumerate(full)
        if each < LEAST_FULL and n not in last
    ] == []
