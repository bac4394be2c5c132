"""The bill of materials: what is drawn is counted once, and what is not drawn is said."""

from __future__ import annotations

import datetime
import io
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from linework.analysis import Analysis
from linework.design import Change, Design, Draft, pole_map
from linework.handover.cables import ALLOWANCE, Cable, Fitting
from linework.handover.content import Content
from linework.handover.document import content_of, pages_bytes
from linework.handover.materials import Line, bill_of
from linework.handover.materials_page import MATERIALS
from linework.handover.sheets import Band, Room
from linework.storage import load

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
FEET = 0.3048


def shed() -> Design:
    """A set, a board with two breakers, ten fuses behind a battery, wires in one conduit."""
    draft = Draft(place="building", voltage="120 V")
    draft.part("generator", "G1", power="5 kVA", bond_allowed="yes")
    draft.part("inlet", "XI1", configuration="L5-30")
    draft.part("panel", "QP1", main="30 A", bond="absent")
    for name, place in (("QF2", "1"), ("QF10", "2")):
        draft.part("breaker", name, rating="20 A")
        draft.seat(name, "QP1", place)
    draft.part("outlet", "XD1", configuration="5-20")
    draft.part("lamp", "EL1", power="60 W")
    draft.run("G1.out", "XI1.outside", "W1", size="10 AWG", length="25 ft", installation="cord")
    draft.run("XI1.inside", "QP1.feed", "W2", size="10 AWG", length="10 ft", passes="bushed")
    conduit = {"installation": "conduit_pvc", "raceway": "R1", "trade_size": "1/2"}
    draft.run(
        "QF2.load", "XD1.feed", "W3", size="12 AWG", length="40 ft", raceway_type="ENT", **conduit
    )
    draft.run("QF10.load", "EL1.in", "W10", size="12 AWG", ground_size="14 AWG", **conduit)
    return draft.design


def line(lines: tuple[Line, ...], *where: str) -> Line:
    (found,) = (one for one in lines if one.where == where)
    return found


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*.linework")), ids=lambda path: path.stem)
def test_every_part_is_counted_once_and_every_cable_has_its_length(path: Path) -> None:
    design = load(path)
    bill = bill_of(design)
    lines = (*bill.parts, *bill.plugs, *bill.fuses, *bill.there)
    counted = sorted(name for one in lines for name in one.where)
    assert counted == sorted(part.designation for part in design.parts)
    single = [one for one in (*bill.parts, *bill.plugs, *bill.there) if "module" not in one.what]
    assert all(one.quantity == len(one.where) for one in single)

    conductor_m = sum(
        design.run_values(run).num("length") * len(pole_map(design, run)) for run in design.runs
    )
    told = sum(cable.metres * conductors_in(cable) for cable in bill.cables.cables)
    assert told == pytest.approx(conductor_m)
    ends = sum(one.quantity for one in bill.cables.ends)
    assert ends == 2 * sum(len(pole_map(design, run)) for run in design.runs)
    cut = {piece.run for cable in bill.cables.cables for piece in cable.cuts}
    assert cut == {run.designation for run in design.runs}


def conductors_in(cable: Cable) -> int:
    """Read from what is printed: "2 × 10 AWG + ground wire 10 AWG" is three."""
    told = cable.make_up.split(" + ")
    several = [int(part.split(" × ")[0].split()[-1]) for part in told if "×" in part]
    return sum(several) + len(told) - len(several)


def test_names_stand_in_the_order_that_people_expect() -> None:
    bill = bill_of(shed())
    assert line(bill.parts, "QF2", "QF10").quantity == 2
    assert [one.runs for one in bill.cables.ends if one.size == "12 AWG"] == [("W3", "W10")]


def test_how_many_conductors_a_breaker_opens_decides_what_is_bought() -> None:
    draft = Draft(place="building")
    for name, circuit in (("QF1", "ac"), ("QF2", "split"), ("QF3", "ac")):
        draft.part("breaker", name, rating="20 A", circuit=circuit)
    lines = bill_of(draft.design).parts
    assert "opens 1 conductor;" in line(lines, "QF1", "QF3").detail
    assert "opens 2 conductors;" in line(lines, "QF2").detail


def test_of_an_array_its_modules_are_bought() -> None:
    draft = Draft(place="field")
    for name in ("GP1", "GP2"):
        draft.part("solar_array", name, power="200 W", series="2", strings="3")
    (one,) = bill_of(draft.design).parts
    assert (one.quantity, one.what) == (12, "module of a solar array")
    assert one.where == ("GP1", "GP2")


def test_a_cable_is_cut_once_and_single_wires_for_each_conductor() -> None:
    cables = {(c.make_up, c.kind): c for c in bill_of(shed()).cables.cables}
    cord = cables["2 × 10 AWG + ground wire 10 AWG", "flexible cord"]
    assert [(cut.run, cut.metres) for cut in cord.cuts] == [("W1", pytest.approx(25 * FEET))]
    assert cord.to_buy == pytest.approx(27.5 * FEET)
    assert pytest.approx(0.10) == ALLOWANCE
    hot = cables["12 AWG", "in plastic conduit"]
    assert [cut.run for cut in hot.cuts] == ["W3", "W10"]
    assert hot.metres == pytest.approx(40 * FEET)
    assert not hot.whole  # W10 has no length
    assert cables["neutral 12 AWG", "in plastic conduit"].runs == ("W3", "W10")
    assert cables["ground wire 12 AWG", "in plastic conduit"].runs == ("W3",)
    assert cables["ground wire 14 AWG", "in plastic conduit"].runs == ("W10",)


