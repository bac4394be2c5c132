"""Sets the sheets of a design on pages: laid out until their numbers are known, then painted."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    BaseDocTemplate,
    Flowable,
    Frame,
    NextPageTemplate,
    PageBreak,
    PageTemplate,
    Table,
)

from linework.handover.content import PLACE, Content
from linework.handover.diagram import DiagramPage
from linework.handover.furniture import Furniture
from linework.handover.pages import SetCanvas, spans
from linework.handover.setting import Kept, Laid, joined, pages_of
from linework.handover.sheets import Band, Mark, Room, Sheet, bands_of
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
        self._made: dict[str, list[Band]] = {}

    def whole(self) -> bytes:
        """The set."""
        return self._painted(self._laid(), SetCanvas)[0]

    def chosen(self, choose: Choose) -> bytes:
        """Those of its pages that ``choose`` takes of all, with the numbers they have."""
        laid = self._laid()
        data, places = self._painted(laid, SetCanvas)
        sheets = {k: n for k, n in laid.pages.items() if not k or k in self.content.titles}
        kept = frozenset(choose(spans(sheets, places, laid.last)))
        if len(kept) == len(laid.each):
            return data
        return self._painted(laid, partial(SetCanvas, kept=kept, known=places))[0]

    def _laid(self) -> _Layout:
        """What stands on each page, with the numbers of the pages in it."""
        use_fonts()
        pages: Mapping[str, int] = {}
        for _ in range(_PASSES):
            laid = _Layout(replace(self.content, pages=pages), self.sheets, self._bands)
            if laid.known == pages:
                break
            pages = laid.known
        return laid

    def _painted(
        self, laid: _Layout, maker: Callable[..., SetCanvas]
    ) -> tuple[bytes, dict[str, int]]:
        """The bytes, and the page of all that has a name."""
        out = io.BytesIO()
        canvases: list[SetCanvas] = []

        def canvas(*args: object, **named: object) -> SetCanvas:
            canvases.append(maker(*args, **named))
            return canvases[-1]

        document = _Document(out, laid)
        document.build(document.story(), canvasmaker=canvas)
        return out.getvalue(), canvases[-1].places

    def _bands(self, content: Content, sheet: Sheet, room: Room) -> list[Band]:
        """What a sheet holds; that of an earlier pass unless it asked for a page."""
        if sheet.key not in self._made:
            pages = _Asked(content.pages)
            made = bands_of(sheet, replace(content, pages=pages), room)
            if pages.asked:
                return made
            self._made[sheet.key] = made
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


class _Layout:
    """What stands on each page, and on which pages each sheet begins and ends.

    ``each``: the pages; ``first``, ``last``: of each sheet by its key; ``places``: the page of
    each place that others name; ``shown``: by page the keys of the sheets of which something
    stands there.
    """

    def __init__(
        self,
        content: Content,
        sheets: Sequence[Sheet],
        bands: Callable[[Content, Sheet, Room], list[Band]],
    ) -> None:
        self.content, self.sheets, self._make = content, sheets, bands
        self.furniture = Furniture(content, content.pages.get("", 0))
        self.each: list[Flowable] = []
        self.first: dict[str, int] = {}
        self.last: dict[str, int] = {}
        self.places: dict[str, int] = {}
        self.shown: dict[int, set[str]] = {}
        self._made: dict[str, list[Band]] = {}
        for stretch in self._stretches():
            for page in self._whole(stretch[0]) if stretch[0].whole else self._set(stretch):
                self._add(page)

    @property
    def pages(self) -> dict[str, int]:
        """The first page of each sheet and of what is marked within one, and under "" how many
        pages there are."""
        return {**self.first, "": len(self.each)}

    @property
    def known(self) -> dict[str, int]:
        """These, and the pages of places."""
        return {**self.places, **self.pages}

    def on(self, page: int) -> list[Sheet]:
        """The sheets that stand on a page, in their order."""
        here = self.shown.get(page, set())
        return [sheet for sheet in self.sheets if sheet.key in here]

    def _add(self, page: Flowable) -> None:
        self.each.append(page)
        number = len(self.each)
        if isinstance(page, DiagramPage):
            page.number = number
            keys = [page.key]
            self.shown[number] = {page.key}
        else:
            self.shown[number] = {x.sheet for x in page.placed if x.height}
            keys = [x.what.key for x in page.placed if isinstance(x.what, Mark)]
            for name in _places(x.what for x in page.placed):
                self.places.setdefault(name, number)
        for key in keys:
            self.first.setdefault(key, number)
            self.last[key] = number

    def _whole(self, sheet: Sheet) -> Iterator[Flowable]:
        """Pages that a sheet makes with all that stands round it."""
        for page in sheet.make(self.content, self.furniture.room):
            assert isinstance(page, DiagramPage)
            yield page

    def _set(self, sheets: Sequence[Sheet]) -> list[Laid]:
        """The pages that these sheets share."""
        room = self.furniture.room
        bands = joined([band for sheet in sheets for band in self._bands(sheet)])
        placed = pages_of(bands, room.width, room.height, self.furniture.beside)
        return [Laid(each, room.width, room.height) for each in placed]

    def _stretches(self) -> list[list[Sheet]]:
        """What shares its pages: whole pages stand alone, the annex begins on one of its own; what
        may stand early does so where that takes no further page."""
        found: list[list[Sheet]] = []
        for sheet in self.sheets:
            before = found[-1][-1] if found else None
            if before is None or before.whole or sheet.whole or before.annex != sheet.annex:
                found.append([])
            found[-1].append(sheet)
        for sheet in [sheet for sheet in self.sheets[1:] if sheet.early]:
            with_it = [*found[0], sheet]
            if sheet not in found[0] and len(self._set(with_it)) == len(self._set(found[0])):
                rest = [[one for one in stretch if one != sheet] for stretch in found[1:]]
                found = [with_it, *filter(None, rest)]
        return found

    def _bands(self, sheet: Sheet) -> list[Band]:
        """What a sheet makes, once for all the ways in which it may be set."""
        if sheet.key not in self._made:
            made = self._make(self.content, sheet, self.furniture.room)
            self._made[sheet.key] = self._marked(sheet, made)
        return self._made[sheet.key]

    def _marked(self, sheet: Sheet, bands: list[Band]) -> list[Band]:
        """Between marks of where it begins and ends."""
        if not bands:
            return []
        first, begins = bands[0], Mark(sheet.key, self.content.say(sheet.title))
        if first.head:
            bands[0] = replace(first, head=(begins, *first.head))
        else:
            bands[0] = replace(first, content=(begins, *first.content))
        bands[-1] = replace(bands[-1], content=(*bands[-1].content, Mark(sheet.key)))
        return bands


def _places(what: Iterable[object]) -> Iterator[str]:
    """The anchors of places among all that stands in some things."""
    for each in what:
        anchor = getattr(each, "anchor", "")
        if anchor.startswith(PLACE):
            yield anchor
        if isinstance(each, list | tuple):
            yield from _places(each)
        elif isinstance(each, Kept):
            yield from _places(each.content)
        elif isinstance(each, Table):
            yield from _places(each._cellvalues)


class _Document(BaseDocTemplate):  # type: ignore[misc]
    """Paints what is laid out: pages of text inside the frame, and those of the diagram."""

    def __init__(self, out: io.BytesIO, laid: _Layout) -> None:
        content = laid.content
        settings = content.design.settings
        super().__init__(
            out,
            pagesize=laid.furniture.size,
            title=printed(settings.job) or content.say("Drawing set"),
            author=printed(settings.drawn_by) or content.say("not named"),
            subject=content.say("Drawing set of a power system"),
        )
        self.laid = laid

    def story(self) -> list[Flowable]:
        """All pages, each with its template."""
        story: list[Flowable] = []
        text = self._text()
        self.addPageTemplates([text])
        for page in self.laid.each:
            template = text
            if isinstance(page, DiagramPage):
                template = self._whole(page)
                self.addPageTemplates([template])
            turn = [NextPageTemplate(template.id), *([PageBreak()] if story else [])]
            story += [*turn, page]
        if self.laid.each and isinstance(self.laid.each[0], DiagramPage):
            self.pageTemplates.reverse()  # the first page takes the first of them
        return story

    def _text(self) -> PageTemplate:
        furniture = self.laid.furniture
        frame = Frame(*furniture.box, 0, 0, 0, 0)
        return PageTemplate("text", [frame], onPageEnd=self._paint, pagesize=furniture.size)

    def _paint(self, canvas: Canvas, document: BaseDocTemplate) -> None:
        self.laid.furniture.paint(canvas, document.page, self.laid.on(document.page))

    def _whole(self, page: DiagramPage) -> PageTemplate:
        frame = Frame(0, 0, *page.size, 0, 0, 0, 0)
        return PageTemplate(page.name, [frame], pagesize=page.size)
