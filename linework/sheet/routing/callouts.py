"""What is written at a run, all of it on the run: a tag on its line, size above, length below."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from linework.circuit.conductors import pole_size
from linework.design import Design, Run, pole_map
from linework.design.names import natural
from linework.kinds import Values
from linework.picture.geometry import Point, box_around
from linework.picture.inks import Ink
from linework.sheet.energised import is_tie
from linework.sheet.lettering import (
    TAG_HEIGHT,
    Block,
    Hung,
    Method,
    Option,
    Row,
    Span,
    Tag,
    Wanted,
    tag_width,
)
from linework.sheet.routing.folding import body_end
from linework.sheet.routing.lanes import Polyline as Way
from linework.wiring import Pole, is_dc, is_protective
from linework.words import say

_KEEP_OFF = 12
"""A run's writing stays so far from other runs."""
_OVER, _UNDER = TAG_HEIGHT // 2 + 14, TAG_HEIGHT // 2 + 10
"""From a line to the base line over its tag, where a stroke may reach down, and to the top of the
writing under it."""
_BARE = 14
_SIGN_AWAY = 36
"""From the end of a stub to the edge of its tag."""
_EDGE = 8
"""The least of a line that shows on both sides of a tag."""
_SHARES = (8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15)
"""Where on a piece a tag is wanted, in sixteenths of its length."""


# what is written


def conductors_text(design: Design, run: Run) -> str:
    """The conductors of a run by number and size.

    "10/2 G": two of 10 AWG and a ground wire; "+ - 10": plus and minus, 10 AWG each;
    "G 8" behind it where the ground wire has a size of its own.
    """
    values, poles = design.run_values(run), [pole for pole, _ in pole_map(design, run)]
    live = [pole for pole in poles if not is_protective(pole)]
    ground = [pole for pole in poles if is_protective(pole)]
    if not poles:
        return say("no conductor")
    if not live:
        return _given(pole_size(values, ground[0]))
    sizes = list(dict.fromkeys(pole_size(values, pole) for pole in live))
    text = " + ".join(
        _counted([pole for pole in live if pole_size(values, pole) == size], size) for size in sizes
    )
    if not ground:
        return text
    size = pole_size(values, ground[0])
    return f"{text} G" if size == sizes[0] else f"{text} G {_short(size)}"


def _counted(poles: list[Pole], size: str) -> str:
    if len(poles) == 1 or all(map(is_dc, poles)):
        # every pole by its sign, so that plus and minus are never taken for one wire
        return f"{' '.join(_SIGNS.get(pole, pole.value) for pole in poles)} {_short(size)}"
    gauge = _short(size)
    if gauge.isdecimal() and "AWG" in size:
        return f"{gauge}/{len(poles)}"
    return say("{count}×{size}", count=len(poles), size=gauge)


_SIGNS = {Pole.NEG: "\N{MINUS SIGN}"}


def _given(size: str) -> str:
    return size.replace("mm2", "mm²") or say("[size not given]")


def _short(size: str) -> str:
    """A size without the unit that all wires of a family share."""
    return _given(size).removesuffix(" AWG")


def length_text(values: Values) -> str:
    """How long a run is, one way."""
    return values.text("length") or say("[length not given]")


def method_of(design: Design, run: Run) -> Method:
    """How a run is laid, as its tag tells it."""
    if is_tie(design, run):
        return "jumper"
    return "cord" if design.run_values(run).pick("installation") == "cord" else "cable"


# where it is written


def wanted_for_run(design: Design, run: Run, way: Way, rank: int) -> Wanted:
    """The callout of a run and its places along the line; where it finds none, the tag alone.

    A conductor that is cut is told in every form.
    """
    folded = body_end(design, run)
    if folded is not None:
        return _at_stub(design, run, way if folded == run.b else way[::-1], rank)
    values = design.run_values(run)
    over: Row = (_span(conductors_text(design, run)),)
    under: Block = ((_span(length_text(values)),), *_cut(values))
    pieces = sorted(pairwise(way), key=_worth, reverse=True)
    method = method_of(design, run)
    full = tuple(o for piece in pieces for o in _full(run, method, over, under, piece))
    short = tuple(o for piece in pieces for o in _tagged(run, method, _cut(values), piece))
    near = box_around(pieces[0])
    name: Row = (Span(run.designation, bold=True),) if run.designation else over
    shapes = ((name, *_cut(values)),)
    return Wanted(run.id, (*full, *short), near, shapes, rank, _KEEP_OFF, len(full))


