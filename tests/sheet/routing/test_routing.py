"""Runs: orthogonal, from anchor to anchor, out of the way of parts and of each other."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, pairwise, product

import pytest
from hypothesis import given
from hypothesis import settings as examples
from hypothesis import strategies as st

from linework.design import Design, Draft, changed
from linework.picture.geometry import Box
from linework.sheet.parts.parts import PartDrawing, draw_parts
from linework.sheet.routing.folding import body_end
from linework.sheet.routing.lanes import VECTORS, Ground, Polyline, Way, simplified, tracks_of
from linework.sheet.routing.routing import end_of, on_one_sheet, route, routes, run_end
from linework.sheet.routing.runs import crossings, joints
from linework.sheet.routing.ways import find_way
from tests.sheet.samples import at_random, trailer, unplaced


def _is_orthogonal(way: Polyline) -> bool:
    return all((a[0] == b[0]) != (a[1] == b[1]) for a, b in pairwise(way))


def _inside(box: Box, a: tuple[int, int], b: tuple[int, int]) -> bool:
    low, high = sorted((a, b))
    return (
        low[0] < box.right
        and box.left < high[0]
        and min(a[1], b[1]) < box.bottom
        and box.top < max(a[1], b[1])
    ) or (box.left < a[0] < box.right and box.top < a[1] < box.bottom)


def _cut_boxes(way: Polyline, drawings: dict[str, PartDrawing], own: set[str]) -> list[str]:
    return [
        drawing.id
        for drawing in drawings.values()
        if drawing.id not in own
        for a, b in pairwise(way)
        if _inside(drawing.box.grown(-3), a, b)
    ]


def _with_hosts(drawings: dict[str, PartDrawing], *ids: str) -> set[str]:
    found: set[str] = set()
    for part_id in ids:
        while part_id and part_id not in found:
            found.add(part_id)
            part_id = drawings[part_id].host
    return found


@pytest.fixture(scope="module")
def sample() -> tuple[Design, dict[str, PartDrawing], dict[str, Polyline]]:
    design = trailer()
    drawings = draw_parts(design)
    return design, drawings, routes(design, drawings)


Sample = tuple[Design, dict[str, PartDrawing], dict[str, Polyline]]


def test_every_run_goes_from_anchor_to_anchor(sample: Sample) -> None:
    design, drawings, ways = sample
    assert set(ways) == {run.id for run in design.runs}
    for run in design.runs:
        if body_end(design, run) is not None:
            continue
        way = ways[run.id]
        assert way[0] == run_end(design, drawings, run, run.a)[:2]
        assert way[-1] == run_end(design, drawings, run, run.b)[:2]
        assert _is_orthogonal(way), run.id


def test_runs_leave_terminals_in_their_direction(sample: Sample) -> None:
    design, drawings, ways = sample
    for run in design.runs:
        way = ways[run.id]
        for end, at, on in ((run.a, way[0], way[1]), (run.b, way[-1], way[-2])):
            dx, dy = VECTORS[end_of(drawings, end.part, end.terminal)[2]]
            ahead = (on[0] - at[0]) * dx + (on[1] - at[1]) * dy
            assert ahead > 0, (run.id, end)


def test_runs_keep_out_of_parts(sample: Sample) -> None:
    design, drawings, ways = sample
    for run in design.runs:
        own = _with_hosts(drawings, run.a.part, run.b.part)
        assert _cut_boxes(ways[run.id], drawings, own) == [], run.id


def test_runs_that_share_a_channel_lie_apart(sample: Sample) -> None:
    design, _, ways = sample
    for one, other in combinations(design.runs, 2):
        if len({one.a, one.b, other.a, other.b}) == 4:
            for a, b in product(tracks_of(ways[one.id]), tracks_of(ways[other.id])):
                together = a.level == b.level and a.line == b.line
                shared = min(a.high, b.high) - max(a.low, b.low)
                assert not (together and shared > 0), (one.id, other.id)


def test_the_same_design_gives_the_same_ways(sample: Sample) -> None:
    _, _, ways = sample
    again = trailer()
    assert routes(again, draw_parts(again)) == ways


def test_kept_ways_stay_and_others_are_laid(sample: Sample) -> None:
    design, drawings, ways = sample
    kept = {key: way for key, way in ways.items() if key not in ("W2", "W5")}
    again = routes(design, drawings, kept)
    assert {key: again[key] for key in kept} == kept
    assert set(again) == set(ways)


def test_one_run_alone_is_laid_with_the_others_in_mind(sample: Sample) -> None:
    design, drawings, ways = sample
    run = next(run for run in design.runs if run.id == "W4")
    others = {key: way for key, way in ways.items() if key != "W4"}
    way = route(design, run, drawings, others)
    assert way[0] == ways["W4"][0]
    assert way[-1] == ways["W4"][-1]


def test_bends_of_the_user_are_kept() -> None:
    design = trailer()
    run = next(run for run in design.runs if run.id == "W2")
    bent = replace(run, route=((1500, 1000), (1700, 1000)))
    design.apply(changed("", [(run, bent)]))
    drawings = draw_parts(design)
    way = route(design, bent, drawings)
    assert _is_orthogonal(way)
    assert {(1500, 1000), (1700, 1000)} <= set(way)
    assert way[0] == end_of(drawings, bent.a.part, bent.a.terminal)[:2]
    assert way[-1] == end_of(drawings, bent.b.part, bent.b.terminal)[:2]


def test_bends_stay_when_a_part_moves() -> None:
    design = trailer()
    run = next(run for run in design.runs if run.id == "W2")
    plug = design.by_designation("XP1")
    bent = replace(run, route=((1500, 1000), (1700, 1000)))
    design.apply(changed("", [(run, bent), (plug, replace(plug, x=1300, y=1375))]))
    way = route(design, bent, draw_parts(design))
    assert _is_orthogonal(way)
    assert {(1500, 1000), (1700, 1000)} <= set(way)


@given(st.integers(0, 10_000))
@examples(max_examples=12)
def test_whatever_is_drawn_runs_are_orthogonal_and_end_at_anchors(seed: int) -> None:
    design = at_random(seed)
    drawings = draw_parts(design)
    ways = routes(design, drawings)
    for run in design.runs:
        if run.a.part == run.b.part and run.a.terminal == run.b.terminal:
            continue
        if body_end(design, run) is not None:
            continue
        way = ways[run.id]
        assert way[0] == run_end(design, drawings, run, run.a)[:2]
        assert way[-1] == run_end(design, drawings, run, run.b)[:2]
        assert _is_orthogonal(way), (run.id, way)


def test_a_run_to_another_sheet_has_no_way() -> None:
    design = trailer()
    switch = design.by_designation("QT1")
    design.apply(changed("", [(switch, replace(switch, sheet=2))]))
    drawings = draw_parts(design)
    split = {run.id for run in design.runs if not on_one_sheet(run, drawings)}
    assert {run.id for run in design.runs if switch.id in (run.a.part, run.b.part)} == split
    assert split.isdisjoint(routes(design, drawings))


def test_a_detour_is_taken_round_a_wall() -> None:
    wall = Box(100, -500, 200, 500)
    way = find_way(Way((0, 0), "right", (300, 0), "left"), Ground((wall,)))
    assert way[0] == (0, 0)
    assert way[-1] == (300, 0)
    assert not any(_inside(wall.grown(-1), a, b) for a, b in pairwise(way))


def test_where_there_is_no_way_a_plain_one_is_drawn() -> None:
    prison = (Box(-100, -100, 100, -50), Box(-100, 50, 100, 100))
    walls = (*prison, Box(-100, -100, -50, 100), Box(50, -100, 100, 100))
    way = find_way(Way((0, 0), "right", (400, 0), "left"), Ground(walls))
    assert way[0] == (0, 0)
    assert way[-1] == (400, 0)
    assert _is_orthogonal(way)


def test_points_in_the_middle_of_a_straight_piece_are_left_out() -> None:
    assert simplified([(0, 0), (5, 0), (5, 0), (9, 0), (9, 4)]) == ((0, 0), (9, 0), (9, 4))


def test_a_crossing_is_found_once_and_the_level_run_gets_the_bow() -> None:
    ways = {"a": ((0, 50), (100, 50)), "b": ((50, 0), (50, 100)), "c": ((100, 50), (100, 90))}
    (crossing,) = crossings(ways)
    assert (crossing.x, crossing.y, crossing.over, crossing.under) == (50, 50, "a", "b")


def test_runs_that_end_at_one_terminal_have_a_dot_where_they_part() -> None:
    draft = Draft()
    draft.part("panel", "QP1", at=(1000, 700))
    for number, x in enumerate((500, 1500)):
        draft.part("electrode", f"XE{number}", at=(x, 2500))
        draft.run(f"XE{number}.ground", "QP1.ground", size="8 AWG", length="3 ft")
    ways = routes(draft.design, draw_parts(draft.design))
    (dot,) = joints(draft.design, ways)
    assert all(dot in _points(way) for way in ways.values())


def _points(way: Polyline) -> set[tuple[int, int]]:
    found = set(way)
    for (ax, ay), (bx, by) in pairwise(way):
        for step in range(max(abs(ax - bx), abs(ay - by)) + 1):
            sign_x, sign_y = (bx > ax) - (bx < ax), (by > ay) - (by < ay)
            found.add((ax + step * sign_x, ay + step * sign_y))
    return found


def test_rows_of_a_board_run_straight_to_loads_level_with_them() -> None:
    from linework.sheet.arranging.arrange import lay_out

    design = lay_out(unplaced(5))
    ways = routes(design, draw_parts(design))
    assert all(len(ways[run.id]) == 2 for run in design.runs if run.a.part.startswith("QF"))


def test_a_run_branches_off_another_of_its_terminal() -> None:
    """The other goes far up, then right; this one goes along with it up to its own height."""
    other = ((0, 0), (0, -800), (1000, -800))
    way = Way((0, 0), "right", (1000, -400), "left")
    wall = (Box(100, -300, 1200, 300),)
    shared = find_way(way, Ground(wall, tracks_of(other, kin=True)))
    assert shared == ((0, 0), (0, -400), (1000, -400))
    apart = find_way(way, Ground(wall, tracks_of(other)))
    assert set(tracks_of(apart)).isdisjoint(tracks_of(shared))


def test_a_detour_is_taken_rather_than_to_meet_the_line_of_another_circuit() -> None:
    other = tracks_of(((200, -2000), (200, 0), (2000, 0)))
    way = find_way(Way((0, 0), "right", (400, 300), "left"), Ground((), other))
    for piece, track in product(tracks_of(way), other):
        if piece.level == track.level and piece.line == track.line:
            assert min(piece.high, track.high) < max(piece.low, track.low)
    assert (200, 0) not in _points(way)
