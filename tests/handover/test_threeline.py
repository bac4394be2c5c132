"""The conductor drawing: every conductor of the circuit once, with both its ends, and nothing on
top of anything else."""

from __future__ import annotations

import io
import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise

import pypdf
import pytest

from linework.analysis import Analysis, cases
from linework.circuit import Circuit, expand
from linework.circuit.model import Spot
from linework.design import Design, Draft, Run
from linework.handover.content import Content
from linework.handover.document import pages_bytes
from linework.handover.drawn import Drawn
from linework.handover.furniture import Furniture
from linework.handover.sheets import Band
from linework.handover.threeline import CONDUCTORS
from linework.handover.threeline.channels import Lane, tracked
from linework.handover.threeline.layout import Layout
from linework.handover.threeline.model import Means, Pin, Port
from linework.handover.threeline.page import _boards, _words, conductors_of, laid_pages
from linework.handover.threeline.painting import painted
from linework.kinds import OneOf
from linework.picture.geometry import Box
from linework.picture.measure import boxes, text_box
from linework.picture.model import Text, flatten
from linework.sheet.parts import captions_in_words
from linework.storage import load
from linework.study.once import once
from tests.chance import draft
from tests.handover.test_states import DATE, SAMPLES
from tests.trial.rigs import RIGS

DRAWN: dict[str, Callable[[], Design]] = {
    **{p.stem: (lambda p=p: load(p)) for p in sorted(SAMPLES.glob("*.linework"))},
    **{name: (lambda draw=draw: draw().design) for name, draw in RIGS.items()},
    **{f"chance {n}": (lambda n=n: draft(n).design) for n in range(16)},
}
PAPERS = ("A3", "A4", "letter")


def content_of(design: Design, paper: str = "A3") -> Content:
    nothing = Analysis(0, (), (), (), (), (), (), (), 0, True)
    return Content(design, nothing, DATE, paper)


@dataclass
class Sheets:
    """All strips of a design on one paper."""

    content: Content
    pages: list[list[Layout]]

    @property
    def strips(self) -> list[Layout]:
        return [layout for page in self.pages for layout in page]

    def items(self, layout: Layout) -> list[object]:
        return list(painted(layout, _words(self.content), _boards(self.content)))


def sheets(design: Design, paper: str) -> Sheets:
    content = content_of(design, paper)
    return Sheets(content, laid_pages(content, Furniture(content, 0).room))


@pytest.fixture(scope="module", params=DRAWN)
def drawn(request: pytest.FixtureRequest) -> Sheets:
    """Each on one paper, the three of them by turns."""
    paper = PAPERS[list(DRAWN).index(request.param) % len(PAPERS)]
    return sheets(DRAWN[request.param](), paper)


# what stands on it

Ends = tuple[str, int, int, str]
"""A conductor: its run, the nodes at the first and second end, the pole at the first."""


def ends_drawn(drawn: Sheets) -> Iterator[Ends]:
    """Every conductor that is drawn, its way from pin to pin."""
    design = drawn.content.design
    for layout in drawn.strips:
        for route in layout.routes:
            ribbon = route.ribbon
            for i, way in enumerate(route.ways):
                ports = (ribbon.a, ribbon.b)
                assert {way[0], way[-1]} == {place(layout, port, i) for port in ports}
                if not ribbon.plug and i not in ribbon.cut:
                    yield ends_of(design, ribbon.owner, *(port.pins[i] for port in ports))
        for shape, _, _ in layout.shapes.values():
            for drop in shape.drops:
                if drop.stub is not None:
                    yield ends_of(design, drop.stub.owner, drop.stub.near, drop.stub.far)


def ends_of(design: Design, owner: str, one: Pin, other: Pin) -> Ends:
    run = design.get(owner)
    assert isinstance(run, Run)
    if (one.part, one.terminal) != (run.a.part, run.a.terminal):
        one, other = other, one
    assert (one.part, one.terminal) == (run.a.part, run.a.terminal)
    assert (other.part, other.terminal) == (run.b.part, run.b.terminal)
    circuit = circuit_of(design, design.revision)
    for pin in (one, other):
        assert circuit.node_of[Spot(pin.part, pin.terminal, pin.pole)] == pin.net
    return run.id, one.net, other.net, one.pole