def _at_stub(design: Design, run: Run, way: Way, rank: int) -> Wanted:
    """The tag of a jumper beside the sign of the frame; the body's symbol tells its size."""
    x, y = way[-1]
    cut = _cut(design.run_values(run))
    wide = tag_width(run.designation) // 2 if run.designation else 0
    high = TAG_HEIGHT // 2
    spots = [
        (x + dx * (_SIGN_AWAY + wide), y + dy * (_SIGN_AWAY + high))
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1))
    ]
    options: list[Option] = []
    for tx, ty in spots if run.designation else ():
        tag = Tag(run.designation, tx, ty, "jumper")
        if cut:
            options.append((tag, Hung(cut, tx, ty + _UNDER, "middle", "top")))
            options.append((tag, Hung(cut, tx, ty - _OVER, "middle", "base")))
        else:
            options.append((tag,))
    name: Row = (Span(run.designation or conductors_text(design, run), bold=True),)
    return Wanted(run.id, tuple(options), box_around(way), ((name, *cut),), rank)


def jumpers_block(design: Design, part_id: str) -> Block:
    """What is joined to a body by jumpers that are drawn as stubs: tag, part, size, length."""
    runs = [run for run in design.runs_at(part_id) if body_end(design, run) is not None]
    rows: list[Row] = []
    for run in sorted(runs, key=lambda run: natural(run.designation)):
        other = run.a if body_end(design, run) == run.b else run.b
        name = design.part(other.part).designation
        text = f"{name}: {conductors_text(design, run)}, {length_text(design.run_values(run))}"
        tag = (Span(run.designation, bold=True),) if run.designation else ()
        rows.append((*tag, _span(text)))
    return tuple(rows)


def _span(text: str) -> Span:
    return Span(text, ink=Ink.ASSUMED if "[" in text else Ink.INK)


def _cut(values: Values) -> Block:
    broken = values.pick("broken")
    if broken in ("", "none"):
        return ()
    return ((Span(say("{pole} cut", pole=broken), bold=True, ink=Ink.DANGER),),)


def _worth(piece: tuple[Point, Point]) -> tuple[float, Point]:
    (ax, ay), (bx, by) = piece
    return (abs(ax - bx) + abs(ay - by)) * (1.6 if ay == by else 1.0), piece[0]


def _full(
    run: Run, method: Method, over: Row, under: Block, piece: tuple[Point, Point]
) -> Iterator[Option]:
    """Size over the line and length under it; else both at one side of the tag."""
    tag = _tags(run, method, piece)
    level = piece[0][1] == piece[1][1]
    up, down = (_OVER, _UNDER) if run.designation else (_BARE, _BARE)
    for x, y, tags in tag:
        if level:
            yield (
                *tags,
                Hung((over,), x, y - up, "middle", "base"),
                Hung(under, x, y + down, "middle", "top"),
            )
    both: Block = (over, *under)
    beside = (tag_width(run.designation) // 2 if run.designation else 0) + 10
    for x, y, tags in tag:
        if level:
            yield (*tags, Hung(both, x, y - up, "middle", "base"))
            yield (*tags, Hung(both, x, y + down, "middle", "top"))
        else:
            yield (*tags, Hung(both, x + beside, y, "start", "middle"))
            yield (*tags, Hung(both, x - beside, y, "end", "middle"))


def _tagged(run: Run, method: Method, cut: Block, piece: tuple[Point, Point]) -> Iterator[Option]:
    """The tag alone, with what is cut."""
    if not run.designation:
        return
    level = piece[0][1] == piece[1][1]
    beside = tag_width(run.designation) // 2 + 10
    for x, y, tags in _tags(run, method, piece):
        if not cut:
            yield tags
        elif level:
            yield (*tags, Hung(cut, x, y + _UNDER, "middle", "top"))
        else:
            yield (*tags, Hung(cut, x + beside, y, "start", "middle"))


def _tags(
    run: Run, method: Method, piece: tuple[Point, Point]
) -> list[tuple[int, int, tuple[Tag, ...]]]:
    """Where a tag may lie on a straight piece; without a name only the places."""
    (ax, ay), (bx, by) = piece
    level = ay == by
    need = 2 * _EDGE + (tag_width(run.designation) if level else TAG_HEIGHT)
    length = abs(ax - bx) + abs(ay - by)
    if run.designation and length < need:
        return []
    found: list[tuple[int, int, tuple[Tag, ...]]] = []
    for share in _SHARES:
        x, y = ax + (bx - ax) * share // 16, ay + (by - ay) * share // 16
        ends = min(abs(x - ax) + abs(y - ay), abs(x - bx) + abs(y - by))
        if not run.designation:
            found.append((x, y, ()))
        elif ends >= need // 2:
            found.append((x, y, (Tag(run.designation, x, y, method),)))
    return found
