"""What sheets say is set on pages without holes, and what belongs together is not parted."""

from __future__ import annotations

import datetime

import pytest
from reportlab.platypus import Flowable, Paragraph, Spacer, Table
from reportlab.platypus.doctemplate import LayoutError

from linework.design import Design
from linework.handover.columns import widths
from linework.handover.content import Content
from linework.handover.document import content_of
from linework.handover.drawn import Drawn
from linework.handover.setting import UNDER, Kept, Placed, joined, pages_of
from linework.handover.sheets import Band, Mark, Room, Sheet, bands_of
from linework.handover.styles import BETWEEN, table, text
from linework.picture.measure import bounds
from linework.picture.model import Line
from linework.picture.pdf import POINTS_PER_TENTH

WIDTH, HEIGHT = 500.0, 400.0


def block(points: float) -> Drawn:
    """Something that cannot be divided."""
    return Drawn((), 100, round(points / POINTS_PER_TENTH))


def rows(count: int, width: float = WIDTH) -> Table:
    return table(["number", "what"], [[str(n), "words"] for n in range(count)], width)


def pages(*bands: Band, deeper: float = 0.0) -> list[list[Placed]]:
    return list(pages_of(bands, WIDTH, HEIGHT, deeper))


def lefts(page: list[Placed]) -> list[float]:
    return sorted({round(each.left) for each in page})


def bottom(page: list[Placed], left: float) -> float:
    return max(each.top + each.height for each in page if round(each.left) == round(left))


def test_columns_of_the_last_page_are_of_one_height() -> None:
    band = Band(2, [block(50) for _ in range(6)])
    (page,) = pages(band)
    first, second = lefts(page)
    assert second == round((WIDTH + BETWEEN) / 2)
    assert bottom(page, first) == pytest.approx(bottom(page, second), abs=1)


def test_a_band_begins_where_the_one_before_it_ends() -> None:
    (page,) = pages(Band(1, [block(100)]), Band(3, [block(50)] * 3))
    assert len(lefts(page)) == 3
    assert all(each.top > 100 for each in page[1:])


def test_what_has_no_room_leaves_it_to_what_follows_from_another_sheet() -> None:
    first, second = pages(
        Band(1, [block(250)], "a"), Band(1, [block(200)], "b"), Band(1, [block(90)], "c")
    )
    assert [round(each.height) for each in first] == [250, 90]
    assert [round(each.height) for each in second] == [200]


def test_a_sheet_goes_before_no_more_than_one() -> None:
    first, _ = pages(
        Band(1, [block(250)], "a"),
        Band(1, [block(200)], "b"),
        Band(1, [block(160)], "c"),
        Band(1, [block(8)], "d"),
    )
    assert [round(each.height) for each in first] == [250]


def test_what_is_too_high_for_the_rest_of_a_page_leaves_it_to_another_sheet() -> None:
    """Also where its sheet has begun on this page."""
    high = [block(200), block(250)]
    first, second = pages(Band(1, high, "a"), Band(1, [block(150)], "b"))
    assert [round(each.height) for each in first] == [200, 150]
    assert [round(each.height) for each in second] == [250]


def test_a_sheet_keeps_its_own_order() -> None:
    first, second = pages(
        Band(1, [block(250)], "a"), Band(1, [block(200)], "b"), Band(2, [block(90)], "b")
    )
    assert [round(each.height) for each in first] == [250]
    assert [round(each.height) for each in second] == [200, 90]


def test_a_heading_stays_with_its_table() -> None:
    content: list[Flowable] = [block(HEIGHT - 40), text("Faults", "heading"), rows(9)]
    first, second = pages(Band(1, content))
    assert len(first) == 1
    assert isinstance(second[0].what, Paragraph)


def counted(page: list[Placed]) -> list[int]:
    """The rows of each table on a page, without its head."""
    return [len(e.what._rowHeights) - 1 for e in page if isinstance(e.what, Table)]


def test_no_row_stands_alone() -> None:
    for free in range(60, 200, 7):
        found = pages(Band(1, [block(HEIGHT - free), rows(9)]))
        shown = [count for page in found for count in counted(page)]
        assert sum(shown) == 9
        assert min(shown) > 1


def test_what_is_kept_goes_whole_onto_the_next_page() -> None:
    kept = Kept([block(100), block(100)], HEIGHT)
    first, second = pages(Band(1, [block(250), kept]))
    assert [each.what for each in second] == [kept]
    assert len(first) == 1


def test_what_is_kept_is_parted_where_no_page_holds_it() -> None:
    found = pages(Band(1, [Kept([block(150)] * 5, HEIGHT)]))
    assert [len(page) for page in found] == [2, 2, 1]


