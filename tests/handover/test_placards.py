"""Placards: only those that a design needs, what it says itself, and all of it inside its edge."""

from __future__ import annotations

import io
from itertools import combinations

import pypdf
import pytest

from linework.analysis import analyse
from linework.design import Design, Draft
from linework.handover.content import Content
from linework.handover.document import set_bytes
from linework.handover.drawn import Drawn
from linework.handover.placards import PLACARDS
from linework.handover.placards.needed import _brings, placards, strips
from linework.handover.placards.sign import (
    CAPTION,
    STRIP,
    WIDE,
    Placard,
    Strip,
    drawn,
    drawn_strip,
    height_of,
)
from linework.kinds import OneOf
from linework.picture.measure import boxes
from linework.picture.model import Text
from linework.storage import load
from tests.findings.camps import camp
from tests.handover.test_states import DATE, SAMPLES
from tests.trial.rigs import RIGS


def told(design: Design) -> dict[str, Placard]:
    found = placards(Content(design, analyse(design), DATE))
    return {placard.head: placard for placard in found}


@pytest.fixture(scope="module")
def truck() -> Design:
    return RIGS["food_truck"]().design


@pytest.fixture(scope="module")
def content(truck: Design) -> Content:
    return Content(truck, analyse(truck), DATE)


def test_each_inlet_says_what_may_be_put_on_it(content: Content) -> None:
    inlets = [p for p in placards(content) if p.where.startswith("XI")]
    assert len(inlets) == 2
    for placard in inlets:
        part = content.design.by_designation(placard.where)
        assert content.design.values(part).text("configuration") in placard.big
        assert " V" in placard.big
        assert " A" in placard.big
    lines = [" ".join(p.lines) for p in inlets]
    assert sum("generator" in line for line in lines) == 1
    assert all("Set QT1 to" in line for line in lines)


def test_an_engine_asks_for_a_placard_and_a_battery_alone_does_not() -> None:
    assert "Carbon monoxide" in told(camp().design)
    tender = told(RIGS["tender"]().design)
    assert "Carbon monoxide" not in tender
    assert "Solar" not in tender
    assert [head for head in tender if "link" in head] == []
    assert {"Battery disconnect", "To make dead"} <= tender.keys()


@pytest.mark.parametrize(
    ("bond", "head"),
    [
        ("fitted", "Neutral-ground link here"),
        ("absent", "No neutral-ground link"),
        (OneOf(("fitted", "absent")), None),
    ],
)
def test_a_link_is_told_where_it_is_known(bond: object, head: str | None) -> None:
    drawn = camp(neutral="floating")
    drawn.rate("QP1", bond=bond)  # type: ignore[arg-type]
    assert next((h for h in told(drawn.design) if "link" in h), None) == head


def test_a_link_on_a_ring_is_no_link_to_be_kept() -> None:
    drawn = camp(neutral="bonded")
    drawn.rate("QP1", bond="fitted")
    assert [head for head in told(drawn.design) if "link" in head.lower()] == []


def test_what_feeds_an_inlet_from_within_is_not_what_may_be_put_on_it() -> None:
    design = load(SAMPLES / "vaccination-trailer-as-sketched.linework")
    content = Content(design, analyse(design), DATE)
    inlet = design.by_designation("XI1")
    back = {content.name(o) for r in content.reports for o in r.live.get((inlet.id, "outside"), ())}
    assert {"G1", "GS1"} <= back  # this sketch lets the set reach the shore inlet
    assert {content.name(o) for o in _brings(content, inlet)} == {"GS1"}


def test_the_sun_is_told_with_its_voltage_and_its_switch() -> None:
    design = load(SAMPLES / "weather-station.linework")
    placard = told(design)["Solar"]
    assert "89.6 V DC" in placard.big  # as the lock-out order says
    assert "QB2" in placard.lines[1]
    assert "Two sources" in told(design)


def test_a_bank_is_one_source() -> None:
    assert "Two sources" in told(load(SAMPLES / "mountain-hut.linework"))


def test_a_design_without_sources_or_boards_has_none() -> None:
    drawn = Draft()
    drawn.part("lamp", "EL1", power="20 W")
    content = Content(drawn.design, analyse(drawn.design), DATE)
    assert PLACARDS.make(content, None) == []  # type: ignore[arg-type]


def test_each_place_of_a_board_has_its_strip(content: Content) -> None:
    design = content.design
    seated = {
        design.part(seat.part).designation
        for part in design.parts
        if design.kind(part).board
        for seat in design.seated_in(part.id)
    }
    named = {strip.name.split()[0] for _, rows in strips(content) for strip in rows}
    assert seated == named
    assert seated


def everything() -> list[Placard]:
    found: list[Placard] = []
    for name in ("food_truck", "cruiser_with_two_cords", "telephone_hut"):
        found += told(RIGS[name]().design).values()
    long = "every board in the house, the barn and the workshop behind the barn, inside the door"
    found.append(
        Placard("a head that is far too long for one placard, and longer", long, (long,) * 3, long)
    )
    return found


def test_nothing_leaves_a_placard_or_lies_over_anything_else() -> None:
    for placard in everything():
        high = height_of(placard)
        shapes = [b for b in boxes([drawn(placard, high)]) if isinstance(b.item, Text)]
        for each in shapes:
            assert each.box.left >= 0, placard
            assert each.box.right <= WIDE, placard
            assert each.box.bottom <= high + CAPTION, placard
        for one, other in combinations(shapes, 2):
            assert not one.box.overlaps(other.box), (one.item, other.item)
        lowest = max(b.box.bottom for b in shapes[:-1])
        assert lowest < high, placard
    wide, _ = STRIP
    for strip in (Strip("1, 3", "QF12 20 A", "the kitchen and all that is in it, and more"),):
        texts = [b for b in boxes([drawn_strip(strip)]) if isinstance(b.item, Text)]
        assert all(b.box.left > 0 and b.box.right < wide for b in texts)
        assert not texts[0].box.overlaps(texts[-1].box)


@pytest.mark.parametrize(("paper", "width"), [("A3", 595.3), ("A4", 595.3), ("letter", 612.0)])
def test_they_are_set_upright_at_true_size(content: Content, paper: str, width: float) -> None:
    data = set_bytes(
        content.design, date=DATE, analysis=content.analysis, paper=paper, sheets=[PLACARDS]
    )
    page = pypdf.PdfReader(io.BytesIO(data)).pages[0]
    assert float(page.mediabox.width) == pytest.approx(width, abs=0.5)
    assert "TO MAKE DEAD" in page.extract_text()
    # 80 mm are 226.8 points
    assert Drawn((), WIDE, 100).wrap(0.0, 0.0)[0] == pytest.approx(80 / 25.4 * 72)
