"""The grounding drawing tells every link and jumper of the circuit, and nothing on top of it."""

from __future__ import annotations

import io
from collections.abc import Callable
from functools import cache
from itertools import combinations, product

import pypdf
import pytest

from linework.analysis import Analysis, cases
from linework.circuit import Circuit, expand
from linework.circuit.unions import joined
from linework.design import Design, Draft, Run
from linework.handover.content import Content
from linework.handover.document import content_of as document_content
from linework.handover.document import set_bytes
from linework.handover.grounding import GROUNDING
from linework.handover.grounding.bars import Bar, grounds
from linework.handover.grounding.counting import countings, shown_by_tester, sign_of
from linework.handover.grounding.drawing import _Row, rows
from linework.handover.grounding.naming import run_name, strap_name
from linework.handover.grounding.page import _words, foot
from linework.handover.grounding.signs import numbers_text
from linework.kinds import OneOf
from linework.picture.measure import boxes
from linework.picture.model import Line, Text
from linework.storage import load
from tests.chance import draft
from tests.findings.camps import camp, changeover
from tests.handover.drawn import whole
from tests.handover.test_schedules import ROOM, words
from tests.handover.test_states import DATE, SAMPLES
from tests.trial.rigs import RIGS

DRAWN: dict[str, Callable[[], Design]] = {
    **{p.stem: (lambda p=p: load(p)) for p in sorted(SAMPLES.glob("*.linework"))},
    **{name: (lambda draw=draw: draw().design) for name, draw in RIGS.items()},
    **{f"chance {n}": (lambda n=n: draft(n).design) for n in range(24)},
}


@pytest.fixture(scope="module", params=DRAWN)
def design(request: pytest.FixtureRequest) -> Design:
    return DRAWN[request.param]()


def circuits(design: Design) -> list[Circuit]:
    return [expand(design, settled) for settled in cases(design)[0]]


def content_of(design: Design) -> Content:
    nothing = Analysis(0, (), (), (), (), (), (), (), 0, True)
    return Content(design, nothing, DATE)


def test_every_link_of_every_case_is_shown(design: Design) -> None:
    made = circuits(design)
    found = grounds(design, made)
    bonds = {b.owner for c in made for b in c.branches if b.sort == "bond" and b.a != b.b}
    shown = {strap.part for strap in found.straps}
    shown |= {owner for way in found.ways if way.bond for owner in way.over}
    shown |= {owner for way in found.ways for owner in way.over}
    assert bonds <= shown


def test_what_only_some_cases_have_is_not_shown_as_certain() -> None:
    drawn = camp()
    drawn.rate("QP1", bond=OneOf(("fitted", "absent")))
    drawn.rate("G1", neutral="bonded")
    straps = {s.part: s.certain for s in grounds(drawn.design, circuits(drawn.design)).straps}
    assert straps == {"QP1": False, "G1": True}


def test_every_jumper_of_a_box_leads_to_its_body_or_the_earth(design: Design) -> None:
    found = grounds(design, circuits(design))
    over = {owner for way in (*found.ways, *found.ties) for owner in way.over}
    rails = {part.id for part in design.parts if design.kind(part).body}
    for run in design.runs:
        ends = {run.a.part, run.b.part}
        whole = any(b.owner == run.id for b in expand(design).branches)
        if whole and ends & rails and (ends - rails) & {*found.boxes}:
            assert run.id in over, run.designation


def test_ways_join_what_the_circuit_joins(design: Design) -> None:
    """With every contact closed and no bond, both ends of a way are one conductor."""
    circuit = circuits(design)[0]
    found = grounds(design, [circuit])
    label = joined(len(circuit.spots), [(b.a, b.b) for b in circuit.branches])
    for way in found.ways:
        near = {label[node] for node in way.start.nodes}
        if isinstance(way.end, Bar):
            assert near & {label[node] for node in way.end.nodes}
        elif way.end == "earth":
            assert circuit.earth is not None
            assert label[circuit.earth] in near


@pytest.mark.parametrize("width", [3820, 2590])
def test_no_writing_lies_over_another_or_leaves_the_paper(design: Design, width: int) -> None:
    found = grounds(design, circuits(design))
    if not found.boxes:
        return
    made = rows(found, _words(content_of(design), found), width, 1400)
    assert made
    for items, high in made:
        texts = [b for b in boxes(items) if isinstance(b.item, Text)]
        assert texts
        assert not [b.item.text for b in texts if "…" in b.item.text]
        for one, other in combinations(texts, 2):
            assert not one.box.overlaps(other.box), (one.item, other.item)
        lines = [b for b in boxes(items) if isinstance(b.item, Line)]
        for text, line in product(texts, lines):
            assert not text.box.overlaps(line.box), (text.item, line.item)
        for each in boxes(items):
            assert -10 <= each.box.left <= each.box.right <= width + 10, each.item
            assert -10 <= each.box.top <= each.box.bottom <= high + 10, each.item