def place(layout: Layout, port: Port, i: int) -> tuple[int, int]:
    shape, x, y = layout.shapes[port.block]
    at_x, at_y = shape.pins(port)[i]
    return x + at_x, y + at_y


@once
def circuit_of(design: Design, _: int) -> Circuit:
    return expand(design, cases(design)[0][0])


def test_every_conductor_of_a_run_stands_on_it_once(drawn: Sheets) -> None:
    design = drawn.content.design
    circuit = circuit_of(design, design.revision)
    wanted = Counter(
        (branch.owner, branch.a, branch.b, branch.pole)
        for branch in circuit.branches
        if isinstance(design.get(branch.owner), Run)
    )
    assert Counter(ends_drawn(drawn)) == wanted


def test_both_ends_have_their_marks_in_writing(drawn: Sheets) -> None:
    for layout in drawn.strips:
        for shape, _, _ in layout.shapes.values():
            marks = [row for row in shape.rows if not hasattr(row.end, "device")]
            assert len(marks) == sum(len(port.pins) for port in shape.block.ports)
        words = Counter(
            item.text for item in texts(drawn, layout) if item.text in ("L1", "L2", "N", "PE")
        )
        pins = Counter(
            pin.pole
            for shape, _, _ in layout.shapes.values()
            for port in shape.block.ports
            for pin in port.pins
        )
        for pole in ("L1", "L2", "N", "PE"):
            assert words[pole] >= pins[pole]


def test_every_block_stands_on_one_strip(drawn: Sheets) -> None:
    blocks = [
        shape.block
        for layout in drawn.strips
        for shape, _, _ in layout.shapes.values()
        if not shape.block.elsewhere
    ]
    found = conductors_of(drawn.content.design, drawn.content.design.revision)
    assert found is not None
    assert {block.part for block in blocks} == set(found.blocks)
    numbers = Counter((block.part, block.piece) for block in blocks)
    assert set(numbers.values()) <= {1}
    assert all(numbers[b.part, n] for b in blocks for n in range(1, b.pieces + 1))


# nothing on top of anything


def texts(drawn: Sheets, layout: Layout) -> list[Text]:
    items = [flat.item for flat in flatten(drawn.items(layout))]  # type: ignore[arg-type]
    return [item for item in items if isinstance(item, Text)]


Stretch = tuple[str, bool, int, int, int]
"""Whose, level or not, at which height or place, from, to."""


def stretches(layout: Layout) -> Iterator[Stretch]:
    """The straight pieces of all ribbons, each under the name of its conductor."""
    for route in layout.routes:
        for i, way in enumerate(route.ways):
            for (x, y), (x2, y2) in pairwise(way):
                name = f"{route.ribbon.owner} {i}"
                if y == y2:
                    yield name, True, y, min(x, x2), max(x, x2)
                else:
                    assert x == x2
                    yield name, False, x, min(y, y2), max(y, y2)


def inner_stretches(layout: Layout) -> Iterator[Stretch]:
    """Those inside blocks, each under the name of its net."""
    for key, (shape, x, y) in layout.shapes.items():
        if shape.block.elsewhere:
            continue
        for row in shape.rows:
            edge = 0 if row.side == "left" else shape.width
            low, high = sorted((edge, shape.bar_x[row.net]))
            yield f"{key} {row.net}", True, y + row.y, x + low, x + high
        for contact, at in shape.crosses:
            low, high = sorted(shape.bar_x[net] for net in (contact.a, contact.b))
            yield f"{key} {contact.name}", True, y + at, x + low, x + high
        bars = Counter(shape.bar_x[net] for net, ends in shape.ends.items() if len({*ends}) > 1)
        assert max(bars.values(), default=1) == 1


def overlaps(all_: list[Stretch]) -> list[tuple[Stretch, Stretch]]:
    return [
        (a, b)
        for a, b in combinations(all_, 2)
        if a[0] != b[0] and a[1:3] == b[1:3] and a[3] < b[4] and b[3] < a[4]
    ]


