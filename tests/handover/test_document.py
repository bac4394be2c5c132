"""The drawing set as a file: the same bytes, whole fonts, every name, ways through it."""

from __future__ import annotations

import datetime
import io
from pathlib import Path

import pypdf
import pytest
from pypdf.generic import ArrayObject

from linework.codes.tables import forums, source_titles
from linework.design import Design, Draft, Part, Run
from linework.handover import HandoverError, write_set
from linework.handover.document import set_bytes
from linework.sheet.arranging.arrange import lay_out, needs_arranging
from linework.storage import load
from tests.findings.camps import camp, caravan
from tests.handover.drawn import design_of, printed

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
DATE = datetime.date(2026, 3, 1)


@pytest.fixture(scope="module")
def sketched() -> Design:
    return design_of("vaccination-trailer-as-sketched")


@pytest.fixture(scope="module")
def reader() -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(printed("vaccination-trailer-as-sketched")))


def words(reader: pypdf.PdfReader) -> str:
    return "\n".join(page.extract_text() for page in reader.pages)


def test_the_same_design_and_date_give_the_same_bytes() -> None:
    one, other = caravan().design, caravan().design
    assert set_bytes(one, date=DATE) == set_bytes(one, date=DATE)
    # made again from nothing, with other ids for what sits where
    assert set_bytes(one, date=DATE) == set_bytes(other, date=DATE)


def test_another_date_gives_other_bytes() -> None:
    design = camp().design
    later = DATE + datetime.timedelta(days=1)
    assert set_bytes(design, date=DATE) != set_bytes(design, date=later)
    assert "2026-03-02" in words(pypdf.PdfReader(io.BytesIO(set_bytes(design, date=later))))


def test_addresses_of_forums_are_not_printed(reader: pypdf.PdfReader) -> None:
    told = " ".join(words(reader).split())
    titles = source_titles()
    named = {code for code in forums() if f"{code}: said in a forum" in told}
    assert named  # this sketch rests on some
    assert not [code for code in named if titles[code].split(", ")[-1] in told]
    assert not [word for word in ("forum H", ".com t=", "diychatroom") if word in told]


def test_every_font_is_embedded(reader: pypdf.PdfReader) -> None:
    found = 0
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].get_object().values():
            made = font.get_object()
            inner = made["/DescendantFonts"][0].get_object() if "/DescendantFonts" in made else made
            descriptor = inner["/FontDescriptor"].get_object()
            assert any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3"))
            found += 1
    assert found >= len(reader.pages)


def test_every_part_and_cable_is_named(reader: pypdf.PdfReader, sketched: Design) -> None:
    told = words(reader)
    names = [e.designation for e in sketched.elements.values() if isinstance(e, Part | Run)]
    assert len(names) > 40
    assert [name for name in names if name not in told] == []


def test_what_is_sound_is_told_with_the_reason(reader: pypdf.PdfReader) -> None:
    told = " ".join(words(reader).split())
    assert "Sound here, and why" in told
    assert "QF5 of 15 A is no larger than its conductors allow" in told
    assert "QF5 can break 10 kA" in told


def titles(outline: list[object]) -> list[str]:
    return [str(item.title) for item in outline if not isinstance(item, list)]  # type: ignore[attr-defined]


def test_the_outline_leads_to_every_section(reader: pypdf.PdfReader) -> None:
    found = titles(reader.outline)
    for title in (
        "One-line diagram",
        "All states",
        "Panel and conductor schedules",
        "Loads and devices",
        "Faults, time and current",
        "Findings",
        "Assumed values",
    ):
        assert title in found
    pages = [reader.get_destination_page_number(item) for item in reader.outline]  # type: ignore[arg-type]
    assert pages == sorted(pages)


def links(reader: pypdf.PdfReader) -> list[tuple[int, int]]:
    """Page on which a link lies, and page to which it leads; -1 where it leads nowhere."""
    numbers = {
        page.indirect_reference.idnum: n
        for n, page in enumerate(reader.pages)
        if page.indirect_reference
    }
    found = []
    for n, page in enumerate(reader.pages):
        for annotation in page.get("/Annots", ArrayObject()):
            entry = annotation.get_object()
            if entry["/Subtype"] == "/Link":
                target = entry.get("/Dest")
                leads = isinstance(target, ArrayObject) and target[0].idnum in numbers
                found.append((n, numbers[target[0].idnum] if leads else -1))
    return found


def section_of(reader: pypdf.PdfReader, page: int) -> str:
    """The title in the outline under which a page lies; the cover comes before all."""
    starts = [
        (reader.get_destination_page_number(item), str(item.title)) for item in reader.outline
    ]  # type: ignore[arg-type, union-attr]
    return max(((n, title) for n, title in starts if n <= page), default=(0, "Cover"))[1]


def sections_on(reader: pypdf.PdfReader, page: int) -> set[str]:
    """The titles of all that stands on a page: what begins there, and what goes on from before."""
    starts = [
        (reader.get_destination_page_number(item), str(item.title)) for item in reader.outline
    ]  # type: ignore[arg-type, union-attr]
    before = max(((n, title) for n, title in starts if n < page), default=(0, "Cover"))[1]
    return {before, *(title for n, title in starts if n == page)}


