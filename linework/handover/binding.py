"""Sets the sheets of a design on pages: once to count them, then with their numbers."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from reportlab.lib.units import mm
from reportlab.platypus import (
    BaseDocTemplate,
    Flowable,
    Frame,
    NextPageTemplate,
    PageBreak,
    PageTemplate,
    Spacer,
)

from linework.handover.content import Content
from linework.handover.cover import COVER
from linework.handover.diagram import DiagramPage
from linework.handover.furniture import Furniture
from linework.handover.pages import CountingCanvas, SetCanvas, spans
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import with_room
from linework.picture.fonts import printed
from linework.picture.pdf import use_fonts

Choose = Callable[[Mapping[str, tuple[int, ...]]], Iterable[int]]
"""Takes pages of those of each sheet by its key, and of each page by its number."""

_PASSES = 4
"""The first only counts the pages, the second names them; more where that moved one."""


class Binding:
    """The sheets of one set. What does not name the number of a page is made once."""

    def __init__(self, content: Content, sheets: Sequence[Sheet]) -> None:
        self.content = replace(
            content,
            titles={sheet.key: sheet.title for sheet in sheets},
            annex=frozenset(sheet.key for sheet in sheets if sheet.annex),
        )
        self.sheets = sheets
        self._made: dict[str, list[Flowable]] = {}

    def whole(self) -> bytes:
        """The set."""
        return self._numbered()[0]

    def chosen(self, choose: Choose) -> bytes:
        """Those of its pages that ``choose`` takes of all, with the numbers they have."""
        data, pages, document, places = self._numbered()
        kept = frozenset(choose(spans(pages, places, document.last)))
        if len(kept) == pages[""]:
            return data
        canvas = partial(SetCanvas, kept=kept, known=places)
        return self._pass(pages, canvas)[0]

    def _numbered(self) -> tuple[bytes, dict[str, int], _Set, dict[str, int]]:
        """The bytes of the set, the first page of each sheet, its document, and the page of all
        that has a name."""
        pages: dict[str, int] = {}
        canvas: Callable[..., SetCanvas] = CountingCanvas
        for _ in range(_PASSES):
            data, document, places = self._pass(pages, canvas)
            if document.pages == pages:
                break
            pages, canvas = document.pages, SetCanvas
        return data, pages, document, places

    def _pass(
        self, pages: Mapping[str, int], maker: Callable[..., SetCanvas]
    ) -> tuple[bytes, _Set, dict[str, int]]:
        use_fonts()
        out = io.BytesIO()
        document = _Set(out, replace(self.content, pages=pages), paints=maker != CountingCanvas)
        canvases: list[SetCanvas] = []

        def canvas(*args: object, **named: object) -> SetCanvas:
            canvases.append(maker(*args, **named))
            return canvases[-1]

        document.build(document.story(self.sheets, self._make), canvasmaker=canvas)
        return out.getvalue(), document, canvases[-1].places

    def _make(self, content: Content, sheet: Sheet, room: Room) -> list[Flowable]:
        """What a sheet holds; that of an earlier pass unless it asked for a page."""
        if sheet.key not in self._made:
            pages = _Asked(content.pages)
            made = sheet.make(replace(content, pages=pages), room)
            if pages.asked or sheet.whole:
                return made
            self._made[sheet.key] = made
        for each in self._made[sheet.key]:
            vars(each).pop("_postponed", None)  # a page of the last pass had no room for it
        return list(self._made[sheet.key])


class _Asked(Mapping[str, int]):
    """The pages of the sheets, and whether anybody asked for one."""

    def __init__(self, pages: Mapping[str, int]) -> None:
        self.pages, self.asked = pages, False

    def __getitem__(self, key: str) -> int:
        self.asked = True
        return self.pages[key]

    def __iter__(self) -> Iterator[str]:
        self.asked = True
        return iter(self.pages)

    def __len__(self) -> int:
        self.asked = True
        return len(self.pages)


class _Begun(Flowable):  # type: ignore[misc]
    """Takes no room; names the sheet in the outline, and tells on which page it begins."""

    def __init__(self, title: str, key: str) -> None:
        super().__init__()
        self.title, self.key = title, key
        self.width = self.height = 0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Nothing."""
        return 0.0, 0.0

    def draw(self) -> None:
        """An entry of the outline."""
        self.canv.bookmarkPage(f"section-{self.key}")
        self.canv.addOutlineEntry(self.title, f"section-{self.key}", level=0)