def test_a_link_stands_on_its_own_two_bars(design: Design) -> None:
    found = grounds(design, circuits(design))
    words = _words(content_of(design), found)
    for box in found.boxes:
        row = _Row(found, words, [box], 3820)
        row.drawn(first=False)
        for strap in found.straps:
            if strap.part == box:
                for x, bar in zip(row._ends(strap), (strap.one, strap.other), strict=True):
                    left, right = row.span[bar]
                    assert left <= x <= right


def test_all_writing_is_legible(design: Design) -> None:
    found = grounds(design, circuits(design))
    for items, _ in (
        rows(found, _words(content_of(design), found), 3820, 1400) if found.boxes else []
    ):
        heights = {b.item.height for b in boxes(items) if isinstance(b.item, Text)}
        assert min(heights) >= 25


def test_links_have_the_names_of_the_code() -> None:
    house = RIGS["house_with_interlock"]().design
    content = content_of(house)
    named = {
        house.part(s.part).designation: strap_name(content, s)
        for s in grounds(house, circuits(house)).straps
    }
    assert named == {"GS1": "neutral-ground link of the site", "QP1": "main bonding jumper"}
    runs = {run.designation: run_name(content, run) for run in house.runs}
    assert runs["WE1"] == "grounding electrode conductor"
    assert runs["WG1"] == "equipment grounding conductor"
    generator = camp(neutral="bonded").design
    (strap,) = grounds(generator, circuits(generator)).straps
    assert strap_name(content_of(generator), strap) == "system bonding jumper"


def test_a_lever_that_switches_neutral_has_a_bar_for_each_input() -> None:
    design = changeover().design
    found = grounds(design, circuits(design))
    assert [bar.name for bar in found.of("QT1") if bar.pole == "N"] == ["N in1", "N in2", "N load"]
    assert sum(way.opens == ("QT1",) for way in found.ways) == 2
    common = changeover(poles="lines").design
    assert len([b for b in grounds(common, circuits(common)).of("QT1") if b.pole == "N"]) == 1


def test_an_isolator_in_the_ground_wire_from_shore_has_its_row() -> None:
    told = words(GROUNDING.make(content_of(RIGS["ketch"]().design), ROOM))
    assert "galvanic isolator RB1 |  | WI2 WI4" in told


def test_direct_current_alone_shows_the_bond_of_its_minus() -> None:
    design = load(SAMPLES / "beekeepers-trailer.linework")
    found = grounds(design, circuits(design))
    (way,) = found.ways
    assert way.bond
    assert isinstance(design.get(way.over[0]), Run)
    assert way.end == "trailer frame"


def test_a_body_on_an_electrode_is_tied_to_earth() -> None:
    design = load(SAMPLES / "weather-station.linework")
    (tie,) = grounds(design, circuits(design)).ties
    assert {tie.one, tie.other} == {"earth", "skid frame"}
    names = [e.designation for o in tie.over if (e := design.get(o)) is not None]  # type: ignore[union-attr]
    assert set(names) == {"W30", "XE1"}


def test_a_design_without_neutral_ground_and_bond_has_no_such_sheet() -> None:
    drawn = Draft()
    drawn.part("battery", "GB1", voltage="12 V", capacity="100 Ah")
    drawn.part("lamp", "EL1", circuit="dc", voltage="12 V", power="20 W")
    drawn.run("GB1.dc", "EL1.in", "W1", size="10 AWG", length="9 ft")
    assert GROUNDING.make(content_of(drawn.design), None) == []  # type: ignore[arg-type]


@pytest.mark.parametrize("paper", ["A3", "A4", "letter", "tabloid"])
def test_links_and_wires_are_told_on_every_paper(paper: str) -> None:
    design = RIGS["house_with_interlock"]().design
    told = " ".join(words_of(design, paper))
    assert "Which link counts" in told
    assert "main bonding jumper" in told
    assert "a grounding electrode conductor 4 AWG WE1" in told
    assert "WE1 XE1 4 AWG (a)" in told
    # faults stand in their table and in the pictures of their loops, not here once more
    assert "ended by" not in told


