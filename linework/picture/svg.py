"""Writes a drawing as SVG: real text in embedded faces, a group for each element, true size.

The faces are embedded as subsets of the bundled ones, so that every label is as wide in a browser
as it was measured when it was placed. Programs that pass over embedded faces take an installed one
by its family's name; ``textLength`` then keeps each label to its measured length.

One unit of the drawing's coordinates is a tenth of a paper millimetre, as in the drawing itself.
"""

from __future__ import annotations

import base64
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from linework.picture.fonts import FAMILY, Face, printed, stretches
from linework.picture.inks import Ink, Pen
from linework.picture.measure import advance, arc_points, base_point, em_size
from linework.picture.model import (
    Arc,
    Bezier,
    Circle,
    Flat,
    Line,
    Link,
    Picture,
    Polyline,
    Rect,
    Shape,
    Target,
    Text,
    flatten,
)
from linework.picture.palettes import PRINT, Palette
from linework.picture.webfont import subset_woff


@dataclass(frozen=True)
class Named:
    """What a group of the file is called: ``name`` becomes its id, ``title`` is read out."""

    name: str
    title: str = ""


@dataclass(frozen=True)
class Size:
    """Of the paper, in millimetres."""

    width: float
    height: float


def svg_text(
    picture: Picture,
    names: Mapping[str, Named],
    title: str = "",
    size: Size | None = None,
    palette: Palette = PRINT,
) -> str:
    """The drawing as one SVG document; the same drawing gives the same text.

    ``names``: of elements by the tag that their groups bear; a tag without a name makes no group.
    ``size``: of the paper; None is the drawing's own. FontError if a font is missing or damaged.
    """
    size = size or Size(picture.width / 10, picture.height / 10)
    flats = [f for f in flatten(picture.items) if not isinstance(f.item, Target | Link)]
    writer = _Writer(palette, names)
    paper = f'fill="{palette.color(Ink.PAPER)}"'
    return "\n".join(
        [
            '<?xml version="1.0" encoding="UTF-8"?>',
            '<svg xmlns="http://www.w3.org/2000/svg" version="1.1"'
            f' width="{_num(size.width)}mm" height="{_num(size.height)}mm"'
            f' viewBox="0 0 {picture.width} {picture.height}">',
            *([f"<title>{_words(title)}</title>"] if title else []),
            f"<style>{_faces(flats)}</style>",
            f'<rect width="{picture.width}" height="{picture.height}" {paper}/>',
            *writer.groups(flats),
            "</svg>",
            "",
        ]
    )


def _faces(flats: Iterable[Flat]) -> str:
    """The faces that are used, each with the signs that are written in it."""
    signs: dict[Face, set[str]] = {}
    for flat in flats:
        if isinstance(flat.item, Text):
            for which, written in stretches(flat.item.text, flat.item.bold):
                signs.setdefault(which, set()).update(written)
    ordered = sorted(signs.items(), key=lambda item: item[0].name)
    return "text{font-kerning:none;font-variant-ligatures:none;white-space:pre}" + "".join(
        _font_face(which, used) for which, used in ordered
    )


def _font_face(which: Face, signs: set[str]) -> str:
    data = base64.b64encode(subset_woff(which, signs)).decode("ascii")
    return (
        f"@font-face{{font-family:'{which.name}';font-weight:{_weight(which)};"
        f"src:url(data:font/woff;base64,{data}) format('woff')}}"
    )


def _weight(which: Face) -> str:
    return "bold" if which.bold else "normal"


