"""The diagram as DXF, read back: sound, complete, in millimetres, on layers that mean something."""

from __future__ import annotations

import datetime
import io
import math
import re
from dataclasses import replace
from pathlib import Path

import ezdxf
import pytest
from ezdxf import path as paths
from ezdxf.document import Drawing
from ezdxf.math import Vec2

from linework.design import Change, Design, Draft
from linework.handover.cad import LAYERS, dxf_bytes
from linework.handover.cad.shapes import Pencil, colored
from linework.handover.cad.sheet import chained
from linework.handover.content import Content
from linework.handover.document import content_of
from linework.handover.one_line import drawn_sheets
from linework.picture.inks import Ink, Pen
from linework.picture.marks import jump
from linework.picture.measure import arc_points
from linework.picture.model import Arc, Bezier, Group, Polyline, Rect
from linework.picture.palettes import contrast
from linework.sheet.energised import is_tie
from tests.handover.drawn import whole

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
DATE = datetime.date(2026, 3, 1)
A4 = (297.0, 210.0)


def read(data: bytes) -> Drawing:
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def drawings_of(content: Content) -> list[Drawing]:
    return [read(dxf_bytes(content, sheet)) for sheet in drawn_sheets(content)]


@pytest.fixture(scope="module")
def trailer() -> Content:
    return whole("vaccination-trailer-as-sketched")


@pytest.fixture(scope="module")
def drawing(trailer: Content) -> Drawing:
    (made,) = drawings_of(trailer)
    return made


def attributes(drawing: Drawing) -> dict[str, dict[str, str]]:
    found = [
        {attribute.dxf.tag: attribute.dxf.text for attribute in insert.attribs}
        for insert in drawing.modelspace().query("INSERT")
    ]
    return {told["DESIGNATION"]: told for told in found}


def runs_in(drawing: Drawing) -> list[tuple[str, str, str]]:
    """Name, conductors and layer of each run."""
    found = []
    for line in drawing.modelspace().query("LWPOLYLINE"):
        if line.has_xdata("LINEWORK"):
            data = [tag.value for tag in line.get_xdata("LINEWORK") if tag.code == 1000]
            assert data[0] == "RUN"
            found.append((data[1], data[2], line.dxf.layer))
    return found


def test_the_file_is_sound_and_in_millimetres(drawing: Drawing) -> None:
    audit = drawing.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert drawing.dxfversion == "AC1024"  # R2010
    assert drawing.header["$INSUNITS"] == 4  # millimetres
    assert drawing.header["$MEASUREMENT"] == 1
    assert set(LAYERS) <= {layer.dxf.name for layer in drawing.layers}
    used = {entity.dxf.layer for entity in drawing.modelspace()}
    assert used <= set(LAYERS)


def test_every_part_is_one_insertion_of_the_block_of_its_kind(
    trailer: Content, drawing: Drawing
) -> None:
    design = trailer.design
    inserts = drawing.modelspace().query("INSERT")
    assert len(inserts) == len(design.parts)
    told = attributes(drawing)
    assert set(told) == {part.designation for part in design.parts}
    kinds = {insert.attribs[0].dxf.text: insert.dxf.name.split("_")[0] for insert in inserts}
    assert all(design.kind(part).key.startswith(kinds[part.designation]) for part in design.parts)
    assert told["XP1"]["TITLE"] == "shore cord"
    assert told["QF6"]["RATING"] == "20 A, GFCI class A"
    assert told["QF6"]["KIND"] == "breaker"
    assert all(attribute.is_invisible for insert in inserts for attribute in insert.attribs)


def test_every_run_is_one_polyline_with_its_name_on_a_layer_that_tells_what_it_is(
    trailer: Content, drawing: Drawing
) -> None:
    design = trailer.design
    runs = runs_in(drawing)
    assert sorted(name for name, _, _ in runs) == sorted(run.designation for run in design.runs)
    grounds = {run.designation for run in design.runs if is_tie(design, run)}
    assert 0 < len(grounds) < len(runs)
    assert {name for name, _, layer in runs if layer == "GROUNDS"} == grounds
    assert {layer for _, _, layer in runs} == {"GROUNDS", "CONDUCTORS"}
    told = {name: conductors for name, conductors, _ in runs}
    assert told["W6"] == "2 × 12 AWG + ground wire 12 AWG"


def test_a_run_begins_and_ends_at_its_terminals(trailer: Content, drawing: Drawing) -> None:
    (sheet,) = drawn_sheets(trailer)
    ways, height = sheet.composition.ways, sheet.picture.height
    names = {run.designation: run.id for run in trailer.design.runs}
    for line in drawing.modelspace().query("LWPOLYLINE"):
        if line.has_xdata("LINEWORK"):
            way = ways[names[line.get_xdata("LINEWORK")[1].value]]
            ends = [(x / 10, (height - y) / 10) for x, y in (way[0], way[-1])]
            found = [tuple(line[0][:2]), tuple(line[-1][:2])]
            assert [*map(pytest.approx, ends)] == found