def test_what_is_assumed_stands_in_brackets() -> None:
    draft = Draft(place="vehicle")
    draft.part("generator", "G1", power="5 kVA")
    draft.part("outlet", "XD1", configuration="5-20")
    draft.run("G1.out", "XD1.feed", "W1", size="10 AWG", length="1 ft", material="copper")
    (cable,) = bill_of(draft.design).cables.cables
    assert cable.detail == "copper, [75 °C], stranded"


def test_fittings_are_those_that_the_drawing_tells() -> None:
    found = {one.what: one for one in bill_of(shed()).cables.fittings}
    raceway = found["ENT, trade size 1/2"]  # one that both runs share, as long as the longer
    assert (raceway.quantity, raceway.in_metres) == (pytest.approx(40 * FEET), True)
    assert raceway.where == ("R1",)
    bushing = found["bushing in sheet metal for 2 × 10 AWG + ground wire 10 AWG"]
    assert bushing == Fitting(bushing.what, 1, False, ("W2",))
    assert found["cord connector L5-30"].where == ("W1",)
    assert len(found) == 3


def test_each_conductor_has_two_ends() -> None:
    ends = {one.size: one.quantity for one in bill_of(shed()).cables.ends}
    # W1, W2: 3 x 10 AWG each; W3: 3 x 12 AWG; W10: 2 x 12 AWG and one of 14 AWG
    assert ends == {"14 AWG": 2, "12 AWG": 10, "10 AWG": 12}


def test_fuses_have_a_spare_of_each_type_and_rating_by_the_names_of_the_standards() -> None:
    draft = Draft(place="vehicle")
    for number in range(1, 11):
        draft.part("fuse", f"F{number}", rating="10 A" if number < 10 else "15 A", type="ato")
    draft.part("fuse", "F11", rating="200 A", type="class_t")
    draft.part("fuse", "F12", rating="30 A", type="class_j", circuit="split")
    lines = bill_of(draft.design).fuses
    assert [(one.detail, one.quantity, one.spares) for one in lines] == [
        ("blade type C (ISO 8820-3), 10 A, [32 V]", 9, 1),
        ("blade type C (ISO 8820-3), 15 A, [32 V]", 1, 1),
        ("class J (UL 248-8), 30 A, [600 V]", 2, 1),  # a link in each hot
        ("class T (UL 248-15), 200 A, [125 V]", 1, 1),
    ]
    assert lines[0].where == tuple(f"F{number}" for number in range(1, 10))


def test_what_the_drawing_does_not_tell_is_said() -> None:
    design = shed()
    told = " ".join(bill_of(design).undrawn)
    assert "The length of W10: not in the sums above." in told
    assert "Boxes, covers and plates for XD1." in told
    assert "Glands, clamps or connectors" in told
    strange = replace(design.part("EL1"), kind="teleporter")
    design.apply(Change("strange", {"EL1": (design.part("EL1"), strange)}))
    bill = bill_of(design)
    assert "What EL1 are: this version does not know them." in bill.undrawn
    assert "teleporter" in line(bill.parts, "EL1").detail


def test_a_bushing_that_is_missing_is_not_counted_but_told() -> None:
    draft = Draft(place="vehicle")
    draft.part("generator", "G1", power="5 kVA")
    draft.part("outlet", "XD1", configuration="5-20")
    draft.run("G1.out", "XD1.feed", "W1", size="10 AWG", length="1 ft", passes="bare_metal")
    bill = bill_of(draft.design)
    assert bill.cables.fittings == ()
    assert any(text.startswith("Bushings for W1:") for text in bill.undrawn)


def test_nothing_drawn_is_a_short_bill() -> None:
    bill = bill_of(Draft(place="boat").design)
    assert (bill.parts, bill.plugs, bill.fuses, bill.there) == ((), (), (), ())
    assert bill.cables.cables == ()
    assert len(bill.undrawn) == 1


def test_the_page_tells_the_same() -> None:
    content = content_of(shed(), datetime.date(2026, 3, 1))
    pages = pypdf.PdfReader(io.BytesIO(pages_bytes(content, [MATERIALS]))).pages
    told = " ".join(" ".join(page.extract_text() for page in pages).split())
    for words in (
        "QF2, QF10",
        "W3 40 ft",
        "W10 not given",
        "44 ft and what is not given",
        "common practice, no source",
        "cord connector L5-30",
        "The length of W10",
    ):
        assert words in told


def test_a_bill_does_not_say_twice_what_a_breaker_opens_nor_what_a_missing_main_does() -> None:
    draft = Draft(place="building")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("breaker", "QF2", rating="20 A", poles="all")
    draft.part("panel", "QP1", main="30 A")
    draft.part("panel", "QP2")
    draft.part("fuse", "F1", rating="10 A")
    told = {each.where: each.detail for each in bill_of(draft.design).parts}
    assert "Poles opened" not in told["QF1",]
    assert "Poles opened: every hot and the neutral" in told["QF2",]
    assert "Main opens: every hot" in told["QP1",]
    assert "Main opens" not in told["QP2",]


def test_what_is_needed_besides_stands_in_columns_that_take_little_height() -> None:
    """A page of a few lines was left over for it on A4."""
    design = load(SAMPLES / "mountain-hut.linework")
    content = Content(design, Analysis(0, (), (), (), (), (), (), (), 0, True), DATE_OF_SET, "A4")
    *_, cables, besides = MATERIALS.make(content, Room(482.0, 640.0))
    assert isinstance(cables, Band)
    assert isinstance(besides, Band)
    assert (cables.columns, besides.columns) == (1, 2)
    told = [each.getPlainText() for each in cables.content if hasattr(each, "getPlainText")]
    assert any(words.startswith("10 % for stripping") for words in told)


DATE_OF_SET = datetime.date(2026, 3, 1)