@cache
def made(name: str) -> Content:
    return whole(name)


def test_the_legend_stays_left_of_the_title_block() -> None:
    """The narrowest strip is that of letter: 61 mm."""
    items = [*foot(content_of(Design()), 614, 300)]
    assert max(b.box.right for b in boxes(items)) <= 614


def words_of(design: Design, paper: str) -> list[str]:
    """The pages of the sheet, their words with single spaces."""
    data = set_bytes(design, date=DATE, paper=paper, sheets=[GROUNDING])
    pages = pypdf.PdfReader(io.BytesIO(data)).pages
    return [" ".join(page.extract_text().split()) for page in pages]


@pytest.mark.parametrize("paper", ["A3", "tabloid"])
def test_the_trailer_takes_one_sheet_of_a3(paper: str) -> None:
    design = load(SAMPLES / "vaccination-trailer.linework")
    (page,) = words_of(design, paper)
    for told in ("Which link counts", "Ground wires and bonds", "GP1 roof", "W23 4/0 AWG"):
        assert told in page


def test_a_small_drawing_is_small() -> None:
    """It stands with its table in a column beside other sheets: no wider than half of A3."""
    design = load(SAMPLES / "beekeepers-trailer.linework")
    found = grounds(design, circuits(design))
    ((items, high),) = rows(found, _words(content_of(design), found), 1900, 2000)
    assert high <= 250
    assert max(b.box.right for b in boxes(items)) <= 700


def test_each_link_bears_the_positions_in_which_it_counts() -> None:
    """As the operator's sheet tells them: shore, set, inverter, set beside inverter."""
    here = made("vaccination-trailer")
    told = countings(here)
    assert [each.links for each in told] == [
        ("GS1: its own",),
        ("G1: its own",),
        ("TB1: its own",),
        ("G1: its own", "TB1: its own"),
    ]
    ids = {part.designation: part.id for part in here.design.parts}
    signs = {name: sign_of(told, ids[name]) for name in ("GS1", "G1", "TB1", "QP1")}
    assert signs == {"GS1": "1", "G1": "2, 4", "TB1": "3, 4", "QP1": ""}


@pytest.mark.parametrize("name", ["vaccination-trailer", "house_with_interlock", "motor_home"])
def test_signs_say_of_each_report_which_links_count(name: str) -> None:
    here = made(name)
    for each in (told := countings(here)):
        for owner in {p for r in here.reports for b in r.bonds if b.is_ac for p in b.places}:
            counted = [any(owner in b.places for b in r.bonds if b.is_ac) for r in each.reports]
            shown = sign_of([each], owner)
            assert (shown == str(each.number)) == all(counted)
            assert (shown == "") == (not any(counted))
            assert sign_of(told, owner)


def test_a_link_that_only_some_cases_have_counts_perhaps() -> None:
    drawn = camp(neutral="floating")
    drawn.rate("QP1", bond=OneOf(("fitted", "absent")))
    here = document_content(drawn.design, DATE)
    told = countings(here)
    assert sign_of(told, "QP1") == "1?"
    assert "With a question mark: perhaps" in words_of(drawn.design, "A4")[0]


def test_numbers_in_a_row_are_a_span() -> None:
    assert numbers_text([4, 1, 2, 3, 6, 8, 9]) == "1–4, 6, 8, 9"
    assert numbers_text([]) == ""


def test_a_position_tells_what_a_tester_shows() -> None:
    here = made("vaccination-trailer")
    shown = [shown_by_tester(here, each.reports) for each in countings(here)]
    assert shown[0] == ["correct: XD1, XD4"]
    assert shown[2] == ["correct: XD4"]


def test_wires_to_a_chassis_and_links_of_own_sources_have_their_names() -> None:
    trailer = made("vaccination-trailer")
    runs = {run.designation: run_name(trailer, run) for run in trailer.design.runs}
    assert runs["W20"] == "bonding conductor to the chassis"
    assert runs["W23"] == "bond of the minus"
    assert runs["W1"] == "equipment grounding conductor"
    cabin = made("cabin_on_one_hot")
    (strap,) = grounds(cabin.design, circuits(cabin.design)).straps
    assert strap_name(cabin, strap) == "system bonding jumper"
    boat = made("ketch")
    names = {run_name(boat, run) for run in boat.design.runs}
    assert "bonding conductor to the engine" in names
