"""Nothing that a file holds is markup on paper."""

from __future__ import annotations

import ast
import datetime
import io
import json
from pathlib import Path
from typing import Any

import pypdf
import pytest
from PIL import Image

import linework
from linework.design import Design, Draft
from linework.design.edits import change_settings
from linework.handover.document import set_bytes
from linework.handover.styles import text
from linework.storage import dumps, loads

DATE = datetime.date(2026, 3, 1)
PARSES_MARKUP = {"Paragraph", "XPreformatted", "TableOfContents", "SimpleIndex", "Preformatted"}
IDS = ("id", "from", "to", "part", "in", "excludes", "subjects", "poles")


def small() -> Design:
    """A generator, a panel, an outlet and a lamp: few states."""
    draft = Draft(place="field")
    draft.part("generator", "G1", at=(300, 500), power="3 kVA", voltage="120 V", neutral="bonded")
    draft.part("panel", "QP1", at=(1000, 500))
    draft.part("breaker", "QF1", rating="15 A")
    draft.part("lamp", "EL1", at=(1800, 500), power="100 W")
    draft.seat("QF1", "QP1", "1")
    draft.part("outlet", "XD1", at=(1800, 900))
    draft.run("G1.out", "QP1.feed", "W1", size="12 AWG", length="5 m")
    draft.run("QF1.load", "XD1.feed", "W2", size="14 AWG", length="5 m")
    draft.run("XD1.onward", "EL1.in", "W3", size="14 AWG", length="5 m")
    return draft.design


def hostile(picture: Path) -> Design:
    """A small design; all that a file may say freely is markup in it, ids among it."""
    tags = (
        f'<img src="{picture}" width="9" height="9"/>',
        '<a href="https://example.org/x">y</a>',
        '<a href="file:///etc/hosts" color="red">z',
        '"/><para><b>w</i> & &amp; ]]>',
        f"'/><img src='{picture}'/>",
    )
    raw = json.loads(dumps(small()))
    ids: dict[str, str] = {}
    for section in ("parts", "runs", "seats", "interlocks", "notes", "accepted"):
        for number, row in enumerate(raw[section]):
            ids[row["id"]] = f"{row['id']}{tags[number % len(tags)]}"
    for section in ("parts", "runs", "seats"):
        for number, row in enumerate(raw[section]):
            marked = renamed(row, ids)
            if "designation" in row:
                marked["designation"] = f"{row['designation']}{tags[number % len(tags)]}"
            if section == "parts":
                marked["title"] = tags[number % len(tags)]
            raw[section][number] = marked
    raw["interlocks"], raw["accepted"] = [], []
    raw["notes"] = [{"id": f"n{tags[0]}", "text": "".join(tags), "at": [500, 500]}]
    for key in ("job", "site", "drawn_by", "checked_by", "revision"):
        raw["settings"][key] = f"{key}{tags[0]}"
    for row in raw["runs"]:
        row["ratings"]["raceway"] = tags[1]
    design = loads(json.dumps(raw).encode(), "hostile")
    first = design.runs[0]
    assert "<img" in first.id
    return design


def renamed(value: Any, ids: dict[str, str]) -> Any:
    if isinstance(value, dict):
        return {key: renamed(item, ids) if key in IDS else item for key, item in value.items()}
    if isinstance(value, list):
        return [renamed(item, ids) for item in value]
    return ids.get(value, value) if isinstance(value, str) else value


@pytest.fixture(scope="module")
def picture(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A picture of this machine that nobody asked for, 3 by 3 points of red."""
    file = tmp_path_factory.mktemp("private") / "letter.png"
    Image.new("RGB", (3, 3), (255, 0, 0)).save(file)
    return file


@pytest.fixture(scope="module")
def made(picture: Path) -> bytes:
    return set_bytes(hostile(picture), date=DATE)


def test_no_picture_and_no_address_comes_into_the_set(made: bytes) -> None:
    reader = pypdf.PdfReader(io.BytesIO(made))
    targets = 0
    for page in reader.pages:
        assert list(page.images) == []
        for note in page.get("/Annots", []):
            found = note.get_object()
            assert "/A" not in found or found["/A"].get_object().get("/S") == "/GoTo"
            if found["/Subtype"] == "/Widget":  # a field of the test sheet, which does nothing
                assert found["/FT"] in ("/Tx", "/Btn")
                assert "/AA" not in found
                continue
            assert found["/Subtype"] == "/Link"
            targets += 1
    assert targets > 20  # those that we make
    for plain in (b"/URI", b"example.org", b"/Launch", b"/JavaScript"):
        assert plain not in made


def test_it_stands_there_as_it_was_written(made: bytes) -> None:
    reader = pypdf.PdfReader(io.BytesIO(made))
    told = "".join("".join(page.extract_text() for page in reader.pages).split())
    for words in ('<ahref="https://example.org/x">y</a>', '"/><para><b>w</i>&&amp;]]>', "<imgsrc="):
        assert words in told


def test_a_name_is_a_word_and_a_number() -> None:
    assert text("words", anchor="finding-3", link="part-12")
    for odd in ('x"/><img src="y"/>', "part-<b>", "part-1 ", "Part", "http://a", "#a", "part-²"):
        with pytest.raises(ValueError, match="cannot name"):
            text("words", link=odd)
        with pytest.raises(ValueError, match="cannot name"):
            text("words", anchor=odd)


@pytest.mark.parametrize(
    "odd", ["\x00", "\x1b[31m", "\ud800", "\x0b", "\ufffe", "\u2028", "a\tb\nc"]
)
def test_signs_without_a_shape_are_no_end_of_a_set(odd: str) -> None:
    design = Design()
    design.apply(change_settings(design, job=f"before{odd}after", site=odd))
    reader = pypdf.PdfReader(io.BytesIO(set_bytes(design, date=DATE)))
    assert "after" in reader.pages[0].extract_text()


def names_used(tree: ast.AST) -> set[str]:
    found: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom | ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.Name):
            found.add(node.id)
        elif isinstance(node, ast.Attribute):
            found.add(node.attr)
    return found


def test_one_module_makes_paragraphs() -> None:
    package = Path(linework.__file__).parent
    makers = {
        file.relative_to(package).as_posix()
        for file in package.rglob("*.py")
        if names_used(ast.parse(file.read_text(encoding="utf-8"))) & PARSES_MARKUP
    }
    assert makers == {"handover/markup.py"}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("Lowest temperature: -35 degC", "Lowest temperature: \N{MINUS SIGN}35\xa0°C"),
        ("25 ohm", "25\xa0Ω"),
        ("19.8 A of 37.5 A", "19.8\xa0A of 37.5\xa0A"),
        ("5-20, W12 and GP-1", "5-20, W12 and GP-1"),
        ("3 A4 sheets", "3 A4 sheets"),
    ],
)
def test_figures_stay_with_their_unit_and_have_the_signs_of_print(words: str, told: str) -> None:
    (frag,) = text(words).frags
    assert frag.text == told
    assert text(words).getPlainText() == told.replace("\xa0", " ")


def test_a_figure_is_not_parted_from_its_unit() -> None:
    made = text("up to 50 A / 57.6 V", "strong")
    made.wrap(74, 100)
    assert [words[-1] for _, words in made.blPara.lines] == ["/", "57.6\xa0V"]