def test_every_link_leads_to_a_page_of_the_set(reader: pypdf.PdfReader) -> None:
    found = links(reader)
    assert len(found) > 50
    assert -1 not in {target for _, target in found}


_DRAWN = "One-line diagram"


def test_findings_and_flags_on_the_drawing_lead_to_each_other(reader: pypdf.PdfReader) -> None:
    ways = {(section_of(reader, a), section_of(reader, b)) for a, b in links(reader)}
    assert ("One-line diagram", "Findings") in ways
    assert ("Findings", "One-line diagram") in ways
    both = [(sections_on(reader, a), sections_on(reader, b)) for a, b in links(reader)]
    assert any("Cover" in here and "Findings" in there for here, there in both)
    # a row of a schedule leads to its symbol
    around = [sections_on(reader, a) for a, b in links(reader) if section_of(reader, b) == _DRAWN]
    assert any("Loads and devices" in titles_there for titles_there in around)


def test_it_opens_with_its_own_name_and_says_who_drew_it(reader: pypdf.PdfReader) -> None:
    assert reader.metadata is not None
    assert reader.metadata.title == "Travelling vaccination trailer, as first sketched"


def test_the_cover_tells_what_is_open_and_decides_nothing(reader: pypdf.PdfReader) -> None:
    cover = " ".join(reader.pages[0].extract_text().split())
    words_of = [word for word in cover.split() if word in ("danger:", "warning:")]
    assert (words_of.count("danger:"), words_of.count("warning:")) == (11, 1)
    assert "do not build or energise" in cover
    assert "licensed electrician" in cover
    assert "Carbon monoxide" in cover
    assert "pins-live" not in cover  # titles, not ids
    assert "Bare pins are live" in cover


def test_a_sound_set_never_says_safe_or_allowed() -> None:
    design = load(SAMPLES / "vaccination-trailer.linework")
    told = words(pypdf.PdfReader(io.BytesIO(set_bytes(design, date=DATE)))).lower()
    assert " is safe" not in told
    assert "code compliant" not in told
    assert "nfpa 70 (2023)" in told


def test_a_cell_taller_than_a_page_still_gives_a_document() -> None:
    draft: Draft = camp()
    word = "a-very-long-title-that-somebody-pasted "
    draft.part("load", "EA9", word * 400, power="10 W")
    draft.part("breaker", "QF9", rating="15 A")
    draft.seat("QF9", "QP1", "3")
    draft.run("QF9.load", "EA9.in", "W9", size="14 AWG", length="10 ft")
    reader = pypdf.PdfReader(io.BytesIO(set_bytes(draft.design, date=DATE)))
    assert "EA9" in words(reader)
    assert titles(reader.outline)[-2:] == ["All states", "Bill of materials"]


def test_one_word_wider_than_its_cell_still_gives_a_document() -> None:
    draft = camp()
    draft.part("load", "EA9", "x" * 3000, power="10 W")
    reader = pypdf.PdfReader(io.BytesIO(set_bytes(draft.design, date=DATE)))
    assert len(reader.pages) >= 7


def test_an_empty_design_gives_a_set() -> None:
    reader = pypdf.PdfReader(io.BytesIO(set_bytes(Design(), date=DATE)))
    assert "One-line diagram" in titles(reader.outline)


@pytest.mark.parametrize("sheet", ["A4", "letter", "tabloid"])
def test_every_paper_takes_it(sheet: str) -> None:
    draft = camp()
    made = Draft(place="field", sheet=sheet)
    assert made.design.settings.sheet == sheet
    pages = pypdf.PdfReader(io.BytesIO(set_bytes(made.design, date=DATE))).pages
    (page,) = [p.mediabox for p in pages[:2] if _DRAWN.lower() in p.extract_text()]
    assert page.width > page.height
    assert draft.design.settings.sheet == "A3"


def test_a_path_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    out = tmp_path / "nowhere" / "set.pdf"
    with pytest.raises(HandoverError) as told:
        write_set(camp().design, out, date=DATE)
    assert "set.pdf" in str(told.value)
    with pytest.raises(HandoverError):
        write_set(camp().design, tmp_path, date=DATE)
    assert list(tmp_path.iterdir()) == []


def test_an_earlier_set_is_not_lost_where_the_new_one_fails(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "set.pdf"
    write_set(camp().design, out, date=DATE)
    before = out.read_bytes()

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(HandoverError):
        write_set(caravan().design, out, date=DATE)
    assert out.read_bytes() == before


def test_a_design_that_was_never_drawn_is_laid_out_first() -> None:
    design = camp().design
    assert needs_arranging(design)
    assert set_bytes(design, date=DATE) == set_bytes(lay_out(design), date=DATE)


@pytest.mark.parametrize(("code", "tag"), [("en", "en"), ("de", "de"), ("pt_BR", "pt-BR")])
def test_it_says_in_which_language_it_is(
    code: str, tag: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("linework.handover.pages.language", lambda: code)
    made = pypdf.PdfReader(io.BytesIO(set_bytes(Design(), date=DATE)))
    assert made.root_object["/Lang"] == tag