def test_no_conductor_lies_on_another(drawn: Sheets) -> None:
    for layout in drawn.strips:
        assert overlaps(list(stretches(layout))) == []
        assert overlaps(list(inner_stretches(layout))) == []


def test_no_ribbon_goes_through_a_block(drawn: Sheets) -> None:
    for layout in drawn.strips:
        blocks = [
            Box(x, y - shape.above, x + shape.width + shape.aside, y + shape.height + shape.below)
            for shape, x, y in layout.shapes.values()
        ]
        for one, other in combinations(blocks, 2):
            assert not meet(one, other)
        edges = [
            Box(x, y, x + shape.width, y + shape.height) for shape, x, y in layout.shapes.values()
        ]
        for _, level, at, low, high in stretches(layout):
            line = Box(low, at, high, at) if level else Box(at, low, at, high)
            assert not any(meet(line.grown(1), edge.grown(-2)) for edge in edges)


def meet(one: Box, other: Box) -> bool:
    return (
        one.left < other.right
        and other.left < one.right
        and one.top < other.bottom
        and other.top < one.bottom
    )


def test_no_writing_lies_on_other_writing_or_on_a_ribbon(drawn: Sheets) -> None:
    for layout in drawn.strips:
        written = [(item, text_box(item)) for item in texts(drawn, layout)]
        for (one, a), (other, b) in combinations(written, 2):
            assert not meet(a.grown(-1), b.grown(-1)), (one.text, other.text)
        for name, level, at, low, high in stretches(layout):
            line = Box(low, at, high, at) if level else Box(at, low, at, high)
            hit = [item.text for item, box in written if meet(line.grown(1), box.grown(-1))]
            assert hit == [], name


def test_nothing_is_outside_the_frame(drawn: Sheets) -> None:
    room = Furniture(drawn.content, 0).room
    bands = [each for each in CONDUCTORS.make(drawn.content, room) if isinstance(each, Band)]
    made = [each for band in bands for each in band.content if isinstance(each, Drawn)]
    assert made
    for each in made:
        assert each.height <= room.height
        for boxed in boxes(each.items):
            assert boxed.box.left >= 0
            assert boxed.box.right * each.scale * 72 / 254 <= room.width + 1
            assert boxed.box.top >= 0
            assert boxed.box.bottom * each.scale * 72 / 254 <= each.height + 2


# what is inside parts


def changeover(poles: str) -> Design:
    d = Draft()
    for name in ("G1", "G2"):
        d.part("generator", name, power="3 kVA", neutral="bonded")
    d.part("transfer_switch", "QT1", poles=poles, rating="30 A")
    d.part("load", "EA1", power="500 W")
    d.run("G1.out", "QT1.in1", "W1", size="10 AWG", length="10 ft")
    d.run("G2.out", "QT1.in2", "W2", size="10 AWG", length="10 ft")
    d.run("QT1.load", "EA1.in", "W3", size="12 AWG", length="10 ft")
    return d.design


@pytest.mark.parametrize(("poles", "count"), [("lines", 2), ("all", 4)])
def test_a_pole_is_drawn_for_each_conductor_that_it_switches(poles: str, count: int) -> None:
    (layout,) = sheets(changeover(poles), "A3").strips
    shape, _, _ = layout.shapes["QT1"]
    drawn = [contact for row in shape.rows for contact in row.chain]
    drawn += [contact for contact, _ in shape.crosses]
    assert len(drawn) == count
    assert {contact.means for contact in drawn} == {Means.SWITCH}
    assert sorted(contact.closed for contact in drawn) == [False] * (count // 2) + [True] * (
        count // 2
    )


def test_a_link_is_drawn_thick_and_one_that_is_not_sure_dashed() -> None:
    design = changeover("all")
    shape, _, _ = sheets(design, "A3").strips[0].shapes["G1"]
    ((link, _),) = shape.crosses
    assert link.means is Means.BOND
    assert link.certain
    d = Draft()
    d.part("generator", "G1", power="3 kVA", neutral=OneOf(("bonded", "floating")))
    d.part("load", "EA1", power="500 W")
    d.run("G1.out", "EA1.in", "W1", size="10 AWG", length="10 ft")
    shape, _, _ = sheets(d.design, "A3").strips[0].shapes["G1"]
    ((link, _),) = shape.crosses
    assert not link.certain


