"""Every symbol of every family and position: its file, its anchors, its geometry."""

from __future__ import annotations

import json
from itertools import pairwise

import pytest

from linework import data
from linework.kinds.registry import kinds
from linework.picture import stretch
from linework.picture.geometry import MODULE, Box
from linework.picture.measure import arc_points, box_of, text_box
from linework.picture.model import Arc, Circle, Leaf, Line, Polyline, Rect, Text, flatten
from linework.picture.symbol import Symbol
from linework.picture.symbolfile import SymbolFileError, read_symbol
from linework.picture.symbols import positions, symbol, symbol_names
from linework.words import FAMILIES

FILES = data.names("symbols")
FORMS = [
    (name, family, position)
    for name in symbol_names()
    for family in FAMILIES
    for position in positions(name, family) or ("",)
]
every_form = pytest.mark.parametrize(("name", "family", "position"), FORMS)


@pytest.mark.parametrize("file", FILES)
def test_a_file_says_its_own_name_and_its_source(file: str) -> None:
    content = json.loads(data.read_text(file))
    assert content["symbol"] == file.rsplit("/", 1)[1].split(".")[0]
    assert "from memory" in content["source"] or "no source" in content["source"]
    assert read_symbol(file).anchors


@every_form
def test_anchors_lie_on_the_grid(name: str, family: str, position: str) -> None:
    made = symbol(name, family, position, places=3)
    for anchor in (*made.anchors.values(), *made.places.values()):
        assert (anchor.x % MODULE, anchor.y % MODULE) == (0, 0)


@every_form
def test_anchors_lie_on_ink_or_in_a_mouth(name: str, family: str, position: str) -> None:
    made = symbol(name, family, position, places=3)
    for key, anchor in {**made.anchors, **made.places}.items():
        assert _on_ink(made, anchor.x, anchor.y), key


@every_form
def test_runs_leave_outward(name: str, family: str, position: str) -> None:
    """No stroke of the symbol lies on the way from an anchor outward, but a mate's contact."""
    made = symbol(name, family, position, places=3)
    for key, anchor in made.anchors.items():
        if key in ("pins", "outside") or name == "plug_load":
            continue  # half of the contact stands out, to lie in the mouth of its mate
        dx, dy = {"left": (-1, 0), "right": (1, 0), "up": (0, -1), "down": (0, 1)}[anchor.direction]
        assert not any(
            _on_ink(made, anchor.x + dx * step, anchor.y + dy * step) for step in range(3, 200)
        ), key


def _on_ink(made: Symbol, x: int, y: int) -> bool:
    return any(_touches(flat.item, x, y) for flat in flatten(made.group.items))


def _touches(item: Leaf, x: int, y: int) -> bool:
    match item:
        case Line():
            return _near(((item.x1, item.y1), (item.x2, item.y2)), x, y)
        case Polyline():
            ends = item.points + (item.points[:1] if item.closed else ())
            first, last = item.points[0], item.points[-1]
            mouth = len(item.points) == 3 and (2 * x, 2 * y) == (
                first[0] + last[0],
                first[1] + last[1],
            )
            return mouth or any(_near(pair, x, y) for pair in pairwise(ends))
        case Rect():
            inside = box_of(item).holds(x, y)
            return inside if item.fill else inside and not box_of(item).grown(-1).holds(x, y)
        case Circle():
            return abs(((x - item.x) ** 2 + (y - item.y) ** 2) ** 0.5 - item.r) <= 1
        case Arc():
            return _touches_arc(item, x, y)
        case _:
            return False


def _touches_arc(item: Arc, x: int, y: int) -> bool:
    """On the arc, or in the middle of its open mouth."""
    turns = range(0, item.sweep + 1, 2) if item.sweep > 0 else range(item.sweep, 1, 2)
    points = arc_points(item, [item.start + turn for turn in turns])
    on = any(abs(px - x) <= 1.5 and abs(py - y) <= 1.5 for px, py in points)
    return on or (abs(item.sweep) == 180 and (x, y) == (item.x, item.y))


def _near(ends: tuple[tuple[int, int], ...], x: int, y: int) -> bool:
    """Within 0.1 mm of the straight line between two points."""
    (ax, ay), (bx, by) = ends
    length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    if not length:
        return (ax, ay) == (x, y)
    along = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length
    across = abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / length
    return -1 <= along <= length + 1 and across <= 1


@every_form
def test_writing_in_a_symbol_is_large_enough_and_inside_its_box(
    name: str, family: str, position: str
) -> None:
    made = symbol(name, family, position)
    for flat in flatten([made.group]):
        if isinstance(flat.item, Text):
            # At least 2.5 mm (IEC 61082-1, from memory); our own least for paper is 2.9 mm.
            assert flat.item.height >= 29
            assert made.box.contains(text_box(flat.item))


