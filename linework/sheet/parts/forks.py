"""Where the poles of one terminal go different ways: a fork with a sign at each arm.

One line stands for all poles of a terminal. Where runs of single poles leave it, plus and minus
must not seem to meet in one point: each has an arm of its own, with its sign.
"""

from __future__ import annotations

from dataclasses import replace

from linework.design import Design, End, Part, Run, pole_map
from linework.picture.geometry import MODULE, Point
from linework.picture.inks import THIN, Pen
from linework.picture.model import Item, Line, Text
from linework.picture.symbol import Symbol
from linework.picture.symbolfile import Anchor
from linework.sheet.lettering import SMALL
from linework.wiring import Pole, is_dc

_VECTORS: dict[str, Point] = {"right": (1, 0), "down": (0, 1), "left": (-1, 0), "up": (0, -1)}
_SIGN = 7
"""Half of a sign, in tenths of a millimetre."""
_SIGNS = Pen(width=THIN)


def fork_key(design: Design, run: Run, end: End) -> str:
    """The name of the arm at which a run of few poles ends, were its terminal forked: "dc.+"."""
    poles = _poles(design, run, end)
    return f"{end.terminal}.{' '.join(poles)}" if poles else end.terminal


def _poles(design: Design, run: Run, end: End) -> tuple[str, ...]:
    """The direct-current poles of a terminal to which a run goes; () for all or none."""
    at = 0 if end == run.a else 1
    mine = {pair[at] for pair in pole_map(design, run)}
    part = design.part(end.part)
    terminals = design.kind(part).terminals(design.values(part))
    every = next((t.poles for t in terminals if t.name == end.terminal), ())
    live = [pole for pole in every if is_dc(pole)]
    held = [pole for pole in live if pole in mine]
    return tuple(pole.value for pole in held) if held and len(held) < len(live) else ()


def forked(design: Design, part: Part, plain: Symbol) -> Symbol:
    """The symbol with an arm for each single pole, or few, that leaves a terminal by itself."""
    arms = _arms(design, part, plain)
    if not arms:
        return plain
    whole = {
        end.terminal
        for run in design.runs_at(part.id)
        for end in (run.a, run.b)
        if end.part == part.id and fork_key(design, run, end) == end.terminal
    }
    seated, links = _seated(design, part, plain), _links(design, part)
    anchors, items = dict(plain.anchors), list(plain.group.items)
    for terminal, keys in arms.items():
        at = plain.anchors[terminal]
        for key in [key for key in keys if key in links]:
            arm = _upright(at, links[key])
            anchors[key] = arm
            items += _strokes(at, arm, links[key] * 2 * MODULE, key.partition(".")[2])
        keys = [key for key in keys if key not in links]
        if terminal in seated:
            keys = keys[::-1]  # minus below what sits there, and what is plus above it
            offsets = [-off for off in _offsets(keys, taken=True)]
        else:
            offsets = _offsets(keys, terminal in whole)
        for key, off in zip(keys, offsets, strict=True):
            arm = _arm(at, off)
            anchors[key] = arm
            items += _strokes(at, arm, off, key.partition(".")[2])
    return replace(plain, group=replace(plain.group, items=tuple(items), name=""), anchors=anchors)


def _arms(design: Design, part: Part, plain: Symbol) -> dict[str, list[str]]:
    """By terminal the arms that its runs need: where they do not all carry the same poles, and
    beside what sits on one of them."""
    seated = _seated(design, part, plain)
    found: dict[str, set[str]] = {}
    for run in design.runs_at(part.id):
        for end in {run.a, run.b}:
            if end.part == part.id and end.terminal in plain.anchors:
                found.setdefault(end.terminal, set()).add(fork_key(design, run, end))
    return {
        terminal: arms
        for terminal, keys in found.items()
        if (arms := sorted(keys - {terminal})) and (len(keys) > 1 or terminal in seated)
    }


