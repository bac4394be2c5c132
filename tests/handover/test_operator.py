"""The operator's sheet: everything live is told, nothing live is called dead, words for keys."""

from __future__ import annotations

import io
from itertools import combinations

import pypdf
import pytest

from linework.analysis import analyse
from linework.circuit import expand
from linework.design import Design
from linework.handover.content import Content
from linework.handover.document import pages_bytes, set_bytes
from linework.handover.feeding import feeding, trees
from linework.handover.grounding import GROUNDING
from linework.handover.locking import actions, order_of, still_live
from linework.handover.operator import OPERATOR, changing_words
from linework.handover.positions import (
    Position,
    dead_words,
    largest,
    link_words,
    live_words,
    positions,
    settings,
)
from linework.handover.states import STATES
from linework.handover.testing import TESTS
from linework.picture.inks import Ink
from linework.picture.measure import box_of
from linework.picture.model import Rect
from linework.picture.pdf import POINTS_PER_TENTH
from linework.study.report import StateReport
from tests.findings.camps import camp
from tests.handover.drawn import plain
from tests.handover.test_grounding import content_of
from tests.handover.test_schedules import content as sample
from tests.handover.test_states import DATE, van
from tests.study.test_lockout import everywhere

DRAWN = {
    "van": lambda: of(van().design),
    "camp": lambda: of(camp().design),
    "station": lambda: plain("weather-station"),
    "tender": lambda: plain("tender"),
    "house": lambda: plain("house_with_standby_board"),
    "lodge": lambda: plain("fishing_lodge"),
}


def of(design: Design) -> Content:
    return Content(design, analyse(design), DATE)


@pytest.fixture(scope="module", params=DRAWN)
def content(request: pytest.FixtureRequest) -> Content:
    return DRAWN[request.param]()


def names(words: list[str]) -> set[str]:
    return {word.split()[0] for line in words for word in line.split(": ")[-1].split(", ")}


def set_by_hand(content: Content, position: Position) -> dict[tuple[str, str], str]:
    """What of a state an operator sets: not the sun, not whether a supply is live."""
    kinds = {p.id: content.design.kind(p).source for p in content.design.parts}
    return {
        (part, selector): at
        for part, selector, at in position.shown.free
        if not kinds[part].solar and not kinds[part].off_site
    }


def test_what_the_network_makes_live_is_told_and_never_called_dead(content: Content) -> None:
    circuit = expand(content.design)
    for position in positions(content):
        met = {
            content.name(part) for part, _ in everywhere(circuit, set_by_hand(content, position))
        }
        dead = {word.split()[0] for word in dead_words(content, position)[0].split(", ")}
        assert met.isdisjoint(dead), position.title
        told = names(live_words(content, position))
        worth = {
            p.designation
            for p in content.design.parts
            if (kind := content.design.kind(p)).board or kind.consumes or kind.source
        }
        assert (met & worth) <= told, position.title


def test_the_page_says_it_in_words(content: Content) -> None:
    data = set_bytes(content.design, date=DATE, analysis=content.analysis, sheets=[OPERATOR])
    reader = pypdf.PdfReader(io.BytesIO(data))
    assert len(reader.pages) == 1
    told = " ".join(reader.pages[0].extract_text().split())
    assert "Make it dead" in told
    for action in actions(content):
        assert action.head in told
        assert action.how in told
    for line in still_live(content):
        assert line in told
    for position in positions(content)[:1]:
        assert position.title in told
        assert all(word in told for word in settings(content, position))
    for key in ("=running", "=on", "ac_in", "[", "unplugged"):
        assert key not in told.replace("[ ] = assumed", ""), key


@pytest.mark.parametrize("paper", ["A4", "letter", "tabloid"])
def test_it_is_set_on_every_paper(paper: str) -> None:
    design = van().design
    data = set_bytes(design, date=DATE, analysis=analyse(design), paper=paper, sheets=[OPERATOR])
    pages = pypdf.PdfReader(io.BytesIO(data)).pages
    assert len(pages) == (1 if paper == "tabloid" else 2)


def test_a_design_that_is_never_live_has_no_such_sheet() -> None:
    drawn = camp()
    drawn.remove("G1")
    content = Content(drawn.design, analyse(drawn.design), DATE)
    assert OPERATOR.make(content, None) == []  # type: ignore[arg-type]


def test_positions_of_one_title_are_told_apart(content: Content) -> None:
    titles = [position.title for position in positions(content)]
    assert len(set(titles)) == len(titles)