class _Ended(Flowable):  # type: ignore[misc]
    """Takes no room; tells on which page a sheet ends."""

    def __init__(self, key: str) -> None:
        super().__init__()
        self.key = key
        self.width = self.height = 0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Nothing."""
        return 0.0, 0.0

    def draw(self) -> None:
        """Nothing to be seen."""


class _Unpainted(Frame):  # type: ignore[misc]
    """A frame in which everything takes its room and nothing is drawn."""

    def add(self, flowable: Flowable, canv: object, trySplit: int = 0) -> object:  # noqa: N803
        """Whether there was room for it."""
        flowable.drawOn = _nothing
        try:
            return super().add(flowable, canv, trySplit)
        finally:
            del flowable.drawOn


def _nothing(*args: object, **named: object) -> None:
    """Draws nothing."""


_LEAST = 110.0
"""A sheet that goes on behind another begins where there is at least so much room (points)."""


class _Set(BaseDocTemplate):  # type: ignore[misc]
    """The document: pages of text inside the frame, and pages that are one sheet of the diagram.

    ``paints``: else its pages are only counted.
    """

    def __init__(self, out: io.BytesIO, content: Content, paints: bool) -> None:
        settings = content.design.settings
        super().__init__(
            out,
            pagesize=Furniture(content, COVER, 0).size,
            title=printed(settings.job) or content.say("Drawing set"),
            author=printed(settings.drawn_by) or content.say("not named"),
            subject=content.say("Drawing set of a power system"),
        )
        self.content, self.paints = content, paints
        self.total = content.pages.get("", 0)
        self.first: dict[str, int] = {}
        self.last: dict[str, int] = {}

    @property
    def pages(self) -> dict[str, int]:
        """The first page of each sheet, and under "" how many pages there are."""
        return {**self.first, "": self.page}

    def afterFlowable(self, flowable: Flowable) -> None:  # noqa: N802 - reportlab's name
        """Note on which page a sheet begins and ends."""
        if isinstance(flowable, _Begun):
            self.first[flowable.key] = self.page
        elif isinstance(flowable, _Ended):
            self.last[flowable.key] = self.page

    def story(
        self,
        sheets: Sequence[Sheet],
        make: Callable[[Content, Sheet, Room], list[Flowable]],
    ) -> list[Flowable]:
        """All that is set, with the change of template and page before each sheet."""
        story: list[Flowable] = []
        flows = False
        for sheet in sheets:
            furniture = Furniture(self.content, sheet, self.total)
            made = make(self.content, sheet, furniture.room)
            if sheet.whole:
                for page in made:
                    story += self._begin(self._whole(page, furniture), [page], bool(story))
            elif made:
                made = [_Begun(self.content.say(sheet.title), sheet.key), *made, _Ended(sheet.key)]
                if flows and sheet.flows:
                    story += [with_room(_LEAST), Spacer(1, 5 * mm), *made]
                else:
                    story += self._begin(self._text(sheet, furniture), made, bool(story))
            flows = sheet.flows if made else flows
        return story

    def titles_on(self, page: int) -> list[str]:
        """What stands on a page that is full, in its order."""
        here = [k for k, first in self.first.items() if first <= page <= self.last.get(k, page)]
        return [self.content.titles[key] for key in here if key in self.content.titles]

    def _begin(
        self, template: PageTemplate, content: list[Flowable], further: bool
    ) -> list[Flowable]:
        self.addPageTemplates([template])
        turn = [NextPageTemplate(template.id), PageBreak()] if further else []
        return [*turn, *content]

    def _frame(self, *box: float) -> Frame:
        return (Frame if self.paints else _Unpainted)(*box, 0, 0, 0, 0)

    def _text(self, sheet: Sheet, furniture: Furniture) -> PageTemplate:
        frames = [self._frame(*column) for column in furniture.columns]
        ends = {"onPageEnd": furniture.paint} if self.paints else {}
        return PageTemplate(sheet.key, frames, pagesize=furniture.size, **ends)

    def _whole(self, page: DiagramPage, furniture: Furniture) -> PageTemplate:
        frame = self._frame(0, 0, *furniture.size)
        return PageTemplate(page.name, [frame], onPage=page.number, pagesize=furniture.size)