def test_a_broken_conductor_is_drawn_as_broken() -> None:
    design = changeover("all")
    d = Draft()
    d.part("generator", "G1", power="3 kVA", neutral="bonded")
    d.part("load", "EA1", power="500 W")
    d.run("G1.out", "EA1.in", "W1", size="10 AWG", length="10 ft", broken="N")
    whole = {r.ribbon.cut for layout in sheets(design, "A3").strips for r in layout.routes}
    assert whole == {frozenset()}
    (route,) = sheets(d.design, "A3").strips[0].routes
    assert [route.ribbon.a.pins[i].pole for i in route.ribbon.cut] == ["N"]


def test_a_jumper_to_a_body_ends_at_its_sign() -> None:
    design = load(SAMPLES / "vaccination-trailer.linework")
    stubs = {
        design.part(drop.stub.far.part).designation
        for layout in sheets(design, "A3").strips
        for shape, _, _ in layout.shapes.values()
        for drop in shape.drops
        if drop.stub
    }
    assert stubs == {"XB1", "XB2"}


def test_a_breaker_stands_at_its_own_terminal_even_where_it_is_the_only_one() -> None:
    (layout,) = sheets(crowded(1), "A3").strips
    shape, _, _ = layout.shapes["QP1"]
    at = {
        (row.end.part, contact.owner)
        for row in shape.rows
        if isinstance(row.end, Port)
        for contact in row.chain
    }
    assert ("QF1", "QF1") in at
    assert [title.text for title in shape.titles].count("QF1 15 A") == 1


def test_a_galvanic_isolator_is_no_plain_wire() -> None:
    design = RIGS["ketch"]().design
    means = {
        contact.means
        for layout in sheets(design, "A3").strips
        for shape, _, _ in layout.shapes.values()
        if design.kind(design.part(shape.block.part)).keeps_apart(
            design.values(design.part(shape.block.part))
        )
        for row in shape.rows
        for contact in row.chain
    }
    assert means == {Means.BLOCKING}


def crowded(circuits: int) -> Design:
    d = Draft()
    d.part("generator", "G1", power="9 kVA", circuit="split", neutral="bonded", breaker="40 A")
    d.part("panel", "QP1", circuit="split", main="40 A", places="42", bond="absent")
    d.run("G1.out", "QP1.feed", "W100", size="8 AWG", length="10 ft")
    for n in range(1, circuits + 1):
        d.part("breaker", f"QF{n}", rating="15 A")
        d.seat(f"QF{n}", "QP1", str(n))
        d.part("load", f"EA{n}", power="100 W")
        d.run(f"QF{n}.load", f"EA{n}.in", f"W{n}", size="14 AWG", length="10 ft")
    return d.design


@pytest.mark.parametrize("paper", ["A3", "A4"])
def test_a_board_that_is_higher_than_the_paper_goes_on_in_pieces(paper: str) -> None:
    drawn = sheets(crowded(30), paper)
    pieces = [
        shape
        for layout in drawn.strips
        for shape, _, _ in layout.shapes.values()
        if shape.block.part == "QP1" and not shape.block.elsewhere
    ]
    assert len(pieces) > 1
    assert [piece.block.piece for piece in pieces] == [*range(1, len(pieces) + 1)]
    breakers = [c.owner for s in pieces for row in s.rows for c in row.chain if c.owner != "QP1"]
    assert sorted(breakers) == sorted(f"QF{n}" for n in range(1, 31))
    # bars are led on from each piece to the next
    for one, next_ in pairwise(pieces):
        assert one.block.goes_on == next_.block.from_above
        assert {"N", "PE"} <= {one.block.poles[net] for net in one.block.goes_on}
    test_every_conductor_of_a_run_stands_on_it_once(drawn)
    test_no_conductor_lies_on_another(drawn)
    test_no_writing_lies_on_other_writing_or_on_a_ribbon(drawn)
    test_nothing_is_outside_the_frame(drawn)