@every_form
def test_labels_stand_clear_of_the_symbol(name: str, family: str, position: str) -> None:
    made = symbol(name, family, position)
    for key in ("above", "below"):
        place = made.labels[key]
        label = text_box(Text(place.x, place.y, "Qx1", 35, place.across, place.level))
        for flat in flatten(made.group.items):
            assert not box_of(flat.item).overlaps(label), (key, flat.item)


def test_labels_stay_when_the_selector_moves() -> None:
    for name, family in ((name, family) for name in symbol_names() for family in FAMILIES):
        hung = [symbol(name, family, position).labels for position in positions(name, family)]
        assert all(labels == hung[0] for labels in hung)


@every_form
def test_positions_keep_the_anchors(name: str, family: str, position: str) -> None:
    assert symbol(name, family, position).anchors == symbol(name, family).anchors


def test_both_families_name_the_same_terminals() -> None:
    for name in symbol_names():
        assert symbol(name, "NA").anchors.keys() == symbol(name, "INT").anchors.keys()


@pytest.mark.parametrize(
    ("name", "family"), [(n, f) for n, f, p in FORMS if p == "closed"], ids=lambda value: value
)
def test_a_closed_contact_joins_what_an_open_one_parts(name: str, family: str) -> None:
    """Walk along the line of the contact: closed there is no gap, open there is one."""
    assert _joined(symbol(name, family, "closed"))
    assert not _joined(symbol(name, family, "open"))


def _joined(made: Symbol) -> bool:
    """True if some stroke covers each upright through the gap and ends on the leads."""
    strokes = [flat.item for flat in flatten(made.group.items)]
    return any(_spans(item) for item in strokes)


def _spans(item: Leaf) -> bool:
    if isinstance(item, Line):
        ends = sorted([(item.x1, item.y1), (item.x2, item.y2)])
        return all(y == 0 for _, y in ends) and ends[0][0] <= -20 and ends[1] == (38, 0)
    if isinstance(item, Arc) and abs(item.sweep) < 180:
        (ax, ay), (bx, by) = arc_points(item, [item.start, item.start + item.sweep])
        return max(abs(abs(ax) - 38), abs(abs(bx) - 38), abs(ay), abs(by)) <= 1.5
    return False


def test_the_transfer_switch_touches_the_input_it_is_thrown_to() -> None:
    for name in ("transfer_switch", "transfer_automatic"):
        for position, input_y in (("1", -50), ("2", 50)):
            blade = _blade(symbol(name, "INT", position))
            assert (blade.x2, round(blade.y2, -1)) == (-45, input_y)
        assert _blade(symbol(name, "INT", "off")).y2 == 0


def _blade(made: Symbol) -> Line:
    lines = [flat.item for flat in flatten(made.group.items) if isinstance(flat.item, Line)]
    (blade,) = (line for line in lines if (line.x1, line.y1) == (38, 0) and line.x2 < 38)
    return blade


def test_the_long_stroke_of_a_cell_is_at_the_plus_sign() -> None:
    """IEC 60617 S00898: the longer line is the positive pole."""
    items = [flat.item for flat in flatten(symbol("battery", "NA").group.items)]
    upright = [item for item in items if isinstance(item, Line) and item.x1 == item.x2]
    plus = next(line for line in upright if line.y2 < 0)
    cells = sorted((line for line in upright if line.y2 > 10), key=lambda line: line.x1)
    lengths = [line.y2 - line.y1 for line in cells]
    assert len(lengths) == 4
    assert lengths[0] == lengths[2] < lengths[1] == lengths[3]
    assert plus.x1 > 0


def test_a_plug_reaches_into_the_outlet_that_it_sits_in() -> None:
    outlet, plug = symbol("outlet", "INT"), symbol("plug", "INT")
    face, pins = outlet.anchors["face"], plug.anchors["pins"]
    lying = plug.at(face.x - pins.x, face.y - pins.y)
    assert lying.anchors["pins"].x == face.x
    assert lying.box.left < face.x < lying.box.right
    bowl = next(flat.item for flat in flatten(outlet.group.items) if isinstance(flat.item, Arc))
    assert lying.box.left > bowl.x - bowl.rx


def test_a_symbol_lies_as_it_is_turned() -> None:
    breaker = symbol("breaker", "INT").at(1000, 500, turn=1, tag="p1")
    line, load = breaker.anchors["line"], breaker.anchors["load"]
    assert (line.x, line.y, line.direction) == (1000, 400, "up")
    assert (load.x, load.y, load.direction) == (1000, 600, "down")
    assert breaker.group.tag == "p1"
    assert breaker.box.height > breaker.box.width
    mirrored = symbol("breaker", "INT").at(0, 0, mirror=True)
    assert mirrored.anchors["line"].direction == "right"


def test_a_name_that_is_not_there_brings_the_nearest() -> None:
    with pytest.raises(data.ResourceError, match=r"Did you mean breaker\.json"):
        symbol("braeker", "NA")
    with pytest.raises(ValueError, match="no family 'XX'"):
        symbol("breaker", "XX")


def test_a_position_that_is_not_shown_leaves_the_standard_form() -> None:
    assert symbol("breaker", "INT", "halfway") == symbol("breaker", "INT", "open")


