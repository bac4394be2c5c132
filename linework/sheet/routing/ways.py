"""The way of one run: a plain one where that is free, else the cheapest that a search finds."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from linework.picture.geometry import MODULE, Box
from linework.sheet.routing.lanes import (
    BEND,
    BLOCKED,
    CROSS,
    KIN_SIDE,
    PLAIN,
    SHARE,
    TEE,
    TOUCH,
    VECTORS,
    Ground,
    Polyline,
    Track,
    Way,
    simplified,
    tracks_of,
)
from linework.sheet.routing.search import Search

MARGIN = 14 * MODULE
"""The search goes on so far around the ends, then four times as far."""


def find_way(way: Way, ground: Ground) -> Polyline:
    """The cheapest way that the search finds; a plain dog-leg where it finds none.

    Simple ways are tried first; only where none is free the search begins, in a window around
    the ends and then in a wider one.
    """
    near = ground.near(_window(way, MARGIN))
    plain, price = _best_plain(way, near)
    if price < PLAIN:
        return plain
    best, least = plain, price
    for margin in (MARGIN, 4 * MARGIN):
        window = _window(way, margin)
        found, cost = Search(way, ground.near(window), window).run()
        if found and cost < min(least, BLOCKED):
            best, least = found, cost
        if found and cost < TOUCH:
            break
    return best


def cost_of(way: Way, points: Polyline, ground: Ground) -> int:
    """What a way costs: its length, its bends, what it meets."""
    cost = _length(points) + BEND * max(len(points) - 2, 0)
    return cost + _price(points, ground) + _turned_back(way, points)


def _window(way: Way, margin: int) -> Box:
    (ax, ay), (bx, by) = way.start, way.goal
    return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)).grown(margin)


# simple ways


def _best_plain(way: Way, ground: Ground) -> tuple[Polyline, int]:
    """The cheapest of the straight way and the dog-legs, with what it costs beyond its length."""
    best: Polyline = ()
    least = extra = 0
    for points in _plain_ways(way):
        beyond = _price(points, ground)
        turned = _turned_back(way, points)
        cost = _length(points) + BEND * (len(points) - 2) + beyond + turned
        if not best or cost < least:
            best, least, extra = points, cost, beyond + turned
    return best, extra


def _plain_ways(way: Way) -> Iterable[Polyline]:
    (ax, ay), (bx, by) = way.start, way.goal
    if ax == bx or ay == by:
        yield simplified((way.start, way.goal))
    yield simplified((way.start, (bx, ay), way.goal))
    yield simplified((way.start, (ax, by), way.goal))
    for x in _spread(ax, bx):
        yield simplified((way.start, (x, ay), (x, by), way.goal))
    for y in _spread(ay, by):
        yield simplified((way.start, (ax, y), (bx, y), way.goal))


def _spread(a: int, b: int) -> list[int]:
    """Lines between and just outside two ends, the middle first."""
    low, high = min(a, b), max(a, b)
    middle = (low + high) // 2 // MODULE * MODULE
    found = [middle]
    for step in range(MODULE, 9 * MODULE, MODULE):
        found += [middle + step, middle - step]
    return [*found, low - MODULE, high + MODULE, low - 2 * MODULE, high + 2 * MODULE]


def _turned_back(way: Way, points: Polyline) -> int:
    """What it costs to leave or arrive against, or across, the direction of the terminal."""
    if len(points) < 2:
        return 0
    cost = 0
    for at, on, direction in (
        (points[0], points[1], way.leaves),
        (points[-1], points[-2], way.faces),
    ):
        dx, dy = VECTORS[direction]
        ahead = (on[0] - at[0]) * dx + (on[1] - at[1]) * dy
        cost += BLOCKED if ahead < 0 else (BEND if ahead == 0 else 0)
    return cost


def _length(points: Polyline) -> int:
    return sum(abs(ax - bx) + abs(ay - by) for (ax, ay), (bx, by) in pairwise(points))


def _price(points: Polyline, ground: Ground) -> int:
    """Beyond length and bends: boxes cut, tracks shared, touched and crossed."""
    cost = 0
    for piece in tracks_of(points):
        cost += BLOCKED * sum(_cuts(piece, box) for box in ground.boxes)
        cost += sum(_meeting(piece, track) for track in ground.tracks)
    return cost


def _cuts(piece: Track, box: Box) -> bool:
    if piece.level:
        return box.top < piece.line < box.bottom and box.left < piece.high and piece.low < box.right
    return box.left < piece.line < box.right and box.top < piece.high and piece.low < box.bottom


def _meeting(piece: Track, track: Track) -> int:
    if piece.level == track.level:
        if piece.line != track.line:
            return 0
        shared = min(piece.high, track.high) - max(piece.low, track.low)
        if track.kin:
            return track.shared(max(shared, 0))
        return SHARE + 3 * shared if shared > 0 else (TOUCH if shared == 0 else 0)
    inside = track.low <= piece.line <= track.high and piece.low <= track.line <= piece.high
    if not inside:
        return 0
    end = piece.line in (track.low, track.high) or track.line in (piece.low, piece.high)
    if track.kin:
        return TEE if end else 2 * KIN_SIDE
    return TOUCH if end else CROSS
