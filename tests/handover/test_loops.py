"""Fault loops: whose they are, that their volts add up, that they say what ends them."""

from __future__ import annotations

import io
import math
from collections.abc import Callable
from functools import cache
from itertools import combinations

import pypdf
import pytest

from linework.analysis import analyse
from linework.design import Design, Draft
from linework.handover.content import Content
from linework.handover.document import content_of, pages_bytes
from linework.handover.faults import FLOWS
from linework.handover.loops import FURTHER_LOOPS, LOOPS
from linework.handover.loops.gathering import FaultLoop, fault_loops, solved
from linework.handover.loops.page import figure_items, told
from linework.handover.loops.rows import rows_of
from linework.kinds import OneOf
from linework.picture.measure import boxes
from linework.picture.model import Text
from tests.findings.camps import camp, caravan, changeover
from tests.handover.drawn import analysis_of, design_of
from tests.handover.test_states import DATE

NAMED = {
    "trailer": "vaccination-trailer",
    "bees": "beekeepers-trailer",
    **{name: name for name in ("telephone_hut", "courier_van", "house_with_interlock")},
}
DRAWN: dict[str, Callable[[], Design]] = {
    "camp": lambda: camp().design,
    "floating": lambda: camp(neutral="floating").design,
    "caravan": lambda: caravan().design,
    "changeover": lambda: changeover().design,
}
every = pytest.mark.parametrize("name", [*NAMED, *DRAWN])


@cache
def content(name: str) -> Content:
    if name in NAMED:
        return content_of(design_of(NAMED[name]), DATE, analysis_of(NAMED[name]))
    design = DRAWN[name]()
    return content_of(design, DATE, analyse(design))


@every
def test_each_loop_is_that_of_its_report(name: str) -> None:
    """The solution from which a picture is drawn has the current that the report tells."""
    found = fault_loops(content(name))
    assert found
    for each in found:
        loop = solved(content(name), each)
        assert loop is not None
        assert (loop.back is not None) == each.flows
        if each.flows:
            assert loop.source in each.sources
            most = max(piece.amps for piece in loop.out)
            assert most == pytest.approx(each.fault.weak_a, rel=2e-3)


@every
def test_the_volts_that_are_shown_add_up_to_those_of_the_source(name: str) -> None:
    """Kirchhoff's voltage law; in amounts: reactances turn no piece far, small contacts are left
    out, other batteries of a string drive."""
    for each in fault_loops(content(name)):
        loop = solved(content(name), each)
        if loop is not None and each.flows:
            steps = [s for r in rows_of(loop, each.fault.by) for s in (r.hot, r.back) if s]
            total = sum(-s.volts if s.sort == "source" else s.volts for s in steps)
            volts = abs(loop.terminal_v)
            assert total <= 1.03 * volts
            assert total >= 0.75 * volts, (each.fault, total, volts)


@every
def test_it_is_the_worst_of_its_board_and_kind_of_source(name: str) -> None:
    here = content(name)
    found = fault_loops(here)
    boards = {each.board for each in found}
    assert {each.board for each in found[: len(boards)]} == boards
    for each in found:
        same = (
            f
            for r in here.reports
            for f in r.faults
            if (f.part, f.terminal, f.kind) == (each.fault.part, each.fault.terminal, "metal")
            and f.weak_a > FLOWS
            and r.live.get((f.part, f.terminal)) == each.report.live[f.part, f.terminal]
        )
        volts = [f.metal_v for f in same if f.metal_v is not None and not math.isnan(f.metal_v)]
        if each.flows and volts and each.fault.metal_v is not None:
            assert each.fault.metal_v >= max(volts) - 1e-6


@every
@pytest.mark.parametrize("width", [560, 660])
def test_no_writing_lies_over_another_nor_is_cut(name: str, width: int) -> None:
    for each in fault_loops(content(name)):
        items, high = figure_items(content(name), each, width)
        texts = [b for b in boxes(items) if isinstance(b.item, Text)]
        assert not [b.item.text for b in texts if "…" in b.item.text]
        assert min(b.item.height for b in texts) >= 25
        for one, other in combinations(texts, 2):
            assert not one.box.overlaps(other.box), (one.item, other.item)
        for b in boxes(items):
            assert -5 <= b.box.left <= b.box.right <= width + 5, b.item
            assert -5 <= b.box.top <= b.box.bottom <= high, b.item


