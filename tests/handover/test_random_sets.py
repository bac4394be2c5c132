"""The sets of designs of chance: every name, size and finding is on paper, every sheet named is
there, and the drawing for other programs holds as much as the paper.

LINEWORK_RANDOM_DESIGNS=200 prints 200 designs instead of a seeded few. The files are read by pypdf
and ezdxf.
"""

from __future__ import annotations

import datetime
import io
import re
from collections import Counter
from functools import cache
from random import Random

import ezdxf
import pypdf
import pytest

from linework.design import Part, Run
from linework.handover.cad import dxf_bytes
from linework.handover.content import Content
from linework.handover.document import content_of, pages_bytes
from linework.handover.one_line import drawn_sheets
from linework.sheet.arranging import lay_out
from tests.chance import ALL, draft

DATE = datetime.date(2026, 3, 1)
NUMBERS = range(ALL) if ALL else sorted(Random(2).sample(range(200), 4))
pytestmark = pytest.mark.timeout(900)


@cache
def content(number: int) -> Content:
    return content_of(lay_out(draft(number).design), DATE)


@cache
def pages(number: int) -> tuple[str, ...]:
    reader = pypdf.PdfReader(io.BytesIO(pages_bytes(content(number))))
    return tuple(page.extract_text() for page in reader.pages)


def words(number: int) -> str:
    return "\n".join(pages(number))


@pytest.mark.parametrize("number", NUMBERS)
def test_every_name_size_and_finding_is_on_paper(number: int) -> None:
    here, told = content(number), words(number)
    things = [e for e in here.design.elements.values() if isinstance(e, Part | Run)]
    names = [thing.designation for thing in things]
    assert names
    assert [name for name in names if not re.search(rf"\b{re.escape(name)}\b", told)] == []
    values = [here.design.run_values(run) for run in here.design.runs]
    sizes = {each.text("size").replace("mm2", "mm²") for each in values if each.has("size")}
    assert [size for size in sizes if size not in told.replace("mm2", "mm²")] == []
    listed = re.findall(r"(?:^|\s)(\d+)\s+(?:danger|warning|note|accepted)\b", told)
    assert [f.number for f in here.told if str(f.number) not in listed] == []


@pytest.mark.parametrize("number", NUMBERS)
def test_every_sheet_that_is_named_is_there(number: int) -> None:
    named = {int(n) for n in re.findall(r"\bsheet (\d+)", words(number))}
    assert named
    assert named <= set(range(1, len(pages(number)) + 1))
    assert "sheet …" not in words(number)


@pytest.mark.parametrize("number", NUMBERS)
def test_the_drawing_holds_as_much_as_the_paper(number: int) -> None:
    here = content(number)
    parts: Counter[str] = Counter()
    runs: Counter[str] = Counter()
    for sheet in drawn_sheets(here):
        drawing = ezdxf.read(io.StringIO(dxf_bytes(here, sheet).decode("utf-8")))
        audit = drawing.audit()
        assert (audit.errors, audit.fixes) == ([], [])
        for insert in drawing.modelspace().query("INSERT"):
            parts[insert.get_attrib_text("DESIGNATION")] += 1
        for line in drawing.modelspace().query("LWPOLYLINE"):
            if line.has_xdata("LINEWORK"):
                runs[line.get_xdata("LINEWORK")[1].value] += 1
    assert parts == Counter(part.designation for part in here.design.parts)
    ends = Counter(
        here.design.get(key).designation  # type: ignore[union-attr]
        for sheet in drawn_sheets(here)
        for key in sheet.composition.items
        if isinstance(here.design.get(key), Run)
    )
    assert runs == ends
    assert runs.keys() == {run.designation for run in here.design.runs}