def test_what_is_higher_than_a_page_is_told() -> None:
    with pytest.raises(LayoutError):
        pages(Band(1, [block(HEIGHT + 10)]))


def test_the_first_column_goes_down_beside_the_title_block() -> None:
    content = [block(99) for _ in range(10)]
    first, second = pages(Band(2, content), deeper=100.0)
    assert bottom(first, 0) == pytest.approx(5 * 99, abs=1)
    assert (len(first), len(second)) == (9, 1)
    assert bottom(first, lefts(first)[1]) <= HEIGHT


def test_bands_of_as_many_columns_run_on() -> None:
    (one,) = joined([Band(2, [block(10)], "a"), Band(2, [block(10)], "b")])
    assert len(one.content) == 3
    (same,) = joined([Band(2, [block(10)], "a"), Band(2, [block(10)], "a")])
    assert len(same.content) == 2
    assert len(joined([Band(2, [block(10)]), Band(2, [block(10)], head=[block(5)])])) == 2
    assert len(joined([Band(1, [block(10)]), Band(1, [block(10)])])) == 2


def test_a_column_that_one_row_makes_wide_gives_room_to_one_of_many_lines() -> None:
    long, longer = "a word and another " * 3, "many words that go on " * 4
    cells = [[[text(long, "cell")], [text("short", "cell")]]]
    cells += [[[text("x", "cell")], [text(longer, "cell")]] for _ in range(8)]
    found = widths(cells, 260.0, 7.0, fill=True)
    assert sum(found) == pytest.approx(260.0)

    def high(columns: list[float]) -> float:
        made = Table(cells, colWidths=columns)
        return float(made.wrap(260.0, 1e5)[1])

    assert found[1] > found[0]
    assert high(found) < high([130.0, 130.0])


def test_what_is_kept_stands_as_far_below_as_what_stands_first_in_it() -> None:
    heading = text("Board", "heading")
    (page,) = pages(Band(1, [block(50), Kept([heading, rows(2)], HEIGHT)]))
    assert heading.getSpaceBefore() > 0
    assert page[1].top == pytest.approx(page[0].height + heading.getSpaceBefore())


def test_bands_that_run_on_stand_apart_once() -> None:
    """The gap between them is not added to that which a heading has."""
    heading = text("Boards", "heading")
    for first in (heading, Kept([heading], HEIGHT)):
        (one,) = joined([Band(2, [block(10)], "a"), Band(2, [block(0), first], "b")])
        assert isinstance(one.content[1], Spacer)
        assert one.content[1].height + heading.getSpaceBefore() == pytest.approx(UNDER)


def sheet_of(wide: int) -> Sheet:
    """One whose drawing is so wide, with a legend of 30 mm, on a room of 100 mm."""

    def make(_: Content, room: Room) -> list[Flowable]:
        return [Drawn([Line(0, 0, wide, 300)], round(room.width / POINTS_PER_TENTH), 300)]

    def foot(_: Content, width: int, height: int) -> list[Line]:
        return [Line(0, 0, 300, 100)]

    return Sheet("one", "One", "drawing", make, foot=foot)


@pytest.mark.parametrize(("wide", "high"), [(500, [300]), (800, [300, 100])])
def test_a_legend_stands_beside_a_drawing_where_that_leaves_room(
    wide: int, high: list[int]
) -> None:
    room = Room(1000 * POINTS_PER_TENTH, HEIGHT)
    (band,) = bands_of(sheet_of(wide), content_of(Design(), datetime.date(2026, 3, 1)), room)
    drawn = [each for each in band.content if isinstance(each, Drawn)]
    found = [each.height / POINTS_PER_TENTH for each in drawn]
    assert found == pytest.approx(high, abs=3)  # half the width of a line
    box = bounds(drawn[0].items)
    assert box is not None
    assert box.right <= 1000


def test_what_stands_on_a_page_is_known_by_its_sheet() -> None:
    """A sheet that steps aside for another is not on the page of that."""
    tall = Band(1, [Mark("one", "One"), block(150), block(300), Mark("one")], sheet="one")
    other = Band(1, [Mark("two", "Two"), block(200), Mark("two")], sheet="two")
    found = [{each.sheet for each in page if each.height} for page in pages(tall, other)]
    assert found == [{"one", "two"}, {"one"}]


def test_of_bands_that_run_on_each_thing_keeps_its_sheet() -> None:
    first = Band(2, [Mark("one", "One"), block(300), Mark("one")], sheet="one")
    then = Band(2, [Mark("two", "Two"), block(300), block(300), block(300)], sheet="two")
    placed = pages(*joined([first, then]))
    found = [[each.sheet for each in page if isinstance(each.what, Drawn)] for page in placed]
    assert found == [["one", "two"], ["two", "two"]]
