"""The test sheet: fields to fill in beside what is expected, dead tests first."""

from __future__ import annotations

from reportlab.lib.colors import white
from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer, Table, TableStyle

from linework.handover.content import Content
from linework.handover.measurements import Block, Measurement, insulation_first, measurements
from linework.handover.setting import Kept
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import (
    INK,
    REGULAR,
    RULE,
    SHADE,
    Cell,
    beside,
    share,
    size_of,
    text,
)
from linework.words import N_

_HEADS = {
    Block.DEAD: N_("A  Dead"),
    Block.INSULATION: N_("B  Insulation"),
    Block.LIVE: N_("C  Live"),
}
_FIELD = 5.4 * mm
_SLIT = 0.8 * mm


class Field(Flowable):  # type: ignore[misc]
    """A field of the form, to be written into on the screen or by hand; ``tick``: a box."""

    def __init__(self, name: str, tooltip: str, width: float, tick: bool = False) -> None:
        super().__init__()
        self.name, self.tooltip, self.tick = name, tooltip, tick
        self.width, self.height = width, _FIELD

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As large as it was made."""
        return self.width, self.height

    def draw(self) -> None:
        """The box is drawn too: a form is not shown by every reader, and never when printed."""
        self.canv.setStrokeColor(INK)
        self.canv.setLineWidth(0.7)
        self.canv.rect(0, 0, self.width, self.height)
        look = {"name": self.name, "tooltip": self.tooltip, "borderWidth": 0, "relative": True}
        if self.tick:
            side = self.height - 0.8
            self.canv.acroForm.checkbox(x=0.4, y=0.4, size=side, fillColor=white, **look)
        else:
            room = {"width": self.width - 1.0, "height": self.height - 1.0, "fontSize": 10}
            self.canv.acroForm.textfield(x=0.5, y=0.5, fillColor=white, **room, **look)


def tests(content: Content, room: Room) -> list[Flowable]:
    """Nothing where there is nothing to measure."""
    found = measurements(content)
    if not found:
        return []
    say = content.say
    how = say(
        "A before B before C; stop at the first that does not fit. [p] practice, no clause."
        " Resistances: of the wire alone, cold, one way. A reading that fits proves that"
        " point at that time, not the whole."
    )
    three = say(
        "Three readings of an outlet, drawn loads on: {hot}–{neutral} / {hot}–{ground} /"
        " {neutral}–{ground}."
    )
    head: list[Flowable] = [
        text(say("Measure, write, compare"), "title", anchor="tests"),
        text(f"{how} {three}" if content.has_outlets else how, "small"),
        _who(content, room.width),
        Spacer(1, 2 * mm),
    ]
    out: list[Flowable] = [Kept(head, room.height, leads=True)]
    number = 0
    for block in Block:
        lines = [each for each in found if each.block is block]
        if lines:
            out.append(_block(content, block, lines, number, room.width))
            out.append(Spacer(1, 2 * mm))
        number += len(lines)
    return out


def _who(content: Content, width: float) -> Flowable:
    say = content.say
    names = {
        "by": say("tested by"),
        "date": say("date"),
        "meter": say("instrument, number"),
        "air": say("air, °C"),
    }
    widths = share(width, [2.2, 1.2, 2.2, 0.8])
    heads = [text(name, "head") for name in names.values()]
    fields = [
        Field(f"about-{key}", name, widths[n] - 4 * mm)
        for n, (key, name) in enumerate(names.items())
    ]
    made = Table([heads, fields], colWidths=widths, hAlign="LEFT")
    sides = [
        (side, (0, 0), (-1, -1), 0.5) for side in ("LEFTPADDING", "TOPPADDING", "BOTTOMPADDING")
    ]
    made.setStyle(TableStyle([_FONT, *sides]))
    return made


_FONT = ("FONT", (0, 0), (-1, -1), REGULAR, size_of(25))


def _caution(content: Content, block: Block) -> str:
    say = content.say
    if block is Block.DEAD:
        return say("everything off by the order of the operator's sheet; prove it dead")
    if block is Block.INSULATION:
        names = ", ".join(insulation_first(content))
        return say("disconnect first: {names}", names=names) if names else ""
    return say("only by a person qualified to work live")


def _block(
    content: Content, block: Block, lines: list[Measurement], before: int, width: float
) -> Table:
    say = content.say
    widths = _widths(width)
    title = say(_HEADS[block])
    heads = [
        "",
        say("what and where"),
        say("expected"),
        say("tolerance"),
        say("read"),
        "",
        say("fits"),
    ]
    cells: list[list[object]] = [
        [text(title, "strong", aside=_caution(content, block))],
        [text(head, "head") for head in heads],
    ]
    cells[0] += [""] * (len(heads) - len(cells[0]))
    for number, line in enumerate(lines, start=before + 1):
        cells.append([*_row(number, line, widths)])
    made = Table(cells, colWidths=widths, repeatRows=2, hAlign="LEFT")
    made.setStyle(
        TableStyle(
            [
                _FONT,
                ("SPAN", (0, 0), (-1, 0)),
                ("BACKGROUND", (0, 0), (-1, 0), SHADE),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LINEBELOW", (0, 1), (-1, 1), 0.9, INK),
                ("LINEBELOW", (0, 2), (-1, -1), 0.5, RULE),
                ("LEFTPADDING", (0, 0), (-1, -1), 0.9 * mm),
                ("RIGHTPADDING", (0, 0), (-1, -1), 0.9 * mm),
                ("TOPPADDING", (0, 0), (-1, -1), 0.6 * mm),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 0.6 * mm),
            ]
        )
    )
    return made


def _widths(width: float) -> list[float]:
    """Number, what, expected, tolerance, field, unit, tick; the rest is for what."""
    fixed = [8 * mm, 0.0, 29 * mm, 21 * mm, 25 * mm, 9 * mm, 9 * mm]
    fixed[1] = width - sum(fixed)
    return fixed


def _row(number: int, line: Measurement, widths: list[float]) -> list[Cell]:
    room = widths[4] - 2 * mm
    fields = [
        Field(f"read-{line.field}-{n}", str(number), room / len(line.bounds) - _SLIT)
        for n in range(len(line.bounds))
    ]
    field: Cell = beside(fields, [room / len(fields)] * len(fields), _SLIT) if fields else ""
    return [
        text(str(number), "strong"),
        text(line.what, "cell", aside=line.aside),
        text(line.expected, "strong"),
        line.tolerance and text(line.tolerance, "cell"),
        field,
        line.unit and text(line.unit, "cell"),
        Field(f"fits-{line.field}", str(number), _FIELD, tick=True),
    ]


TESTS = Sheet("tests", N_("Test sheet"), N_("test sheet"), tests, flows=True)
