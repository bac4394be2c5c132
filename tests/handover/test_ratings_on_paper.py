"""The bill of materials has every rating as it was given, and what is assumed in brackets."""

from __future__ import annotations

import datetime
import io
from pathlib import Path

import pypdf
import pytest

from linework.design import Draft
from linework.handover.document import set_bytes
from linework.storage import load

SAMPLES = Path(__file__).resolve().parents[2] / "samples"


@pytest.fixture(scope="module")
def pages() -> list[str]:
    design = load(SAMPLES / "beekeepers-trailer.linework")
    made = set_bytes(design, date=datetime.date(2026, 1, 2))
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(made)).pages]


def squeezed(text: str) -> str:
    return " ".join(text.split())


def test_the_ratings_of_the_array_are_on_paper(pages: list[str]) -> None:
    begins = next(
        n for n, page in enumerate(pages) if "Bill of materials" in page and "Counted from" in page
    )
    bill = squeezed(" ".join(pages[begins : begins + 2]))  # it may go on over the page
    assert "Open-circuit voltage of a module: 22.5 V" in bill
    assert "open-circuit voltage for each degree: \N{MINUS SIGN}0.3 %" in bill
    assert "Lowest temperature: \N{MINUS SIGN}20 °C" in bill
    assert "15 A, [125 V]" in bill  # of a fuse whose marking is not given
    for name in ("GB1", "GP1", "TC1", "QB1", "QB2", "F1", "F5", "EL1"):
        assert name in bill


def test_what_was_said_is_on_paper_and_an_ordinary_no_is_not() -> None:
    d = Draft(place="vehicle")
    own = {"cranking_amperes": "800 A", "discharge_limit": "100 A", "charge_limit": "50 A"}
    d.part("battery", "GB1", fault_current="3 kA", **own)
    d.part("load", "EA1", power="600 W", checks_bond="yes", largest_device="20 A")
    d.part("load", "EA2", power="600 W")
    d.part("load", "EA3", power="600 W", continuous="no")
    made = set_bytes(d.design, date=datetime.date(2026, 1, 2))
    text = (page.extract_text() for page in pypdf.PdfReader(io.BytesIO(made)).pages)
    bill = squeezed(
        next(page for page in text if "Bill of materials" in page and "Counted from" in page)
    )
    for said in (
        "Cranking amperes: 800 A",
        "Highest charging voltage: [14.4 V]",
        "Its management gives for good: 100 A",
        "Its management takes: 50 A",
        "Largest breaker or fuse on the nameplate: 20 A",
    ):
        assert said in bill
    assert bill.count("Works only with neutral joined to ground") == 1
    assert bill.count("Runs for three hours or more: no") == 1
