"""The sheets of the one-line diagram as every format shows them: composed, titled, sized."""

from __future__ import annotations

from dataclasses import dataclass

from linework.findings.evidence import value_text
from linework.handover.content import Content
from linework.picture.model import Picture
from linework.sheet.compose import Composition, compose, sheet_numbers
from linework.sheet.frame import frame_of
from linework.sheet.laid import Options


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
        links=links,
        more=board_lines(content),
    )
    frame = frame_of(content.paper)
    composition = compose(content.design, content.analysis, "", options)
    return DrawnSheet(sheet, composition, frame.width / 10, frame.height / 10)


def board_lines(content: Content) -> dict[str, tuple[str, ...]]:
    """Fault level at each board, over all states, to be written beside it."""
    found: dict[str, tuple[str, ...]] = {}
    for part in content.design.parts:
        if not content.design.kind(part).board:
            continue
        at = [
            f
            for r in content.reports
            for f in r.faults
            if f.part == part.id and f.weak_a > 1e-3 and f.kind != "metal"
        ]
        if at:
            least = value_text(min(f.weak_a for f in at), "current")
            most = value_text(max(f.strong_a for f in at), "current")
            found[part.id] = (content.say("fault {least} to {most}", least=least, most=most),)
    return found