@pytest.mark.parametrize("ends", [(0, 88, 112, 200), (200, 112, 88, 0)])
def test_a_bow_over_another_run_leads_upwards(ends: tuple[int, int, int, int]) -> None:
    a, b, c, d = ends
    first, last = Polyline(((a, 100), (b, 100))), Polyline(((c, 100), (d, 100)))
    points, rest = chained(Group((first, *jump(100, 100), last), tag="W1"))
    assert rest == []
    drawing = ezdxf.new("R2010")
    line = Pencil(drawing.modelspace(), 1000, 0.1).chain(points, Pen(), "CONDUCTORS")
    around = [Vec2(p) for p in paths.make_path(line).flattening(0.001)]
    assert min(Vec2(10.0, 91.2).distance(p) for p in around) < 0.05  # 1.2 mm above the line
    assert min(p.y for p in around) == pytest.approx(90.0)


def test_all_writing_of_the_sheet_is_text(trailer: Content, drawing: Drawing) -> None:
    (sheet,) = drawn_sheets(trailer)
    blocks = [block for block in drawing.blocks if not block.name.startswith("*")]
    layouts = [drawing.modelspace(), *blocks]
    found = {text.plain_text() for layout in layouts for text in layout.query("TEXT")}
    assert {text.text for text in sheet.composition.texts} <= found
    heights = {round(text.dxf.height, 2) for text in drawing.modelspace().query("TEXT")}
    assert heights
    assert min(heights) >= 1.8


def test_flags_of_findings_have_their_layer(trailer: Content, drawing: Drawing) -> None:
    texts = drawing.modelspace().query('TEXT[layer=="FINDINGS"]')
    numbers = {int("".join(sign for sign in text.dxf.text if sign.isdigit())) for text in texts}
    assert numbers
    assert numbers <= {finding.number for finding in trailer.analysis.findings}


def test_the_same_sheet_gives_the_same_bytes(trailer: Content) -> None:
    (sheet,) = drawn_sheets(trailer)
    assert dxf_bytes(trailer, sheet) == dxf_bytes(trailer, sheet)


def two_sheets() -> Design:
    draft = Draft(place="field", job="Pump house")
    draft.part("generator", "G1", 'set "A" %%c ^J Ω', at=(600, 800), power="5 kVA")
    draft.part("panel", "QP1", at=(1600, 800), main="30 A", bond="absent")
    draft.part("outlet", "XD1", at=(1000, 800), configuration="5-20")
    draft.run("G1.out", "QP1.feed", size="10 AWG", length="25 ft")
    draft.run("QP1.feed", "XD1.feed", size="12 AWG", length="40 ft")
    on_two = replace(draft.design.part("XD1"), sheet=2)
    draft.design.apply(Change("another sheet", {"XD1": (draft.design.part("XD1"), on_two)}))
    return draft.design


def large_board() -> Design:
    """A board that is as high as an A3 sheet allows."""
    draft = Draft(sheet="A3")
    draft.part("supply", "GS1", at=(400, 500))
    draft.part("panel", "QP1", at=(1500, 500), places="15")
    for row in range(1, 16):
        draft.part("breaker", f"QF{row}", rating="20 A")
        draft.seat(f"QF{row}", "QP1", str(row))
    draft.run("GS1.out", "QP1.feed", size="6 AWG", length="10 ft")
    return draft.design


def test_over_all_sheets_every_part_is_there_once_and_a_run_between_them_on_both() -> None:
    one, other = drawings_of(content_of(two_sheets(), DATE))
    assert [set(attributes(drawing)) for drawing in (one, other)] == [{"G1", "QP1"}, {"XD1"}]
    assert sorted(name for name, _, _ in runs_in(one)) == ["W1", "W2"]
    assert [name for name, _, _ in runs_in(other)] == ["W2"]


def test_signs_that_mean_something_to_drawing_programs_are_kept_as_they_are() -> None:
    one, _ = drawings_of(content_of(two_sheets(), DATE))
    assert not one.audit().errors
    assert attributes(one)["G1"]["TITLE"] == 'set "A" %%c ^J Ω'
    words = [text.plain_text() for text in one.modelspace().query('TEXT[layer=="TEXT"]')]
    assert 'set "A" %%c ^J Ω' in words


def test_on_a_smaller_paper_all_is_as_large_and_lines_as_wide() -> None:
    design = two_sheets()
    large, small = (
        [read(dxf_bytes(content, sheet)) for sheet in drawn_sheets(content)]
        for content in (content_of(design, DATE), content_of(design, DATE, paper="A4"))
    )
    assert {tuple(sheet.header["$LIMMAX"]) for sheet in small} == {A4}
    for one, other in zip(large, small, strict=True):
        assert set(attributes(one)) == set(attributes(other))
        heights = [{e.dxf.height for e in d.modelspace().query("TEXT")} for d in (one, other)]
        assert heights[0] == heights[1]
        widths = [{e.dxf.lineweight for e in d.modelspace().query("LINE")} for d in (one, other)]
        assert widths[0] == widths[1]