def test_a_link_is_told_by_its_place_and_its_lack_too() -> None:
    told = {}
    for neutral in ("bonded", "floating"):
        design = camp(neutral=neutral).design
        content = Content(design, analyse(design), DATE)
        told[neutral] = [w for p in positions(content) for w in link_words(content, p)]
    assert told == {"bonded": ["G1: its own"], "floating": ["G1: none, it floats"]}


def test_the_largest_sets_fit_and_take_no_further_load() -> None:
    assert largest({"a": 10.0, "b": 12.0, "c": 5.0}, 17.0) == [
        frozenset({"a", "c"}),
        frozenset({"b", "c"}),
    ]
    assert largest({"a": 10.0}, 9.0) == []
    assert largest({str(n): 1.0 for n in range(40)}, 9.0) == []


def test_a_stopped_set_is_parted_from_the_rest_besides() -> None:
    content = plain("mountain-hut")
    told = {action.head: action.how for action in actions(content)}
    assert "G1" in told["Stop what runs"]
    assert told["Open the way in"].startswith("Open QF1, QF2.")
    assert order_of(content).proven


def test_what_changes_over_by_itself_is_told() -> None:
    (line,) = changing_words(plain("mountain-hut"))
    assert "TB1" in line
    assert "QT1" not in line  # a hand moves that
    assert changing_words(content_of(camp().design)) == []


def test_the_proof_names_no_conductor_of_one_place_beside_that_of_another() -> None:
    """A board of two legs behind an inverter of one hot: L is at one, L1 and L2 at the other."""
    *_, proof = actions(plain("cabin_on_one_hot"))
    assert "L1–L2" in proof.how
    assert "L–N" in proof.how
    assert "L–L1" not in proof.how


def test_what_hangs_side_by_side_is_not_drawn_one_behind_the_other() -> None:
    """The inverter and the board for 12 V both lie behind the switch of the battery."""
    made = sample("vaccination-trailer")
    shown = {p.title: p.shown for p in positions(made)}
    found = {tree.sources: tree.fed for tree in trees(made, shown["On shore, TB1 off"])}
    assert {*found["GB1",]} == {""}
    assert {*found["GB1",][""]} == {"TB1", "QP3", "TC1"}
    assert found["GS1",] == {"": ["QP1"], "QP1": ["TB1"]}
    behind = {t.sources: t.fed for t in trees(made, shown["On generator, TB1 on"])}["G1",]
    assert behind == {"": ["QP1"], "QP1": ["TB1"], "TB1": ["QP2"]}


@pytest.mark.parametrize("width", [400, 700, 2000])
def test_boxes_of_what_is_fed_do_not_meet(content: Content, width: int) -> None:
    for position in positions(content):
        drawn = feeding(content, position.shown, width)
        inner = [box_of(i) for i in drawn.items if isinstance(i, Rect) and i.fill == Ink.PAPER]
        assert not [1 for a, b in combinations(inner, 2) if a.overlaps(b)]
        assert all(box.bottom * POINTS_PER_TENTH <= drawn.height for box in inner)


def test_what_hangs_on_what_follows_the_wires_that_are_live() -> None:
    """Past the bypass the board hangs on the board of the generator, not on the inverter."""
    hut = sample("mountain-hut")
    shown = {p.title: p.shown for p in positions(hut)}
    past = fed_by(hut, shown["On generator, QT1 on generator"])["G1"]
    assert past == {"": ["QP1"], "QP1": ["TB1", "QP2"]}
    assert fed_by(hut, shown["On inverter-charger"])["TB1"] == {"": ["QP2"]}
    through = next(r for r in hut.reports if r.key == "G1=running QT1=inverter TB1=on")
    assert fed_by(hut, through)["G1"] == {"": ["QP1"], "QP1": ["TB1"], "TB1": ["QP2"]}


def fed_by(content: Content, report: StateReport) -> dict[str, dict[str, list[str]]]:
    """What hangs on what, by the first of the sources, in designations."""
    return {
        content.name(tree.sources[0]): {
            (content.name(on) if on else ""): [content.name(part) for part in parts]
            for on, parts in tree.fed.items()
            if parts
        }
        for tree in trees(content, report)
    }


def test_on_direct_current_alone_nothing_is_said_of_testers_and_links() -> None:
    bees = sample("beekeepers-trailer")
    data = pages_bytes(bees, [GROUNDING, OPERATOR, TESTS, STATES])
    pages = pypdf.PdfReader(io.BytesIO(data)).pages
    told = " ".join(" ".join(page.extract_text() for page in pages).split())
    assert "Make it dead" in told
    for words in (
        "tester that says",
        "outlet tester",
        "Lamps between",
        "Three readings",
        "bar: the",
    ):
        assert words not in told, words
    assert "neutral, under" not in told