# -- faulty files -------------------------------------------------------------------------------

SOUND = {
    "symbol": "x",
    "title": "x",
    "source": "from memory",
    "strokes": [{"line": [0, 0, 25, 0]}],
    "anchors": {"a": [0, 0, "left"]},
}


def _refusal(content: object, monkeypatch: pytest.MonkeyPatch) -> str:
    text = content if isinstance(content, str) else json.dumps(content)
    monkeypatch.setattr(data, "read_text", lambda name: text)
    with pytest.raises(SymbolFileError) as caught:
        read_symbol("symbols/x.json")
    return str(caught.value)


@pytest.mark.parametrize(
    ("fault", "said"),
    [
        ("[]", "not a JSON object"),
        ("{", "Expecting"),
        ('{"symbol": "x", "symbol": "y"}', "twice"),
        ({**SOUND, "colour": 1}, "colour"),
        ({key: value for key, value in SOUND.items() if key != "anchors"}, "anchors"),
        ({**SOUND, "anchors": {"a": [0, 0, "north"]}}, "anchor a"),
        ({**SOUND, "anchors": {"a": [0.5, 0, "left"]}}, "whole number"),
        ({**SOUND, "labels": {"above": [0, 0, "left", "base"]}}, "label above"),
        ({**SOUND, "strokes": [{"line": [0, 0, 25]}]}, "list of 4"),
        ({**SOUND, "strokes": [{"line": [0, 0, 1, 1], "pen": "none"}]}, "needs a pen"),
        ({**SOUND, "strokes": [{"line": [0, 0, 1, 1], "pen": "huge"}]}, "huge"),
        ({**SOUND, "strokes": [{"line": [0, 0, 1, 1], "ink": "mauve"}]}, "mauve"),
        ({**SOUND, "strokes": [{"line": [0, 0, 1, 1], "turn": 1}]}, "unknown here: turn"),
        ({**SOUND, "strokes": [{"squiggle": []}]}, "exactly one of"),
        ({**SOUND, "strokes": [{"bezier": [[0, 0], [1, 1]]}]}, "three more"),
        ({**SOUND, "strokes": [{"mark": "moon", "at": [0, 0, 10]}]}, "moon"),
        ({**SOUND, "strokes": [{"arrow": [5, 5, 5, 5]}]}, "two different ends"),
    ],
)
def test_a_faulty_file_is_refused_with_the_fault(
    fault: object, said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    message = _refusal(fault, monkeypatch)
    assert "symbols/x.json" in message
    assert said in message


# -- symbols that stretch -------------------------------------------------------------------------


@pytest.mark.parametrize("count", [1, 2, 6, 42])
def test_a_panel_has_a_place_for_each_breaker(count: int) -> None:
    made = stretch.panel(count, pitch=75, reach=225)
    assert list(made.places) == [str(number) for number in range(1, count + 1)]
    levels = [place.y for place in made.places.values()]
    assert levels == [75 * at for at in range(count)]
    assert made.anchors["feed"].y == levels[0]
    assert made.anchors["ground"].y > levels[-1]
    outline = made.group.items[0]
    assert isinstance(outline, Rect)
    assert outline.x + outline.width == made.places["1"].x + 225


@pytest.mark.parametrize(("count", "pitch", "reach"), [(0, 100, 0), (3, 90, 0), (3, 100, 10)])
def test_a_panel_off_the_grid_is_refused(count: int, pitch: int, reach: int) -> None:
    with pytest.raises(ValueError, match=r"places|multiples"):
        stretch.panel(count, pitch, reach)


def test_a_source_with_outlets_keeps_its_output_uppermost() -> None:
    made = symbol("generator", "NA", places=3)
    assert list(made.places) == ["1", "2", "3"]
    assert made.anchors["out"].y < min(place.y for place in made.places.values())
    assert symbol("generator", "NA").places == {}


def test_a_plain_box_carries_the_names_it_is_given() -> None:
    made = stretch.box(("a", "b", "c"), ("d",), ("e", "f"))
    assert set(made.anchors) == set("abcdef")
    body = made.group.items[0]
    assert isinstance(body, Rect)
    frame = Box(body.x, body.y, body.x + body.width, body.y + body.height)
    for anchor in made.anchors.values():
        assert frame.grown(MODULE).holds(anchor.x, anchor.y)
        assert not frame.grown(-1).holds(anchor.x, anchor.y)


# -- the kinds -----------------------------------------------------------------------------------


@pytest.mark.parametrize("key", sorted(kinds()))
@pytest.mark.parametrize("family", FAMILIES)
def test_a_kinds_symbol_has_an_anchor_for_each_terminal(key: str, family: str) -> None:
    kind = kinds()[key]
    values = kind.values({})
    made = symbol(kind.symbol(values), family, places=len(kind.places(values)))
    assert {terminal.name for terminal in kind.terminals(values)} == set(made.anchors)
    assert {place.name for place in kind.places(values)} <= set(made.places)
