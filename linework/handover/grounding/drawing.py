"""Draws boxes with their bars in two lanes; ways between bars run on tracks over and under them."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from linework.handover.grounding.bars import Bar, Grounds, Strap, Tie, Way
from linework.handover.grounding.hanging import Hung, Rails, hung, taken, width_of_row
from linework.handover.grounding.packing import APART, TALL, packed, width_of
from linework.handover.grounding.signs import position_sign
from linework.picture.inks import BAR, BROAD, MEDIUM, THIN, Dash, Ink, Pen
from linework.picture.marks import arrow, junction
from linework.picture.measure import text_width
from linework.picture.model import Circle, Item, Line, Rect, Text
from linework.sheet.lettering import wrapped
from linework.sheet.titleblock import fitted

_PITCH = 62
_N_BAR, _NAME, _ROW, _SIGN = 40, 118, 38, 46
"""In a box, from above: the upper bar, the name, each row of words, the signs of its links."""
_NEUTRAL = Pen(width=MEDIUM, dash=Dash.DASHED)
_GROUND = Pen(width=MEDIUM)
_BAR = Pen(width=BAR)
_EDGE = Pen(Ink.QUIET, THIN, Dash.CHAIN)
_MOST_ROWS = 3


@dataclass(frozen=True)
class Words:
    """At a box (name, lines under it), a way (in full, then shorter), what a way ends at; ``sign``:
    at a link, in which positions it counts."""

    box: Callable[[str], tuple[str, Sequence[str]]]
    way: Callable[[Way], Sequence[str]]
    tie: Callable[[Tie], str]
    end: Callable[[str], str]
    part: Callable[[str], str]
    sign: Callable[[Strap], str]


@dataclass
class _Lead:
    """A line from a port of a bar: to another port, to a rail, or to nothing but its label."""

    way: Way
    bar: Bar
    other: Bar | str | None
    labels: Sequence[str]
    x: int = 0
    far: int = 0


@dataclass
class _Side:
    """The tracks above or below the boxes."""

    leads: list[_Lead] = field(default_factory=list)
    tracks: list[list[tuple[int, int]]] = field(default_factory=list)


def rows(grounds: Grounds, words: Words, width: int, most: int) -> list[tuple[list[Item], int]]:
    """The drawing in rows of boxes, each with its height, none higher than ``most`` if it can be;
    all in tenths of a millimetre."""
    found: list[tuple[list[Item], int]] = []
    below = [*hung(grounds, lambda p: words.box(p)[0], lambda w: words.way(w)[0])]
    upright = [p for p in grounds.boxes if p not in {each.part for each in below}]
    waiting = [list(group) for group in packed(grounds, upright, width)]
    while waiting or below:
        group, rest = waiting.pop(0) if waiting else [], list(below)
        row = taken(rest, width)
        items, high = _Row(grounds, words, group, width).drawn(not found, row)
        if high > most and len(group) > 1:
            half = len(group) // 2
            waiting[:0] = [group[:half], group[half:]]
        else:
            found.append((items, high))
            below = rest
    return found


class _Row:
    """One row of boxes."""

    def __init__(self, grounds: Grounds, words: Words, boxes: list[str], width: int) -> None:
        self.grounds, self.words, self.boxes, self.width = grounds, words, boxes, width
        self.at: dict[str, tuple[int, int]] = {}
        x = 5
        for part in boxes:
            wide = width_of(grounds, part)
            self.at[part] = (x, wide)
            x += wide + APART
        self.over, self.under = _Side(), _Side()
        self.span: dict[Bar, tuple[int, int]] = {}
        self.items: list[Item] = []
        for part in boxes:
            self._lay_bars(part)
        self.rows = {part: self._told(part) for part in boxes}
        lines = max((len(rows) for rows in self.rows.values()), default=0)
        signs = any(words.sign(s) for s in grounds.straps if s.part in boxes)
        self.g_bar = _NAME + _ROW * lines + (_SIGN if signs else 0) + 44
        self.high = self.g_bar + 40 if boxes else 0

    def drawn(self, first: bool, below: Sequence[Hung] = ()) -> tuple[list[Item], int]:
        """Its items and height; what ties rails together is drawn on the first."""
        for way in self.grounds.ways:
            self._take(way)
        self._give_ports()
        self._give_tracks(self.over)
        self._give_tracks(self.under)
        top = 12 + _PITCH * len(self.over.tracks)
        for part in self.boxes:
            self._box(part, top)
        self._leads_over(top)
        bottom = top + self.high if self.boxes else 0
        bottom = self._leads_under(bottom, self.grounds.ties if first else (), below)
        return self.items, bottom

    # bars and leads

    def _lay_bars(self, part: str) -> None:
        """The lanes of a part across its box, those with a link first; ground and minus share."""
        x, wide = self.at[part]
        bars = self.grounds.of(part)
        linked = {s.one for s in self.grounds.straps} | {s.other for s in self.grounds.straps}
        over = sorted((b for b in bars if b.pole == "N"), key=lambda b: b not in linked)
        if len(over) == 3:  # what both others lead to stands between them
            joint = max(over, key=lambda b: sum(b in (w.start, w.end) for w in self._inner(part)))
            others = [b for b in over if b is not joint]
            over = [others[0], joint, others[1]]
        under = sorted(
            (b for b in bars if b.pole != "N"), key=lambda b: (b.pole == "-", b not in linked)
        )
        for lane in (over, under):
            for n, bar in enumerate(lane):
                share = (wide - 20) // len(lane)
                left = x + 10 + n * share
                self.span[bar] = (left, left + share - (30 if n < len(lane) - 1 else 0))

    def _inner(self, part: str) -> list[Way]:
        return [
            w
            for w in self.grounds.ways
            if isinstance(w.end, Bar) and w.end.part == w.start.part == part
        ]

    def _take(self, way: Way) -> None:
        """A way becomes a lead between two ports here, one to a rail, or one end of it."""
        here = [b for b in (way.start, way.end) if isinstance(b, Bar) and b in self.span]
        if not here or (isinstance(way.end, Bar) and way.end.part == way.start.part):
            return
        labels = self.words.way(way)
        alike = len(here) == 2 and (here[0].pole == "N") == (here[1].pole == "N")
        if alike:
            self._side(here[0]).leads.append(_Lead(way, here[0], here[1], labels))
        elif not isinstance(way.end, Bar) and here[0].pole != "N":
            self.under.leads.append(_Lead(way, here[0], way.end, labels))
        else:
            for bar in here:
                far = way.end if bar == way.start else way.start
                to = self.words.part(far.part) if isinstance(far, Bar) else self.words.end(far)
                self._side(bar).leads.append(
                    _Lead(way, bar, None, [f"{labels[-1]} → {to}".strip()])
                )

    def _side(self, bar: Bar) -> _Side:
        return self.over if bar.pole == "N" else self.under

    def _give_ports(self) -> None:
        """Ports along each bar in the order of where they lead; the first place is a link's."""
        ends: dict[Bar, list[tuple[float, _Lead, bool]]] = {}
        for lead in (*self.over.leads, *self.under.leads):
            there = lead.other if isinstance(lead.other, Bar) else None
            # to a rail at the left, to another row at the right, so that neither crosses it
            lone = self.width if lead.other is None else 0
            toward = sum(self.span[there]) / 2 if there else lone
            ends.setdefault(lead.bar, []).append((toward, lead, True))
            if there:
                ends.setdefault(there, []).append((sum(self.span[lead.bar]) / 2, lead, False))
        for bar, leads in ends.items():
            left, right = self.span[bar]
            step = (right - left) / (len(leads) + 1)
            for n, (_, lead, near) in enumerate(sorted(leads, key=lambda e: e[0]), start=1):
                x = round(left + n * step)
                if near:
                    lead.x = x
                else:
                    lead.far = x

    def _give_tracks(self, side: _Side) -> None:
        """Each level stretch on the nearest track that is free there; short ones first, those
        that lead to another row outermost and from the right, so that they cross no other."""
        level = [lead for lead in side.leads if not isinstance(lead.other, str)]
        for lead in level:
            if lead.other is None:
                lead.far = self._free_end(side, lead)

        whole = [lead for lead in level if lead.other is not None]
        for lead in sorted(whole, key=lambda lead: abs(lead.far - lead.x)):
            self._put(side, lead, 0)
        outer = len(side.tracks)
        stubs = [lead for lead in level if lead.other is None]
        for lead in sorted(stubs, key=lambda lead: (lead.far < lead.x, -abs(lead.x))):
            self._put(side, lead, outer)

    def _put(self, side: _Side, lead: _Lead, least: int) -> None:
        low, high = sorted((lead.x, lead.far))
        for track in side.tracks[least:]:
            if all(high + 20 < a or b + 20 < low for a, b in track):
                track.append((low, high))
                return
        side.tracks.append([(low, high)])

    def _free_end(self, side: _Side, lead: _Lead) -> int:
        """Where what leads to another row ends: on that side on which no line to a rail stands
        in the way of its words."""
        wide = text_width(lead.labels[0], TALL) + 60
        drops = [other.x for other in side.leads if isinstance(other.other, str)]
        right, left = lead.x + wide, lead.x - wide
        if right < self.width and not any(lead.x < x < right for x in drops):
            return right
        free_left = left > 0 and not any(left < x < lead.x for x in drops)
        return left if free_left or right >= self.width else right

    def _track(self, side: _Side, lead: _Lead) -> int:
        span = tuple(sorted((lead.x, lead.far)))
        return next(n for n, track in enumerate(side.tracks) if span in track)

    # drawing

    def _leads_over(self, top: int) -> None:
        for lead in self.over.leads:
            y = top - 30 - _PITCH * self._track(self.over, lead)
            self._level(self.over, lead, y, top + _N_BAR, _NEUTRAL)

    def _leads_under(self, bottom: int, ties: Sequence[Tie], below: Sequence[Hung]) -> int:
        """The tracks below, then the rails and what hangs on them; gives where all of it ends."""
        bar = bottom - self.high + self.g_bar
        for lead in self.under.leads:
            if not isinstance(lead.other, str):
                y = bottom + 40 + 12 + _PITCH * self._track(self.under, lead)
                self._level(self.under, lead, y, bar, _GROUND)
        drops = [lead for lead in self.under.leads if isinstance(lead.other, str)]
        names = {str(lead.other) for lead in drops} | {n for t in ties for n in (t.one, t.other)}
        names |= {rail for each in below for rail in each.rails}
        base = bottom + 15 + _PITCH * len(self.under.tracks)
        if not names:
            return base + 20
        base += max((text_width(lead.labels[0], TALL) + 40 for lead in drops), default=5)
        end = max((x + wide for x, wide in self.at.values()), default=0)
        rails = Rails(names, base, max(end, width_of_row(below) + 5))
        self.items += rails.drawn(self.words.end)
        for lead in drops:
            self.items += rails.drop(lead.x, bar, str(lead.other), lead.labels[0])
        for n, tie in enumerate(ties):
            self.items += rails.tie(tie, n, self.words.tie(tie))
        self.items += rails.hang(below)
        return rails.below(below)

    def _level(self, side: _Side, lead: _Lead, y: int, bar: int, pen: Pen) -> None:
        """One stretch on its track with its label over it, and its ends at the bars."""
        self.items.append(Line(lead.x, bar, lead.x, y, pen))
        self.items += junction(lead.x, bar)
        if lead.other is None:
            self.items += arrow(lead.x, y, lead.far, y, pen=Pen(width=MEDIUM))
        else:
            self.items.append(Line(lead.x, y, lead.far, y, pen))
            self.items.append(Line(lead.far, y, lead.far, bar, pen))
            self.items += junction(lead.far, bar)
        self._label(side, lead, y)

    def _label(self, side: _Side, lead: _Lead, y: int) -> None:
        """In the widest room that no other upright line crosses."""
        low, high = sorted((lead.x, lead.far))
        mine = self._track(side, lead)
        crossing = sorted(
            x
            for other in side.leads
            for x in (other.x, other.far if other.other in self.span else other.x)
            if low < x < high and self._reaches(side, other, mine)
        )
        edges = [low, *crossing, high]
        room, left = max((b - a, a) for a, b in itertools.pairwise(edges))
        fitting = (w for w in lead.labels if text_width(w, TALL) <= room - 44)
        words = next(fitting, lead.labels[-1])
        shown = fitted(words, 0, 0, max(room - 44, 30), TALL, least=TALL)
        self.items.append(Text(left + room // 2, y - 14, shown.text, TALL, "middle"))

    def _reaches(self, side: _Side, other: _Lead, track: int) -> bool:
        return isinstance(other.other, str) or self._track(side, other) > track

    def _told(self, part: str) -> list[str]:
        """The words of a box in rows."""
        _, room = self._beside_links(part)
        _, lines = self.words.box(part)
        return [row for line in lines for row in wrapped(line, room, TALL)][:_MOST_ROWS]

    def _beside_links(self, part: str) -> tuple[int, int]:
        """Where the words of a box begin, right of its first link, and their room."""
        x, wide = self.at[part]
        straps = [s for s in self.grounds.straps if s.part == part]
        at = sorted(x for strap in straps for x in self._ends(strap))
        left = at[0] + 30 if at else x + 20
        return left, next((other - 25 for other in at if other > left), x + wide - 12) - left

    def _box(self, part: str, top: int) -> None:
        x, wide = self.at[part]
        self.items.append(Rect(x, top, wide, self.high, 0, _EDGE, Ink.TINT))
        for bar in self.grounds.of(part):
            self._bar(bar, top)
        for way in self._inner(part):
            self._contact(way, top + _N_BAR)
        straps = [s for s in self.grounds.straps if s.part == part]
        for strap in straps:
            self._strap(strap, top)
        name, (left, room) = self.words.box(part)[0], self._beside_links(part)
        self.items.append(fitted(name, left, top + _NAME, room, 30, bold=True, least=TALL))
        for n, row in enumerate(self.rows[part], start=1):
            y = top + _NAME + _ROW * n
            self.items.append(fitted(row, left, y, room, TALL, least=TALL))
        for strap in straps:
            left = self._signed(self.words.sign(strap), left, top + self.g_bar - 58)

    def _signed(self, sign: str, x: int, y: int) -> int:
        """The sign of a link beside its foot; gives where the next one stands."""
        if not sign:
            return x
        items, wide = position_sign(sign, x, y)
        self.items += items
        return x + wide + 14

    def _bar(self, bar: Bar, top: int) -> None:
        left, right = self.span[bar]
        y = top + (_N_BAR if bar.pole == "N" else self.g_bar)
        self.items.append(Line(left, y, right, y, _BAR))
        # on the side of the box, where no way leaves the bar
        straps = [s for s in self.grounds.straps if bar in (s.one, s.other)]
        taken = [x for s in straps for x in self._ends(s) if left <= x <= right]
        label = fitted(bar.name, 0, 0, right - max([left, *taken]) - 15, TALL, least=TALL)
        over = bar.pole == "N"
        base = y + 12 + TALL if over else y - 22
        self.items.append(Text(right, base, label.text, TALL, "end"))

    def _contact(self, way: Way, y: int) -> None:
        """Between two bars of one part that stand beside each other."""
        if not isinstance(way.end, Bar) or not {way.start, way.end} <= self.span.keys():
            return
        (_, a), (b, _) = sorted((self.span[way.start], self.span[way.end]))
        if 0 < b - a < 60:
            self.items += [
                Circle(a + 5, y, 5, Pen(width=THIN), Ink.PAPER),
                Circle(b - 5, y, 5, Pen(width=THIN), Ink.PAPER),
                Line(a + 8, y - 4, b - 6, y - 18, _GROUND),
            ]

    def _ends(self, strap: Strap) -> tuple[int, int]:
        """Where a link stands on its two bars: at their left, several beside each other."""
        mine = [s for s in self.grounds.straps if (s.one, s.other) == (strap.one, strap.other)]
        off = 30 + 26 * mine.index(strap)
        one, other = (self.span[bar][0] + off for bar in (strap.one, strap.other))
        return one, other

    def _strap(self, strap: Strap, top: int) -> None:
        """From bar to bar; with a contact where a relay closes it."""
        bars = (strap.one, strap.other)
        high, low = (top + (_N_BAR if bar.pole == "N" else self.g_bar) for bar in bars)
        x, foot = self._ends(strap)
        pen = Pen(width=BAR, dash=Dash.SOLID if strap.certain else Dash.DASHED)
        middle = (high + low) // 2
        if x != foot:
            self.items.append(Line(x, low - 60, foot, low - 60, pen))
            self.items.append(Line(foot, low - 60, foot, low, pen))
            low -= 60
        if strap.when:
            self.items += [
                Line(x, high, x, middle - 30, pen),
                Line(x, middle + 30, x, low, pen),
                Line(x, middle + 30, x - 22, middle - 26, Pen(width=BROAD)),
                Circle(x, middle - 30, 6, Pen(width=THIN), Ink.PAPER),
                Circle(x, middle + 30, 6, Pen(width=THIN), Ink.PAPER),
            ]
        else:
            self.items.append(Line(x, high, x, low, pen))
        for end, bar in zip((x, foot), bars, strict=True):
            y = top + (_N_BAR if bar.pole == "N" else self.g_bar)
            self.items.append(Circle(end, y, 13, pen=None, fill=Ink.INK))