@dataclass
class _Writer:
    """Turns leaves into elements; gives every group an id of its own."""

    palette: Palette
    names: Mapping[str, Named]
    _taken: dict[str, int] = field(default_factory=dict)

    def groups(self, flats: Iterable[Flat]) -> Iterator[str]:
        """What follows each other and belongs to one element makes a group."""
        for tag, together in groupby(flats, key=lambda flat: flat.tag):
            drawn = [self._leaf(flat) for flat in together]
            named = self.names.get(tag)
            if named is None:
                yield from drawn
            else:
                yield f"<g id={quoteattr(self._own_id(named))} data-name={_quoted(named.name)}>"
                yield f"<title>{_words(named.title or named.name)}</title>"
                yield from drawn
                yield "</g>"

    def _own_id(self, named: Named) -> str:
        """Of an element with several groups (symbol, writing): "QF1", "QF1.2" ..."""
        plain = re.sub(r"[^\w.-]", "_", named.name, flags=re.ASCII)
        plain = plain if re.match(r"[A-Za-z_]", plain) else f"_{plain}"
        number = self._taken[plain] = self._taken.get(plain, 0) + 1
        return plain if number == 1 else f"{plain}..{number}"

    def _leaf(self, flat: Flat) -> str:
        item = flat.item
        if isinstance(item, Text):
            return self._text(item)
        if isinstance(item, Target | Link):
            raise TypeError("what leaves no ink is not written")
        fill = None if isinstance(item, Line) else item.fill
        return f"<{_shape(item)}{self._filled(fill)}{self._stroked(item.pen)}/>"

    def _filled(self, fill: Ink | None) -> str:
        return f' fill="{self.palette.color(fill)}"' if fill else ' fill="none"'

    def _stroked(self, pen: Pen | None) -> str:
        if pen is None:
            return ""
        cap = "butt" if pen.dash.pattern else "round"
        dashes = " ".join(_num(part * pen.width / 10) for part in pen.dash.pattern)
        return (
            f' class="{pen.ink.value}" stroke="{self.palette.color(pen.ink)}"'
            f' stroke-width="{_num(pen.width / 10)}" stroke-linejoin="round"'
            f' stroke-linecap="{cap}"' + (f' stroke-dasharray="{dashes}"' if dashes else "")
        )

    def _text(self, item: Text) -> str:
        """One element for a label, with a span for each face in which it is written."""
        x, y = base_point(item)
        turned = f' transform="rotate(-90 {_num(x)} {_num(y)})"' if item.upward else ""
        along = advance(item.text, item.height, item.bold)
        length = f' textLength="{_num(along)}" lengthAdjust="spacingAndGlyphs"' if along else ""
        return (
            f'<text class="{item.ink.value}" x="{_num(x)}" y="{_num(y)}"{turned}{length}'
            f' xml:space="preserve" fill="{self.palette.color(item.ink)}">'
            + "".join(_span(which, signs, item) for which, signs in stretches(item.text, item.bold))
            + "</text>"
        )


def _span(which: Face, signs: str, item: Text) -> str:
    return (
        f"<tspan font-family=\"'{which.name}', '{FAMILY}', sans-serif\""
        f' font-weight="{_weight(which)}" font-size="{_num(em_size(item.height, which))}">'
        f"{_words(signs)}</tspan>"
    )


def _shape(item: Shape) -> str:
    """An element with its geometry, without its paint."""
    match item:
        case Line():
            return f'line x1="{item.x1}" y1="{item.y1}" x2="{item.x2}" y2="{item.y2}"'
        case Polyline():
            points = " ".join(f"{x},{y}" for x, y in item.points)
            return f'{"polygon" if item.closed else "polyline"} points="{points}"'
        case Rect():
            rounded = f' rx="{item.radius}"' if item.radius else ""
            return (
                f'rect x="{item.x}" y="{item.y}" width="{item.width}" height="{item.height}"'
                + rounded
            )
        case Circle():
            return f'circle cx="{item.x}" cy="{item.y}" r="{item.r}"'
        case Arc():
            return _arc(item)
        case Bezier():
            (x, y), *rest = item.points
            return f'path d="M{x} {y}C{" ".join(f"{a} {b}" for a, b in rest)}"'


def _arc(item: Arc) -> str:
    if abs(item.sweep) == 360:
        return f'ellipse cx="{item.x}" cy="{item.y}" rx="{item.rx}" ry="{item.ry}"'
    (ax, ay), (bx, by) = arc_points(item, (item.start, item.start + item.sweep))
    large, clockwise = int(abs(item.sweep) > 180), int(item.sweep > 0)
    end = f"{_num(bx)} {_num(by)}"
    return f'path d="M{_num(ax)} {_num(ay)}A{item.rx} {item.ry} 0 {large} {clockwise} {end}"'


def _num(value: float) -> str:
    """At most a thousandth of a unit, without needless noughts."""
    return f"{value:.3f}".rstrip("0").rstrip(".") if value % 1 else f"{value:.0f}"


def _words(text: str) -> str:
    return escape(printed(text))


def _quoted(text: str) -> str:
    return quoteattr(printed(text))
