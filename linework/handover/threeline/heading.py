"""Where the name of a block stands: over it, or beside a small one at which a way ends."""

from __future__ import annotations

from collections.abc import Sequence

from linework.handover.threeline.shape import HALF, HEAD, TALL, Shape, Words
from linework.picture.measure import text_width
from linework.sheet.lettering import wrapped
from linework.sheet.titleblock import fitted

NAME = 28
"""Height of capitals of a block's name."""
LINE = 40
_ASIDE, _OVER, _ALONE = 300, 330, 560
_LINES = 3
"""No more of them stand under a name."""


def headed(shape: Shape, words: Words) -> None:
    """Give a shape its name and lines, and the room that they take."""
    name, lines = words.block(shape.block)
    if _ends_here(shape):
        _beside(shape, name, lines)
    else:
        _over(shape, name, lines)


def _ends_here(shape: Shape) -> bool:
    """Whether one ribbon enters at the left, and nothing leaves."""
    led = [port for port in shape.block.ports if port.owner]
    return (
        len(led) == 1
        and shape.side(led[0]) == "left"
        and not (shape.drops or shape.crosses or shape.titles)
        and {row.y for row in shape.rows} == {row.y for row in shape.rows if row.end == led[0]}
    )


def _beside(shape: Shape, name: str, lines: Sequence[str]) -> None:
    """So high as its rows, that what hangs on a board lies straight beside its circuits."""
    up = HEAD - HALF
    shape.rows = [row.raised(up) for row in shape.rows]
    shape.ends = {net: [y - up for y in ys] for net, ys in shape.ends.items()}
    shape.height -= up + HALF
    room = max(1, shape.height // LINE)
    if room == 1:
        shape.name = (_cut(", ".join([name, *lines]), _ALONE),)
    else:
        told = wrapped(name, _ASIDE, NAME)[: room - bool(shape.block.elsewhere)]
        more = [row for line in lines for row in wrapped(line, _ASIDE, TALL)]
        shape.name = tuple(_cut(row, _ALONE) for row in told)
        shape.lines = tuple(_cut_line(row) for row in more[: room - len(told)])
    shape.aside = 25 + _wide(shape)
    shape.named_aside = True


def _over(shape: Shape, name: str, lines: Sequence[str]) -> None:
    room = min(max(shape.width, _OVER), _ALONE)
    told = wrapped(name, room, NAME)
    told = [*told[:1], " ".join(told[1:])] if len(told) > 1 else told
    more = [row for line in lines for row in wrapped(line, room, TALL)]
    shape.name = tuple(_cut(row, _ALONE) for row in told)
    shape.lines = tuple(_cut_line(row) for row in more[:_LINES])
    shape.above = LINE * (len(shape.name) + len(shape.lines)) + HALF
    shape.aside = max(0, _wide(shape) - shape.width)


def _cut(told: str, room: int) -> str:
    return fitted(told, 0, 0, room, NAME, bold=True, least=NAME).text


def _cut_line(told: str) -> str:
    return fitted(told, 0, 0, _ALONE, TALL, least=TALL).text


def _wide(shape: Shape) -> int:
    names = [text_width(name, NAME, bold=True) for name in shape.name]
    return max([0, *names, *(text_width(line, TALL) for line in shape.lines)])
