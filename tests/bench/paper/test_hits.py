from __future__ import annotations

import pytest

from linework.bench.paper.hits import hit, inside, terminal_near, terminals
from linework.design import End
from linework.design.edits import add_note, add_part
from linework.picture.geometry import Box
from linework.sheet.compose import compose
from tests.bench.hands import small

SLOP = 20


@pytest.fixture
def design():
    made = small()
    made.apply(add_note(made, "a note", (2600, 1900)))
    return made


def test_what_lies_where(design) -> None:
    layout = compose(design)
    battery = layout.drawings["GB1"]
    run = design.runs_at("G1")[0]
    x, y = layout.ways[run.id][0]
    far = layout.ways[run.id][1]
    cases = {
        battery.box.center: ("part", "GB1"),
        battery.anchors["dc"][:2]: ("terminal", "GB1"),
        ((x + far[0]) // 2, (y + far[1]) // 2 + SLOP - 1): ("run", run.id),
        layout.items[design.notes[0].id][0].center: ("note", design.notes[0].id),
        (2600, 1500): ("paper", ""),
        (-100, 50): ("desk", ""),
    }
    for at, expected in cases.items():
        found = hit(design, layout, at, SLOP)
        assert (found.sort, found.element) == expected
        assert found.at == at


def test_the_writing_of_an_element_stands_for_it(design) -> None:
    layout = compose(design)
    for key in ("G1", design.runs_at("G1")[0].id):
        (label,) = [label for label in layout.placed if label.key == key]
        found = hit(design, layout, label.boxes[0].center, 2)
        assert found.element == key


def test_the_terminal_by_which_a_part_sits_is_not_offered(design) -> None:
    ends = [end for end, _ in terminals(design, compose(design).drawings.values())]
    assert End("QF1", "load") in ends
    assert End("QF1", "line") not in ends
    assert len(set(ends)) == len(ends)


def test_a_kind_nobody_knows_offers_no_terminal(design) -> None:
    from linework.design import Part, changed

    design.apply(changed("", [(None, Part("U1", "flux_gate", "U1", x=2600, y=1500))]))
    assert not [
        end for end, _ in terminals(design, compose(design).drawings.values()) if end.part == "U1"
    ]


def test_the_nearest_terminal_counts(design) -> None:
    layout = compose(design)
    x, y, _ = layout.drawings["XD1"].anchors["feed"]
    assert terminal_near(design, layout, (x - 5, y + 5), SLOP) == End("XD1", "feed")
    assert terminal_near(design, layout, (x - 50, y + 50), SLOP) is None


def test_inside_a_band(design) -> None:
    layout = compose(design)
    assert inside(design, layout, Box(2500, 1800, 3600, 2100)) == (design.notes[0].id,)
    everything = inside(design, layout, Box(0, 0, 4200, 2970))
    wanted = {p.id for p in design.parts} | {r.id for r in design.runs} | {design.notes[0].id}
    assert set(everything) == wanted


def test_parts_of_other_sheets_are_not_met(design) -> None:
    design.apply(add_part(design, "lamp", at=(2600, 1500), sheet=2, part_id="EL1"))
    assert hit(design, compose(design), (2600, 1500), SLOP).sort == "paper"
