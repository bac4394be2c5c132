"""Placards: only those that a design needs, what it says itself, and all of it inside its edge."""

from __future__ import annotations

import io
from functools import cache
from itertools import combinations

import pypdf
import pytest
from reportlab.lib.units import mm

from linework.analysis import analyse
from linework.codes.citing import Where
from linework.design import Design, Draft
from linework.findings.evidence import value_text
from linework.handover.content import Content
from linework.handover.document import set_bytes
from linework.handover.drawn import Drawn
from linework.handover.placards import PLACARDS
from linework.handover.placards.inlets import brings
from linework.handover.placards.needed import placards
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
from linework.handover.placards.strips import strips
from linework.handover.setting import Kept
from linework.handover.sheets import Band, Room
from linework.kinds import OneOf
from linework.picture.measure import boxes
from linework.picture.model import Text
from tests.findings.camps import camp
from tests.findings.test_clauses import articles, belongs
from tests.handover.drawn import design_of, plain
from tests.handover.test_states import DATE
from tests.trial.rigs import RIGS


def told(design: Design) -> dict[str, Placard]:
    return by_head(Content(design, analyse(design), DATE))


def by_head(content: Content) -> dict[str, Placard]:
    return {placard.head: placard for placard in placards(content)}


@cache
def rig(name: str) -> dict[str, Placard]:
    return by_head(plain(name))


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
    tender = rig("tender")
    assert "Carbon monoxide" not in tender
    assert not [head for head in tender if "Solar" in head]
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
    content = plain("vaccination-trailer-as-sketched")
    inlet = content.design.by_designation("XI1")
    back = {content.name(o) for r in content.reports for o in r.live.get((inlet.id, "outside"), ())}
    assert {"G1", "GS1"} <= back  # this sketch lets the set reach the shore inlet
    assert {content.name(o) for o in brings(content, inlet)} == {"GS1"}


def test_the_sun_is_told_with_its_voltage_and_its_switch() -> None:
    station = rig("weather-station")
    placard = station["Solar disconnect"]
    assert "89.6 V DC" in placard.big  # as the lock-out order says
    assert "QB2" in placard.lines[1]
    assert "Two sources" in station


def test_a_bank_is_one_source() -> None:
    assert "Two sources" in rig("mountain-hut")


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


@pytest.mark.parametrize(
    "name",
    ["vaccination-trailer", "motor_home", "workboat", "house_with_interlock", "telephone_hut"],
)
def test_each_placard_cites_what_holds_in_its_place(name: str) -> None:
    """The scopes of the articles, as the findings are held to them."""
    design = design_of(name)
    place = design.settings.place
    solar = any(design.kind(part).source.solar for part in design.parts)
    found = rig(name)
    for placard in found.values():
        if placard.clause == "practice, no clause":
            continue
        assert placard.clause, placard
        for clause in articles(placard.clause):
            assert belongs(clause, Where(place, solar)), (place, placard)
    if place == "boat":  # no marine clause on signs has been read
        assert {p.clause for p in found.values()} == {"practice, no clause"}
    else:
        assert {p.clause for p in found.values()} > {"practice, no clause"}


def test_one_supply_on_both_legs_is_told_and_opposed_ones_are_not() -> None:
    """NFPA 70 710.15(C): a single 120 V supply on a board of three wires."""
    cabin = rig("cabin_on_one_hot")["One 120 V supply"]
    assert (cabin.big, cabin.where, cabin.clause) == ("No 240 V here", "QP1", "710.15(C)")
    assert not [h for h in rig("fishing_lodge") if "supply" in h]


def test_only_the_breaker_by_which_a_source_comes_in_is_back_fed() -> None:
    heads = [p for p in rig("house_with_interlock").values() if "Back-fed" in p.head]
    assert [p.big for p in heads] == ["QF7 · 30 A"]
    assert heads[0].clause == "408.36(D)"  # the interlock keeps it from feeding beside the supply


def test_an_inlet_without_a_sign_asks_for_the_set_that_the_wiring_asks_for() -> None:
    """NFPA 70 702.7(C): the link of this house is on its board."""
    drawn = RIGS["house_with_interlock"]()
    drawn.rate("XI1", expects="none")
    placard = told(drawn.design)["power inlet"]
    assert "A generator whose neutral floats: the link is on board." in placard.lines
    assert "702.7(C)" in placard.clause


@pytest.mark.parametrize(
    ("neutral", "floats"),
    [("floating", True), ("bonded", False), (OneOf(("floating", "bonded")), False)],
)
def test_a_system_without_a_link_in_every_case_is_told(neutral: object, floats: bool) -> None:
    """NFPA 70 408.3(F)."""
    found = told(camp(neutral=neutral).design)  # type: ignore[arg-type]
    assert ("Ungrounded system" in found) is floats