def _seated(design: Design, part: Part, plain: Symbol) -> set[str]:
    """The terminals on which something sits, as a fuse on a post: its line goes straight on."""
    taken = {seat.place for seat in design.seated_in(part.id)}
    points = {(at.x, at.y) for name, at in plain.places.items() if name in taken}
    return {name for name, at in plain.anchors.items() if (at.x, at.y) in points}


def _links(design: Design, part: Part) -> dict[str, int]:
    """The arms from which nothing goes but to the other pole of the next battery in a row: 1 for
    one that goes down from minus, -1 for one that comes from above to plus."""
    if not design.kind(part).source.stores:
        return {}
    found: dict[str, set[int]] = {}
    for run in design.runs_at(part.id):
        for mine, other in ((run.a, run.b), (run.b, run.a)):
            if mine.part == part.id:
                found.setdefault(fork_key(design, run, mine), set()).add(_link(design, run, other))
    return {key: sides.pop() for key, sides in found.items() if len(sides) == 1 and 0 not in sides}


def _link(design: Design, run: Run, other: End) -> int:
    """-1 where a run comes from the minus of another battery to plus, 1 where it goes from minus
    to plus there, else 0."""
    there = _poles(design, run, other)
    here = _poles(design, run, run.a if other == run.b else run.b)
    if not design.kind(design.part(other.part)).source.stores or run.a.part == run.b.part:
        return 0
    ways = {(Pole.NEG.value, Pole.POS.value): 1, (Pole.POS.value, Pole.NEG.value): -1}
    return ways.get((*here, *there), 0) if len(here) == len(there) == 1 else 0


def _upright(at: Anchor, side: int) -> Anchor:
    """An arm beside a terminal from which a run goes straight down (1) or up (-1)."""
    beside, out = _arm(at, side * 2 * MODULE), _VECTORS[at.direction][0]
    if not out:
        return beside
    # so far out that it passes the name over the battery
    return Anchor(beside.x + out * MODULE, beside.y, "down" if side > 0 else "up")


def _offsets(keys: list[str], taken: bool) -> list[int]:
    """The first arm, plus where there is one, goes straight on, the others beside it.

    ``taken``: a run of all poles goes straight on already.
    """
    places = [-2 * MODULE, 2 * MODULE, -4 * MODULE, 4 * MODULE, 6 * MODULE, -6 * MODULE]
    if not taken:
        places = [0, 2 * MODULE, -2 * MODULE, 4 * MODULE, -4 * MODULE, 6 * MODULE]
    while len(places) < len(keys):
        places.append(max(places) + 2 * MODULE)
    return places[: len(keys)]


def _arm(at: Anchor, off: int) -> Anchor:
    dx, dy = _VECTORS[at.direction]
    across = (dy, dx) if dx == 0 else (-dy, dx)
    return Anchor(
        at.x + dx * MODULE + abs(across[0]) * off,
        at.y + dy * MODULE + abs(across[1]) * off,
        at.direction,
    )


def _strokes(at: Anchor, arm: Anchor, off: int, poles: str) -> list[Item]:
    """The arm, and its sign on the side away from the other arm."""
    dx, dy = _VECTORS[at.direction]
    side = 1 if off > 0 else -1  # over the one that goes straight on
    x = arm.x - dx * 8 + (0 if dx else side * 16)
    y = arm.y - dy * 8 + (side * 16 if dx else 0)
    if arm.direction != at.direction:
        x, y = arm.x + dx * 16, arm.y - side * 8  # the run goes on where the sign would be
    items: list[Item] = [Line(at.x, at.y, arm.x, arm.y)]
    if poles not in (Pole.POS.value, Pole.NEG.value):
        return [*items, Text(x, y, poles, SMALL, "middle", "middle")]
    items.append(Line(x - _SIGN, y, x + _SIGN, y, _SIGNS))
    if poles == Pole.POS.value:
        items.append(Line(x, y - _SIGN, x, y + _SIGN, _SIGNS))
    return items
