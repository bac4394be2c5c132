"""The tables as values, as CSV and as a workbook: numbers are numbers, words stay words."""

from __future__ import annotations

import csv
import datetime
import io
import math
import zipfile
from pathlib import Path

import openpyxl
import pytest

from linework.design import Draft
from linework.handover.circuits import run_faults
from linework.handover.content import Content
from linework.handover.document import HandoverError, content_of
from linework.handover.faults import FLOWS
from linework.handover.figures import TABLES, Column, Data, tables_of
from linework.handover.figures.model import figure
from linework.handover.formats.csv import csv_bytes
from linework.handover.formats.tables import asked_tables
from linework.handover.formats.xlsx import workbook_bytes
from linework.handover.standing_in import assumed_of
from tests.handover.drawn import whole

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
DATE = datetime.date(2026, 3, 1)
FOOT_M = 0.3048

HOSTILE = ("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "=HYPERLINK(0)", 'a "b", c', "x\ny", "Ω ≤ é")


@pytest.fixture(scope="module")
def trailer() -> Content:
    return whole("vaccination-trailer-as-sketched")


@pytest.fixture(scope="module")
def tables(trailer: Content) -> dict[str, Data]:
    return {data.key: data for data in tables_of(trailer)}


def column(data: Data, head: str) -> list[object]:
    heads = [column.head for column in data.columns]
    return [row[heads.index(head)] for row in data.rows]


def total(values: list[object]) -> float:
    return sum(value for value in values if isinstance(value, int | float))


def test_every_part_and_run_is_in_its_table(trailer: Content, tables: dict[str, Data]) -> None:
    design = trailer.design
    assert len(column(tables["parts"], "part")) == len(design.parts)
    assert set(column(tables["parts"], "part")) == {part.designation for part in design.parts}
    assert set(column(tables["runs"], "run")) == {run.designation for run in design.runs}
    assert len(tables["runs"].rows) == len(design.runs)


def test_totals_are_those_of_the_design(trailer: Content, tables: dict[str, Data]) -> None:
    design = trailer.design
    metres = sum(design.run_values(run).num("length") for run in design.runs)
    assert total(column(tables["runs"], "length [ft]")) * FOOT_M == pytest.approx(metres, rel=1e-4)
    # No run of this design is laid as single wires of several conductors: one piece each.
    assert total(column(tables["cuts"], "length [ft]")) * FOOT_M == pytest.approx(metres, rel=1e-4)
    bill = tables["materials"]
    assert total(column(bill, "length drawn [ft]")) * FOOT_M == pytest.approx(metres, rel=1e-4)
    more = total(column(bill, "length with 10% more [ft]"))
    assert more == pytest.approx(1.1 * total(column(bill, "length drawn [ft]")), rel=1e-4)
    groups = column(bill, "group")
    pieces = column(bill, "pieces")
    spares = total(column(bill, "of these spare"))
    named = {"part", "plug, outlet or inlet", "fuse", "there already"}
    counted = total([n for group, n in zip(groups, pieces, strict=True) if group in named])
    # The trailer has one array, of two modules that are bought one by one.
    in_modules = ["module" in str(what) for what in column(bill, "what")]
    modules = total([n for n, is_one in zip(pieces, in_modules, strict=True) if is_one])
    arrays = sum(bool(design.kind(part).piece) for part in design.parts)
    assert (modules, arrays) == (2, 1)
    assert counted - spares - modules == len(design.parts) - arrays


def test_the_findings_and_the_gaps_are_all_there(trailer: Content, tables: dict[str, Data]) -> None:
    assert len(tables["findings"].rows) == len(trailer.with_consequences) > 5
    assert len(tables["unchecked"].rows) == len(trailer.analysis.gaps)
    assert len(tables["assumed"].rows) == len(assumed_of(trailer)) > 0
    levels = {finding.level.told for finding in trailer.with_consequences}
    assert set(column(tables["findings"], "level")) == levels
    told = dict(tables["about"].rows)
    assert told["findings"] == len(trailer.with_consequences)
    assert "licensed electrician" in str(told["caution"])


def test_units_stand_in_the_heads_and_numbers_are_bare(tables: dict[str, Data]) -> None:
    runs = tables["runs"]
    for head in ("length [ft]", "ampacity [A]", "drop [V]", "most fault current [A]"):
        values = column(runs, head)
        assert any(isinstance(value, float) for value in values)
        assert all(value is None or isinstance(value, float) for value in values)
    ratings = dict(zip(column(tables["ratings"], "unit"), tables["ratings"].rows, strict=True))
    assert {"A", "V", "W"} <= set(ratings)


def test_what_only_leaks_drive_is_no_fault_current_in_the_table_nor_on_paper(
    trailer: Content, tables: dict[str, Data]
) -> None:
    least = column(tables["runs"], "least fault current [A]")
    assert any(isinstance(amps, float) for amps in least)
    assert [amps for amps in least if isinstance(amps, float) and amps < FLOWS] == []
    runs = {run.designation: run for run in trailer.design.runs}
    shown = {name: run_faults(trailer, run) for name, run in runs.items()}
    assert {name for name, span in shown.items() if span is None} == {
        name
        for name, amps in zip(column(tables["runs"], "run"), least, strict=True)
        if amps is None
    }


def test_a_length_is_in_metre_where_it_is_bought_so() -> None:
    draft = Draft(place="building", family="INT", voltage="230 V", frequency="50 Hz", edition="")
    draft.part("lamp", "EL1", power="60 W")
    draft.part("junction_box", "XJ1")
    draft.run("XJ1.a", "EL1.in", "W1", size="2.5 mm2", length="3 m")
    content = content_of(draft.design, DATE)
    (data,) = tables_of(content, ("cuts",))
    assert column(data, "length [m]") == [3.0]


@pytest.mark.parametrize("value", [math.inf, -math.inf, math.nan, None])
def test_what_is_no_figure_is_an_empty_cell(value: float | None) -> None:
    assert figure(value) is None


def test_a_row_that_does_not_fit_is_refused() -> None:
    with pytest.raises(ValueError, match="does not fit"):
        Data("x", "x", (Column("a"),), (("a", "b"),))


def hostile() -> Data:
    rows = tuple((word, -1.5, 3, None) for word in HOSTILE)
    return Data("bad", "bad", (Column("=head"), Column("n", "A"), Column("c"), Column("d")), rows)


def test_csv_is_read_back_and_holds_no_formula() -> None:
    data = csv_bytes(hostile())
    assert not data.startswith(b"\xef\xbb\xbf")
    assert data.count(b"\r\n") == len(HOSTILE) + 1
    head, *rows = csv.reader(io.StringIO(data.decode("utf-8"), newline=""))
    assert head == ["'=head", "n [A]", "c", "d"]
    for word, (text, number, count, nothing) in zip(HOSTILE, rows, strict=True):
        assert text == (f"'{word}" if word[0] in "=+-@\t" else word)
        assert (float(number), int(count), nothing) == (-1.5, 3, "")
    assert not any(text[:1] in ("=", "+", "-", "@", "\t", "\r") for text, *_ in rows)


def test_a_workbook_is_read_back_and_holds_no_formula() -> None:
    data = workbook_bytes((hostile(),), DATE)
    book = openpyxl.load_workbook(io.BytesIO(data))
    head, *rows = book["bad"].iter_rows()
    assert [cell.value for cell in head] == ["=head", "n [A]", "c", "d"]
    for word, (text, number, count, nothing) in zip(HOSTILE, rows, strict=True):
        assert text.data_type == "s"
        assert text.value == "".join(sign if sign.isprintable() else " " for sign in word)
        assert (number.value, count.value, nothing.value) == (-1.5, 3, None)
        assert number.data_type == count.data_type == "n"
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        (sheet,) = (n for n in archive.namelist() if n.startswith("xl/worksheets/sheet"))
        assert b"<f>" not in archive.read(sheet)


def test_a_workbook_has_a_worksheet_for_each_table(tables: dict[str, Data]) -> None:
    data = workbook_bytes(tuple(tables.values()), DATE)
    book = openpyxl.load_workbook(io.BytesIO(data))
    assert tuple(book.sheetnames) == tuple(TABLES)
    for key, table in tables.items():
        assert book[key].max_row == len(table.rows) + 1
    assert book["runs"].freeze_panes == "A2"
    assert workbook_bytes(tuple(tables.values()), DATE) == data


def test_signs_that_a_file_cannot_hold_do_not_break_it() -> None:
    bad = Data("bad", "bad", (Column("a"),), (("a\x00\x1b\ud800b",),))
    book = openpyxl.load_workbook(io.BytesIO(workbook_bytes((bad,), DATE)))
    assert book["bad"]["A2"].value == "a   b"
    assert "a" in csv_bytes(bad).decode("utf-8")


def test_tables_are_chosen_by_name_and_number(trailer: Content) -> None:
    assert [data.key for data in asked_tables(trailer, ("runs", "2"))] == ["materials", "runs"]
    with pytest.raises(HandoverError, match="Did you mean 'materials'"):
        asked_tables(trailer, ("material",))
