"""One sheet of the diagram as a drawing: a block for each form of symbol, a polyline for each run.

Every part is one insertion of the block of its kind with its designation, title, ratings and kind
as attributes (not shown: the sheet's own writing stands beside it). Every run is one polyline that
bears its name and conductors as extended data.
"""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from functools import cached_property

from ezdxf.document import Drawing

from linework.design import Part, Run
from linework.handover.cables import conductors_of
from linework.handover.cad.layers import APPLICATION, Layer, empty_drawing, settle
from linework.handover.cad.shapes import Pencil
from linework.handover.content import Content
from linework.handover.one_line import DrawnSheet
from linework.handover.rating_words import captions_text
from linework.picture.fonts import printed
from linework.picture.geometry import Point
from linework.picture.inks import Pen
from linework.picture.model import Arc, Group, Item, Polyline, Text, flatten
from linework.sheet.energised import is_tie
from linework.sheet.parts import PartDrawing

_HALF_CIRCLE = 1.0
"""The bulge of half a circle."""
_WORDS, _REAL = 1000, 1040
"""Codes of extended data."""
_MOST = 250
"""Letters in one value of extended data."""
ATTRIBUTES = ("DESIGNATION", "TITLE", "RATING", "KIND")


def dxf_bytes(content: Content, drawn: DrawnSheet) -> bytes:
    """The sheet as DXF R2010 in millimetres; the same sheet gives the same bytes."""
    drawing = empty_drawing(drawn.width, drawn.height)
    _Sheet(content, drawn, drawing).draw()
    settle(drawing)
    out = io.StringIO()
    drawing.write(out)
    return out.getvalue().encode("utf-8")