def test_what_is_cut_for_a_smaller_paper_is_a_drawing_for_each_sheet(trailer: Content) -> None:
    """The number of a drawing is that of its sheet: so programs file them, and so each is one."""
    content = content_of(trailer.design, DATE, trailer.analysis, "A4")
    sheets = [read(dxf_bytes(content, sheet)) for sheet in drawn_sheets(content)]
    assert len(sheets) > 1
    found = [name for sheet in sheets for name in attributes(sheet)]
    assert sorted(found) == sorted(part.designation for part in content.design.parts)
    for sheet in sheets:
        assert not sheet.audit().errors
        words = [t.plain_text() for t in sheet.modelspace().query('TEXT[layer=="TEXT"]')]
        named = [re.match(r"match line ([A-Z])-\1$", word) for word in words]
        lines = sheet.modelspace().query('*[layer=="TIES"]')
        chains = [line for line in lines if line.dxf.linetype == "CHAIN"]
        assert len(chains) == sum(map(bool, named)) > 0


def test_a_board_larger_than_the_paper_is_made_smaller_and_lies_in_the_middle() -> None:
    content = content_of(large_board(), DATE, paper="letter")
    drawing = read(dxf_bytes(content, drawn_sheets(content)[0]))
    lines = drawing.modelspace().query('LWPOLYLINE[layer=="FRAME"]')
    box = [point for line in lines for point in line.get_points("xy")]
    # An A3 sheet of 420 x 297 mm on 279.4 x 215.9 mm: 0.6652 of its size, 9.2 mm free above.
    assert min(x for x, _ in box) == pytest.approx(20 * 279.4 / 420, abs=0.1)
    assert min(y for _, y in box) == pytest.approx(9.2 + 10 * 279.4 / 420, abs=0.1)


@pytest.mark.parametrize(
    "arc",
    [
        Arc(500, 300, 100, 100, 30, 200),
        Arc(500, 300, 100, 100, 200, -250),
        Arc(500, 300, 100, 60, 30, 200),
        Arc(500, 300, 60, 100, 200, -250),
        Arc(500, 300, 60, 100, 0, 360),
        Arc(500, 300, 80, 80, 0, 360),
    ],
    ids=str,
)
def test_arcs_lie_where_they_lie_on_paper(arc: Arc) -> None:
    """Every point of the arc is on the entity, and the entity goes no farther."""
    drawing = ezdxf.new("R2010")
    Pencil(drawing.modelspace(), 1000, 0.1).leaf(arc, "SYMBOLS")
    (entity,) = drawing.modelspace()
    drawn = [Vec2(p) for p in paths.make_path(entity).flattening(0.001)]
    meant = [
        Vec2(x / 10, (1000 - y) / 10)
        for x, y in arc_points(arc, (arc.start + arc.sweep * n / 100 for n in range(101)))
    ]
    assert max(min(p.distance(q) for q in drawn) for p in meant) < 0.35
    assert max(min(p.distance(q) for q in meant) for p in drawn) < 0.35


def test_curves_and_round_corners_lie_where_they_lie_on_paper() -> None:
    drawing = ezdxf.new("R2010")
    pencil = Pencil(drawing.modelspace(), 1000, 0.1)
    pencil.leaf(Bezier(((0, 500), (100, 400), (200, 600), (300, 500))), "SYMBOLS")
    pencil.leaf(Rect(500, 500, 160, 60, radius=20), "SYMBOLS")
    curve, rounded = drawing.modelspace()
    # At half of a cubic curve: (P0 + 3 P1 + 3 P2 + P3) / 8.
    middle = Vec2(15.0, 50.0)
    assert min(middle.distance(Vec2(p)) for p in paths.make_path(curve).flattening(0.001)) < 0.1
    around = [Vec2(p) for p in paths.make_path(rounded).flattening(0.001)]
    corner = Vec2(52 - 2 * math.sqrt(0.5), 48 + 2 * math.sqrt(0.5))
    assert min(corner.distance(p) for p in around) < 0.05
    assert min(p.x for p in around) == pytest.approx(50)
    assert max(p.y for p in around) == pytest.approx(50)


@pytest.mark.parametrize("ink", [Ink.QUIET, Ink.DANGER, Ink.WARNING, Ink.NOTE, Ink.SOUND])
def test_colours_are_seen_on_white_and_on_black(ink: Ink) -> None:
    color = "#" + "".join(f"{part:02x}" for part in colored(ink))
    assert contrast(color, "#000000") >= 3
    assert contrast(color, "#ffffff") >= 3
