"""The operator's sheet: what is live in each position, and how to make it dead."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer, Table, TableStyle

from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.drawn import Drawn
from linework.handover.feeding import feeding
from linework.handover.locking import DEAD, actions, order_of, still_live
from linework.handover.positions import (
    Position,
    dead_words,
    link_words,
    live_words,
    positions,
    settings,
    spare_words,
    tester_words,
    together_words,
)
from linework.handover.setting import Kept
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import INK, REGULAR, RULE, SHADE, bullet, size_of, text
from linework.picture.inks import MEDIUM, Pen
from linework.picture.model import Item, Rect, Text
from linework.picture.pdf import POINTS_PER_TENTH
from linework.words import N_, say_count

_LABEL = 36 * mm
_PANEL = 92 * mm
_GAP = 6 * mm
_WIDE = 330 * mm
"""From so wide a room on all of it stands on one page, the order beside the positions."""
_SMALL = 270 * mm
"""Below that the settings of a position stand on one line."""
_COLUMN = 60 * mm
"""A position has at least so much room."""
_MOST = 5


def operator_pages(content: Content, room: Room) -> list[Flowable]:
    """The order beside the positions where there is room for it, else under them."""
    if not order_of(content).before:
        return []
    found = positions(content)
    left = room.width - _PANEL - _GAP
    beside = Room(left, room.height)
    wide = _PANEL - 8 * mm
    panel = [*_head(content), _steps(content, wide), *_rest(content)]
    most = min(len(found), _MOST, int((left - _LABEL) / _COLUMN)) if room.width >= _WIDE else 0
    for count in range(most, 0, -1):
        page = _beside(_positions(content, found, beside, count, count), panel, left)
        if page.wrap(room.width, room.height)[1] <= room.height:
            return [page]
    order = [*_head(content), _steps(content, room.width), *_rest(content)]
    abreast = max(1, int((room.width - _LABEL) / _COLUMN))
    shown = _positions(content, found, room, _MOST, abreast)
    return [*shown, Spacer(1, 3 * mm), Kept(order, room.height)]


def _beside(left: list[Flowable], right: list[Flowable], width: float) -> Table:
    made = Table([[left, "", right]], colWidths=[width, _GAP, _PANEL], hAlign="LEFT")
    made.setStyle(
        TableStyle(
            [
                _FONT,
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (1, 0), 0),
                ("RIGHTPADDING", (0, 0), (1, 0), 0),
                ("TOPPADDING", (0, 0), (1, 0), 0),
                ("BACKGROUND", (2, 0), (2, 0), SHADE),
                ("LEFTPADDING", (2, 0), (2, 0), 4 * mm),
                ("RIGHTPADDING", (2, 0), (2, 0), 4 * mm),
            ]
        )
    )
    return made


_FONT = ("FONT", (0, 0), (-1, -1), REGULAR, size_of(25))

# the positions


def _positions(
    content: Content, found: Sequence[Position], room: Room, most: int, abreast: int
) -> list[Flowable]:
    """Their heading, and the tables of them, so many ``abreast``; of more than ``most`` the rest is
    in the annex."""
    say, width, high = content.say, room.width, room.height
    shown = found[:most]
    out = [
        text(say("Which position is it in?"), "title", anchor="operator"),
        text(say("Find the column that matches plugs and levers. What stands below is true then.")),
        Spacer(1, 1.5 * mm),
    ]
    for at in range(0, len(shown), abreast):
        made = _table(content, shown[at : at + abreast], width)
        out += [Kept([made], high), Spacer(1, 1.5 * mm)]
    out += [text(line) for line in changing_words(content)]
    if len(found) > len(shown):
        out.append(
            text(
                say_count(
                    "{count} more position is in the state table, sheet {sheet}. In any that"
                    " stands on neither, take every point for live.",
                    "{count} more positions are in the state table, sheet {sheet}. In any that"
                    " stands on neither, take every point for live.",
                    len(found) - len(shown),
                    sheet=content.sheet_number("states"),
                ),
                link="states" if "states" in content.pages else "",
            )
        )
    else:
        out.append(text(say("In any other position take every point for live.")))
    rests = _rests_on(content, shown)
    return [*out, text(" ".join(rests), "small")] if rests else out


def _rests_on(content: Content, shown: Sequence[Position]) -> list[str]:
    """What the figures rest on."""
    say = content.say
    told: list[str] = []
    if any(together_words(content, position) for position in shown):
        told.append(say("Currents are those of the drawn loads in use, not of their start."))
    if content.has_outlets:
        told.append(say(_UNSEEN))
    return told


_UNSEEN = N_(
    "A tester that says correct cannot see a {neutral} used as {ground}, or a second link."
)


def changing_words(content: Content) -> list[str]:
    """What moves by itself, so that a dead load can start unasked."""
    design = content.design
    moving = [p.designation for p in design.parts if design.kind(p).changes_over]
    if not moving:
        return []
    return [
        content.say(
            "By itself changes over: {parts}. What it feeds drops out for an instant, and what was"
            " dead may start unasked.",
            parts=", ".join(sorted(moving, key=natural)),
        )
    ]


_ROWS: tuple[tuple[str, Callable[[Content, Position], list[str]]], ...] = (
    (N_("Set"), settings),
    (N_("Live"), live_words),
    (N_("Dead"), dead_words),
    (N_("{neutral_ground_link}"), link_words),
    (N_("Outlet tester"), tester_words),
    (N_("May run together"), together_words),
    (N_("Spare"), spare_words),
)


def _table(content: Content, shown: Sequence[Position], width: float) -> Table:
    column = (width - _LABEL) / len(shown)
    small = width < _SMALL
    tenths = int((column - 3 * mm) / POINTS_PER_TENTH)
    rows: list[list[object]] = [["", *(text(p.title, "heading") for p in shown)]]
    pictures = [feeding(content, p.shown, tenths) for p in shown]
    alike = content.say("side by side: fed alike")
    if any(b.is_ac and b.places for p in shown for b in p.shown.bonds):
        alike = content.say("bar: the link; side by side: fed alike")
    label = [text(content.say("Feeds"), "strong"), text(alike, "small")]
    rows.append([label, *pictures])
    for head, words in _ROWS:
        told = [words(content, p) for p in shown]
        if small and words is settings:
            told = [[", ".join(lines)] if lines else [] for lines in told]
        cells = [[text(word, "cell") for word in lines] for lines in told]
        if any(cells):
            name = content.say(head)
            rows.append([text(name[:1].upper() + name[1:], "strong"), *cells])
    made = Table(
        rows, colWidths=[_LABEL, *[column] * len(shown)], hAlign="LEFT", repeatRows=1, splitInRow=1
    )
    made.setStyle(
        TableStyle(
            [
                _FONT,
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("BACKGROUND", (1, 0), (-1, 0), SHADE),
                ("LINEBELOW", (1, 0), (-1, 0), 1.2, INK),
                ("LINEBELOW", (0, 1), (-1, -1), 0.5, RULE),
                ("LINEBEFORE", (1, 0), (-1, -1), 0.5, RULE),
                ("LEFTPADDING", (0, 0), (0, -1), 0),
                ("LEFTPADDING", (1, 0), (-1, -1), 1.5 * mm),
                ("RIGHTPADDING", (0, 0), (-1, -1), 1.5 * mm),
                ("TOPPADDING", (0, 0), (-1, -1), 0.8 * mm),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 1.4 * mm),
            ]
        )
    )
    return made


# the order

_TICK = 55


def _head(content: Content) -> list[Flowable]:
    say = content.say
    out: list[Flowable] = [
        text(say("Make it dead"), "title", anchor=DEAD),
        text(say("In this order. Tick, lock, keep the keys with you."), "small"),
    ]
    return out if order_of(content).proven else [*out, text(say(_UNPROVEN), "danger")]


def _steps(content: Content, width: float) -> Table:
    """The steps with a box to tick beside each."""
    lead = 15 * mm
    rows = [
        [_tick(number), [text(step.head, "strong"), text(step.how, "cell")]]
        for number, step in enumerate(actions(content), start=1)
    ]
    made = Table(rows, colWidths=[lead, width - lead], hAlign="LEFT")
    made.setStyle(
        TableStyle(
            [
                _FONT,
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 0),
                ("TOPPADDING", (0, 0), (-1, -1), 0.8 * mm),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 1.6 * mm),
            ]
        )
    )
    return made


def _rest(content: Content) -> list[Flowable]:
    """What stays live."""
    rest = still_live(content)
    if not rest:
        return []
    head = text(content.say("Still live after all steps"), "heading")
    return [head, *(bullet(line) for line in rest)]


_UNPROVEN = N_(
    "Not every state of this design could be searched: take every point for live until the"
    " tester has shown otherwise."
)


def _tick(number: int) -> Drawn:
    items: Iterable[Item] = (
        Rect(2, 2, _TICK, _TICK, pen=Pen(width=MEDIUM)),
        Text(_TICK + 22, _TICK - 8, str(number), 35, bold=True),
    )
    return Drawn(items, 140, _TICK + 4)


OPERATOR = Sheet("operator", N_("Operator's sheet"), N_("instruction"), operator_pages, early=True)
