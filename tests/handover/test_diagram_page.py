"""The diagram on paper, looked at by another program: no writing on writing."""

from __future__ import annotations

import re
import shutil
import subprocess
from itertools import combinations
from pathlib import Path

import pypdf
import pytest

from tests.handover.drawn import printed

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
POPPLER = shutil.which("pdftotext")

_WORD = re.compile(
    r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>'
)

Box = tuple[float, float, float, float, str]


def boxes(file: Path, page: int) -> list[Box]:
    """The words of a page with their boxes in points, as poppler sees them."""
    assert POPPLER is not None
    command = [POPPLER, "-bbox", "-f", str(page), "-l", str(page), str(file), "-"]
    told = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    return [
        (float(m[1]), float(m[2]), float(m[3]), float(m[4]), m[5]) for m in _WORD.finditer(told)
    ]


def covers(one: Box, other: Box) -> bool:
    """Whether two words lie on each other; a box reaches above and below its letters, so that a
    quarter of its height does not count, nor a point of its width."""
    lower = min(one[3] - one[1], other[3] - other[1])
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return wide > 1.0 and high > 0.3 * lower


@pytest.mark.skipif(POPPLER is None, reason="needs pdftotext of poppler-utils")
@pytest.mark.parametrize("name", ["vaccination-trailer", "vaccination-trailer-as-sketched"])
def test_no_writing_lies_on_other_writing(name: str, tmp_path: Path) -> None:
    file = tmp_path / "set.pdf"
    file.write_bytes(printed(name))
    reader = pypdf.PdfReader(file)
    page = next(
        reader.get_destination_page_number(item)  # type: ignore[arg-type]
        for item in reader.outline
        if not isinstance(item, list) and item.title == "One-line diagram"
    )
    found = boxes(file, page + 1)
    drawn = {word for *_, word in found}
    assert {"GS1", "QP1", "TB1", "G1"} <= drawn
    assert len(found) > 100
    over = [(a[4], b[4]) for a, b in combinations(found, 2) if covers(a, b)]
    assert over == []