def test_what_only_some_cases_have_is_told() -> None:
    d = Draft()
    d.part("generator", "G1", power="3 kVA", neutral="bonded")
    d.part("transfer_switch", "QT1", poles=OneOf(("lines", "all")), rating="30 A")
    d.part("load", "EA1", power="500 W")
    d.run("G1.out", "QT1.in1", "W1", size="10 AWG", length="10 ft")
    d.run("QT1.load", "EA1.in", "W2", size="10 AWG", length="10 ft")
    assert "Not the same inside in all cases: QT1." in set_text(d.design)
    d.rate("QT1", poles="all")
    assert "Not the same inside" not in set_text(d.design)


# channels


def test_where_two_would_lie_on_each_other_one_keeps_to_the_left() -> None:
    one, other = Lane([0, 40], [100, 140]), Lane([100, 140], [200, 240])
    tracked([one, other])
    # the second leaves to the right at heights at which the first arrives
    assert max(other.tracks[0]) < min(one.tracks[0])


def test_a_ring_of_such_is_opened_by_a_way_below() -> None:
    one, other = Lane([0], [100]), Lane([100], [0])
    count = tracked([one, other])
    assert [bool(lane.below) for lane in (one, other)].count(True) == 1
    assert count == 3


# the sheet


def set_text(design: Design, paper: str = "A3") -> str:
    data = pages_bytes(content_of(design, paper), [CONDUCTORS])
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)


def test_every_name_is_found_on_it() -> None:
    design = load(SAMPLES / "mountain-hut.linework")
    words = set_text(design)
    for part in design.parts:
        assert part.designation in words
    for run in design.runs:
        assert run.designation in words


def test_the_same_bytes_come_twice() -> None:
    made = [
        pages_bytes(content_of(load(SAMPLES / "mountain-hut.linework"), paper="A4"), [CONDUCTORS])
        for _ in range(2)
    ]
    assert made[0] == made[1]


def test_an_empty_design_has_no_such_sheet() -> None:
    content = content_of(Draft().design)
    assert CONDUCTORS.make(content, Furniture(content, 0).room) == []


@pytest.mark.parametrize("paper", PAPERS)
def test_what_goes_on_elsewhere_says_where(paper: str) -> None:
    """By the number of a sheet that it is: no page is longer than was reckoned."""
    design = load(SAMPLES / "vaccination-trailer.linework")
    drawn = sheets(design, paper)
    assert len(drawn.pages) > 1
    data = pages_bytes(content_of(design, paper), [CONDUCTORS])
    made = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages]
    assert len(made) == len(drawn.pages)
    for number, (words, layouts) in enumerate(zip(made, drawn.pages, strict=True), start=1):
        told = {int(n) for n in re.findall(r"sheet (\d+)", words)}
        assert told <= set(range(1, len(made) + 1)) - {number}
        here = {shape.block.part for layout in layouts for shape, _, _ in layout.shapes.values()}
        assert all(design.part(part).designation in words for part in here)
        assert "sheet …" not in words


@pytest.mark.parametrize(
    ("name", "part", "told"),
    [
        ("mountain-hut", "QP2", "bus 100 A, Main breaker: 50 A"),
        ("mountain-hut", "TB1", "6 kVA"),
        ("weather-station", "GP1", "250 W, Modules in series: 2, Strings in parallel: 1"),
        ("weather-station", "F1", "100 A, class T"),
    ],
)
def test_ratings_say_what_they_are_of(name: str, part: str, told: str) -> None:
    """As at the symbols of the diagram; the link is drawn."""
    design = load(SAMPLES / f"{name}.linework")
    assert captions_in_words(design, design.by_designation(part)) == told


def test_no_rating_is_cut_off() -> None:
    for name in ("mountain-hut", "weather-station", "beekeepers-trailer"):
        drawn = sheets(load(SAMPLES / f"{name}.linework"), "A4")
        shapes = [
            shape
            for layouts in drawn.pages
            for layout in layouts
            for shape, _, _ in layout.shapes.values()
        ]
        own = [line for s in shapes if not s.block.elsewhere for line in s.lines]
        assert not [line for line in own if line.endswith("…")]
        arrays = [" ".join(s.lines) for s in shapes if any("Modules" in line for line in s.lines)]
        assert all("Strings in parallel: 1" in told for told in arrays)
