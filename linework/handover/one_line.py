"""The sheets of the one-line diagram as every format shows them: composed, titled, sized."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from linework.design import Part
from linework.findings.evidence import value_text
from linework.handover.content import Content
from linework.handover.faults import at_part, span_text
from linework.picture.model import Picture
from linework.sheet.compose import Composition, compose, retitled
from linework.sheet.laid import Options
from linework.sheet.parts import sheet_numbers
from linework.wiring import Pole


@dataclass(frozen=True)
class DrawnSheet:
    """One sheet of the diagram; ``width`` and ``height`` of the paper in millimetres.

    ``scale``: of the drawing on that paper, 1 is true size.
    """

    number: int
    composition: Composition
    width: float
    height: float

    @property
    def picture(self) -> Picture:
        """What is painted."""
        return self.composition.picture

    @property
    def scale(self) -> float:
        """True size where the drawing was made for the paper, else as large as it fits."""
        return min(self.width * 10 / self.picture.width, self.height * 10 / self.picture.height)


def drawn_sheets(content: Content) -> tuple[DrawnSheet, ...]:
    """Every sheet of the diagram by itself: its title block counts the sheets of the diagram."""
    numbers = sheet_numbers(content.design)
    return tuple(drawn_sheet(content, number, number, max(numbers)) for number in numbers)


def drawn_sheet(
    content: Content, sheet: int, number: int, sheets: int, links: bool = False
) -> DrawnSheet:
    """One sheet; ``number`` and ``sheets`` are what its title block says."""
    options = Options(
        paper=content.drawing_paper,
        sheet=sheet,
        number=number,
        sheets=max(sheets, number),
        title=content.say("One-line diagram"),
        date=content.date.isoformat(),
    )
    frame = content.drawing_frame
    composition = retitled(content.design, _laid(content, sheet, number, links), options)
    return DrawnSheet(sheet, composition, frame.width / 10, frame.height / 10)


def flags(content: Content) -> Mapping[str, tuple[int, str]]:
    """Sheet of the diagram and zone of each flag that has found room; links lead only to these.

    By the flag's name.
    """
    laid = {
        number: _laid(content, number, _page(content, number), links=True)
        for number in sheet_numbers(content.design)
    }
    return {
        name: (number, sheet.frame.zone_at(*boxes[0].center))
        for number, sheet in laid.items()
        for name, boxes in sheet.items.items()
        if name.startswith("flag")
    }


def place_of_flag(content: Content, name: str) -> str:
    """Number of the sheet and zone of a flag in words; "" where it stands on none."""
    found = flags(content)
    if name not in found or "diagram" not in content.pages:
        return ""
    sheet, zone = found[name]
    return content.say("sheet {number} {zone}", number=_page(content, sheet), zone=zone)


def _page(content: Content, sheet: int) -> int:
    """The page of the set on which a sheet of the diagram lies; 0 while that is not known."""
    first = content.pages.get("diagram", 0)
    return first and first + sheet_numbers(content.design).index(sheet)


def _laid(content: Content, sheet: int, number: int, links: bool) -> Composition:
    """One sheet; its number in the set is what its signs of other sheets count from, so that one
    without others is the same in every pass."""
    paper = content.drawing_paper
    number *= len(sheet_numbers(content.design)) > 1

    def laid() -> Composition:
        options = Options(paper, sheet, number, links=links, more=board_lines(content))
        return compose(content.design, content.analysis, "", options)

    return content.once(("one-line", paper, sheet, number, links), laid)


def board_lines(content: Content) -> dict[str, tuple[str, ...]]:
    """Volts and fault level at each board, over all states, to be written beside it."""
    found: dict[str, tuple[str, ...]] = {}
    for part in content.design.parts:
        if content.design.kind(part).board:
            lines = (_volts_line(content, part), _fault_line(content, part))
            found[part.id] = tuple(filter(None, lines))
    return {key: lines for key, lines in found.items() if lines}


def _fault_line(content: Content, part: Part) -> str:
    """The same span as in the schedule of the board: what its devices must break."""
    span = at_part(content, part.id)
    if span is None:
        return ""
    return content.say("fault {span}", span=span_text(content, *span))


def _volts_line(content: Content, part: Part) -> str:
    """The least voltage from a line to the neutral, or from plus to minus, in any state that feeds
    the board, and by how much that is off its nominal one."""
    values = content.design.values(part)
    if not values.has("voltage"):
        return ""
    found = [
        v for r in content.reports for at in r.volts.values() for v in _feed_volts(at, part.id)
    ]
    live = [volts for volts in found if volts > _LIVE_V]
    if not live:
        return ""
    off = 100 * (min(live) / values.num("voltage") - 1)
    volts = value_text(min(live), "voltage")
    sign = "\N{MINUS SIGN}" if off < 0 else "+"
    return content.say("least {volts} ({off} %)", volts=volts, off=f"{sign}{abs(off):.1f}")


def _feed_volts(at: Mapping[tuple[str, str, str], complex], part: str) -> Iterator[float]:
    for back, lines in ((Pole.N, _LINES), (Pole.NEG, (Pole.POS,))):
        zero = at.get((part, "feed", back))
        for line in lines:
            there = at.get((part, "feed", line))
            if zero is not None and there is not None:
                yield abs(there - zero)


_LIVE_V = 1.0
_LINES = (Pole.L, Pole.L1, Pole.L2, Pole.L3)