@dataclass
class _Sheet:
    """A sheet on its way into a drawing."""

    content: Content
    drawn: DrawnSheet
    drawing: Drawing
    blocks: dict[tuple[str, Group], str] = field(default_factory=dict)

    @property
    def scale(self) -> float:
        """Millimetres of the paper to a tenth of a millimetre of the picture."""
        return self.drawn.scale / 10

    def draw(self) -> None:
        """Everything, in the order of the sheet."""
        model = self.drawing.modelspace()
        pencil = Pencil(model, self.drawn.picture.height, self.scale, *self._margins)
        for item in self.drawn.picture.items:
            element = self.content.design.get(item.tag) if isinstance(item, Group) else None
            if isinstance(item, Group) and isinstance(element, Part) and self._is_symbol(item):
                self._insert(element, item, pencil)
            elif isinstance(item, Group) and isinstance(element, Run) and _is_conductor(item):
                self._run(element, item, pencil)
            else:
                _plain(item, self._layer(item), pencil)

    @property
    def _margins(self) -> tuple[float, float]:
        """Left and below, where the paper has another shape than the drawing, in millimetres."""
        picture, drawn = self.drawn.picture, self.drawn
        return (
            (drawn.width - picture.width * self.scale) / 2,
            (drawn.height - picture.height * self.scale) / 2,
        )

    def _drawing_of(self, tag: str) -> PartDrawing:
        return self.drawn.composition.drawings[tag]

    def _is_symbol(self, item: Group) -> bool:
        made = self._drawing_of(item.tag).group
        return (item.items, item.x, item.y) == (made.items, made.x, made.y)

    def _layer(self, item: Item) -> Layer:
        """Of what is neither a symbol nor a run."""
        if not isinstance(item, Group):
            return "SYMBOLS" if item in self._joints else "FRAME"
        if item.tag.startswith("flag-") and item.tag not in self.content.design:
            return "FINDINGS"
        if any(isinstance(flat.item, Text) for flat in flatten([item])):
            return "TEXT"
        return "TIES"

    @cached_property
    def _joints(self) -> tuple[Item, ...]:
        """Dots where runs part from each other: they lie before the last of the groups."""
        items = self.drawn.picture.items
        last = max((at for at, item in enumerate(items) if isinstance(item, Group)), default=0)
        return tuple(item for item in items[:last] if not isinstance(item, Group))

    # parts

    def _insert(self, part: Part, group: Group, pencil: Pencil) -> None:
        name = self._block(self.content.design.kind(part).key, group)
        at = pencil.point(group.x, group.y)
        insert = pencil.layout.add_blockref(name, at, dxfattribs={"layer": "SYMBOLS"})
        insert.add_auto_attribs(self._attributes(part))

    def _attributes(self, part: Part) -> dict[str, str]:
        design, kind = self.content.design, self.content.design.kind(part)
        rating = captions_text(kind, design.values(part), self.content.family)
        told = (part.designation, part.title, rating, self.content.say(kind.name))
        return {tag: _held(words) for tag, words in zip(ATTRIBUTES, told, strict=True)}

    def _block(self, kind: str, group: Group) -> str:
        """The block of a kind as it lies: letters in a symbol stay upright however it is turned."""
        lying = Group(group.items, 0, 0, group.turn, group.mirror, inks=group.inks)
        if (kind, lying) not in self.blocks:
            number = sum(known == kind for known, _ in self.blocks) + 1
            self.blocks[kind, lying] = kind if number == 1 else f"{kind}_{number}"
            self._define(self.blocks[kind, lying], lying)
        return self.blocks[kind, lying]

    def _define(self, name: str, lying: Group) -> None:
        block = self.drawing.blocks.new(name)
        pencil = Pencil(block, 0, self.scale)
        for flat in flatten([lying]):
            pencil.leaf(flat.item, "SYMBOLS")
        for at, tag in enumerate(ATTRIBUTES):
            hidden = block.add_attdef(tag, (0, -3.0 * at), height=2.5 * self.drawn.scale)
            hidden.is_invisible = True
            hidden.dxf.layer = "TEXT"

    # runs

    def _run(self, run: Run, group: Group, pencil: Pencil) -> None:
        layer: Layer = "GROUNDS" if is_tie(self.content.design, run) else "CONDUCTORS"
        line, rest = chained(group)
        made = pencil.chain(line, _pen_of(group), layer)
        made.set_xdata(APPLICATION, self._told_of(run))
        for item in rest:
            _plain(item, layer, pencil)

    def _told_of(self, run: Run) -> list[tuple[int, str | float]]:
        """Name, conductors and, where it is given, the length in metre."""
        values = self.content.design.run_values(run)
        words = ("RUN", self.content.name(run.id), conductors_of(self.content.design, run))
        length = [(_REAL, values.num("length"))] if values.has("length") else []
        return [*((_WORDS, _held(text)) for text in words), *length]


def _is_conductor(group: Group) -> bool:
    """The line of a run, not its writing nor the sign of another sheet."""
    first = group.items[0]
    return isinstance(first, Polyline) and not first.closed and not _has_text(group)


def _has_text(group: Group) -> bool:
    return any(isinstance(flat.item, Text) for flat in flatten([group]))


def _pen_of(group: Group) -> Pen:
    first = group.items[0]
    return first.pen or Pen() if isinstance(first, Polyline) else Pen()


def chained(group: Group) -> tuple[list[tuple[Point, float]], list[Item]]:
    """The pieces of a run and the bows between them as one line; then what else belongs to it."""
    points: list[tuple[Point, float]] = []
    items = list(group.items)
    while items and isinstance(items[0], Polyline | Arc):
        piece = items.pop(0)
        if isinstance(piece, Polyline):
            points += [(point, 0.0) for point in piece.points]
        elif isinstance(piece, Arc) and points:
            (x, y), _ = points[-1]
            # Over the line: from the left with the clock, from the right against it.
            points[-1] = ((x, y), -_HALF_CIRCLE if x < piece.x else _HALF_CIRCLE)
    return points, items


def _plain(item: Item, layer: Layer, pencil: Pencil) -> None:
    for flat in flatten([item]):
        pencil.leaf(flat.item, layer)


def _held(value: str) -> str:
    """Short enough, and without signs that would end the line of a file."""
    return printed(value).encode("utf-8", "replace").decode()[:_MOST]