def test_what_floats_is_told_as_told_by_nobody_and_never_as_ended() -> None:
    (each,) = fault_loops(content("floating"))
    assert not each.flows
    assert each.floats
    words = told(content("floating"), each)
    assert "No current" in words
    assert "Nobody is told" in words
    assert "opens" not in words


def test_metal_without_a_way_back_is_told_to_stay_live() -> None:
    drawn = camp()
    drawn.rate_run("W2", broken="PE")
    here = content_of(drawn.design, DATE, analyse(drawn.design))
    worst = fault_loops(here)[0]
    assert not worst.flows
    assert not worst.floats
    assert "stays live" in told(here, worst)


def test_a_device_or_the_source_is_named_with_its_time() -> None:
    here = content("trailer")
    words = {
        (here.name(e.board), here.name(e.sources[0])): told(here, e) for e in fault_loops(here)
    }
    assert "QF5 opens, at the latest after 1.45 s" in words["QP2", "GS1"]
    assert "the source gives up after 350 ms" in words["QP2", "G1"]
    assert "no isolation" in words["QP2", "TB1"]


@pytest.mark.parametrize("paper", ["A3", "A4", "letter"])
def test_the_decisive_ones_fill_no_more_than_one_sheet(paper: str) -> None:
    here = content("trailer")
    here = content_of(here.design, DATE, here.analysis, paper)
    reader = pypdf.PdfReader(io.BytesIO(pages_bytes(here, [LOOPS])))
    (words,) = (" ".join(page.extract_text().split()) for page in reader.pages)
    assert "What ends a fault to metal" in words
    assert "metal of EA1: 24.9 V" in words
    both = pypdf.PdfReader(io.BytesIO(pages_bytes(here, [LOOPS, FURTHER_LOOPS])))
    words = " ".join(" ".join(page.extract_text().split()) for page in both.pages)
    assert "Further fault loops" in words
    assert words.count("gives up after") + words.count("opens, at") == len(fault_loops(here))


def written(here: Content, each: FaultLoop) -> str:
    items, _ = figure_items(here, each, 660)
    return " ".join(b.item.text for b in boxes(items) if isinstance(b.item, Text))


def test_what_rests_on_a_length_that_nobody_gave_stands_in_brackets() -> None:
    assert "[" not in written(content("camp"), fault_loops(content("camp"))[0])
    drawn = Draft(place="field")
    drawn.part("generator", "G1", power="5 kVA", neutral="bonded", breaker="30 A")
    drawn.part("panel", "QP1", bond="absent", bus="60 A")
    drawn.run("G1.out", "QP1.feed", "W1", size="10 AWG", length="20 ft")
    drawn.part("breaker", "QF1", rating="20 A")
    drawn.seat("QF1", "QP1", "1")
    drawn.part("load", "EA1", power="600 W")
    drawn.run("QF1.load", "EA1.in", "W2", size="12 AWG")
    here = content_of(drawn.design, DATE, analyse(drawn.design))
    words = " ".join(written(here, each) for each in fault_loops(here))
    assert "W2 [" in words
    assert "W1 [" not in words


def test_a_loop_that_hangs_on_what_is_not_known_says_on_what() -> None:
    drawn = camp(neutral="floating")
    drawn.rate("QP1", bond=OneOf(("fitted", "absent")))
    here = content_of(drawn.design, DATE, analyse(drawn.design))
    found = fault_loops(here)
    assert {each.flows for each in found} == {True, False}
    for each in found:
        assert ", if" in written(here, each)
        assert solved(here, each) is not None


def test_a_way_that_is_not_found_is_never_told_as_no_link(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("linework.handover.loops.page.solved", lambda *_: None)
    here = content("camp")
    each = fault_loops(here)[0]
    words = written(here, each)
    assert each.flows
    assert "way not found" in words
    assert "no link" not in words
    assert told(here, each).split(":")[0] in words