@pytest.mark.parametrize(
    ("place", "asked"), [("building", True), ("field", False), ("boat", False)]
)
def test_arrays_on_buildings_ask_for_more(place: str, asked: bool) -> None:
    """NFPA 70 690.12, 690.56(C) and 690.31(D)(2): on or in buildings."""
    found = told(roof(place))
    assert ("Solar rapid shutdown" in found) is asked
    assert ("Solar power" in found) is asked
    if asked:
        assert found["Solar power"].where == "W1, W2"


def roof(place: str) -> Design:
    draft = Draft(place=place)
    draft.part("solar_array", "GP1", voc="40 V", isc="10 A", coldest="-10 degC")
    draft.part("isolator", "QB2", circuit="dc", rating="32 A", voltage="250 V")
    draft.part("solar_controller", "TC1", current="30 A", pv_voltage="150 V")
    draft.part("battery", "GB1", voltage="24 V", capacity="100 Ah")
    draft.part("battery_disconnect", "QB1", rating="100 A", voltage="48 V")
    for run, a, b, how in (
        ("W1", "GP1.dc", "QB2.line", "conduit_pvc"),
        ("W2", "QB2.load", "TC1.pv", "conduit_pvc"),
        ("W3", "TC1.dc", "QB1.load", "conduit_pvc"),
        ("W4", "QB1.line", "GB1.dc", "cable"),
    ):
        draft.run(a, b, run, size="10 AWG", length="20 ft", installation=how)
    return draft.design


def test_a_battery_disconnect_tells_volts_fault_current_and_date() -> None:
    """NFPA 70 706.15(C), above 1 kWh."""
    design = roof("building")
    content = Content(design, analyse(design), DATE)
    placard = next(p for p in placards(content) if p.head == "Battery disconnect")
    assert placard.big == "QB1 · 24 V DC · 100 A"
    assert placard.lines[0].endswith(f"{DATE.isoformat()}.")
    assert placard.clause == "706.15(C)"
    here = design.by_designation("QB1").id
    most = max(f.strong_a for r in content.reports for f in r.faults if f.part == here)
    assert value_text(most, "current") in placard.lines[0]


def everything() -> list[Placard]:
    found: list[Placard] = []
    for name in ("food_truck", "cruiser_with_two_cords", "telephone_hut"):
        found += rig(name).values()
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
        lowest = max(b.box.bottom for b in shapes if b.box.top < high)
        assert lowest < high, placard
    wide, _ = STRIP
    for strip in (Strip("1, 3", "QF12 20 A", "the kitchen and all that is in it, and more"),):
        texts = [b for b in boxes([drawn_strip(strip)]) if isinstance(b.item, Text)]
        assert all(b.box.left > 0 and b.box.right < wide for b in texts)
        assert not texts[0].box.overlaps(texts[-1].box)


@pytest.mark.parametrize(("paper", "width"), [("A3", 1190.6), ("A4", 595.3), ("letter", 612.0)])
def test_they_are_set_at_true_size_on_the_paper_chosen(
    content: Content, paper: str, width: float
) -> None:
    data = set_bytes(
        content.design, date=DATE, analysis=content.analysis, paper=paper, sheets=[PLACARDS]
    )
    pages = pypdf.PdfReader(io.BytesIO(data)).pages
    for page in pages:
        assert float(page.mediabox.width) == pytest.approx(width, abs=0.5)
    assert "TO MAKE DEAD" in "".join(page.extract_text() for page in pages)
    # 80 mm are 226.8 points
    assert Drawn((), WIDE, 100).wrap(0.0, 0.0)[0] == pytest.approx(80 / 25.4 * 72)


@pytest.mark.parametrize(("wide", "first"), [(172.0, "strips"), (382.0, "placards")])
def test_what_is_low_fills_the_page_that_is_begun(
    content: Content, wide: float, first: str
) -> None:
    """Where nothing has room beside the title block, strips stand before the placards."""
    bands = PLACARDS.make(content, Room(wide * mm, 235 * mm))
    assert all(isinstance(band, Band) for band in bands)
    kept = [isinstance(band.content[0], Kept) for band in bands if isinstance(band, Band)]
    assert kept == ([True, False] if first == "strips" else [False, True])
    assert [bool(band.head) for band in bands if isinstance(band, Band)] == [True, False]


def test_their_page_has_their_name(content: Content) -> None:
    """Where they share it with the end of another sheet it is else not told where they begin."""
    bands = PLACARDS.make(content, Room(172 * mm, 235 * mm))
    assert isinstance(bands[0], Band)
    assert next(each.getPlainText() for each in bands[0].head) == "Placards"
