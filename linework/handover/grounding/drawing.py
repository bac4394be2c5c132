"""Draws boxes with their bars in two lanes; ways between bars run on tracks over and under them."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from linework.handover.grounding.bars import Bar, Grounds, Strap, Tie, Way
from linework.handover.grounding.packing import APART, RAIL_NAME, TALL, packed, width_of
from linework.picture.inks import BAR, BROAD, MEDIUM, THIN, Dash, Ink, Pen
from linework.picture.marks import arrow, earth, frame, junction
from linework.picture.measure import text_width
from linework.picture.model import Circle, Item, Line, Rect, Text
from linework.sheet.lettering import wrapped
from linework.sheet.titleblock import fitted

_PITCH = 62
_BOX, _N_BAR, _G_BAR = 375, 40, 325
_RAIL = 95
_NEUTRAL = Pen(width=MEDIUM, dash=Dash.DASHED)
_GROUND = Pen(width=MEDIUM)
_BAR = Pen(width=BAR)
_EDGE = Pen(Ink.QUIET, THIN, Dash.CHAIN)


@dataclass(frozen=True)
class Words:
    """At a box (name, lines under it), a way (in full, then shorter), what a way ends at."""

    box: Callable[[str], tuple[str, Sequence[str]]]
    way: Callable[[Way], Sequence[str]]
    tie: Callable[[Tie], str]
    end: Callable[[str], str]
    part: Callable[[str], str]


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
    waiting = [list(group) for group in packed(grounds, width)]
    while waiting:
        group = waiting.pop(0)
        items, high = _Row(grounds, words, group, width).drawn(not found)
        if high > most and len(group) > 1:
            half = len(group) // 2
            waiting[:0] = [group[:half], group[half:]]
        else:
            found.append((items, high))
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

    def drawn(self, first: bool) -> tuple[list[Item], int]:
        """Its items and height; what ties rails together is drawn on the first."""
        for part in self.boxes:
            self._lay_bars(part)
        for way in self.grounds.ways:
            self._take(way)
        self._give_ports()
        self._give_tracks(self.over)
        self._give_tracks(self.under)
        top = 20 + _PITCH * len(self.over.tracks)
        for part in self.boxes:
            self._box(part, top)
        self._leads_over(top)
        bottom = self._leads_under(top + _BOX, self.grounds.ties if first else ())
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

    def _leads_under(self, bottom: int, ties: Sequence[Tie]) -> int:
        """The tracks below, then the rails; gives where all of it ends."""
        base = bottom + 40
        for lead in self.under.leads:
            if not isinstance(lead.other, str):
                y = base + 25 + _PITCH * self._track(self.under, lead)
                self._level(self.under, lead, y, bottom - _BOX + _G_BAR, _GROUND)
        drops = [lead for lead in self.under.leads if isinstance(lead.other, str)]
        base += _PITCH * len(self.under.tracks)
        rails = sorted(
            {str(lead.other) for lead in drops} | {n for t in ties for n in (t.one, t.other)}
        )
        if not rails:
            return base + 30
        base += max((text_width(lead.labels[0], TALL) for lead in drops), default=0) + 40
        for n, rail in enumerate(rails):
            self._rail(rail, base + n * _RAIL)
        for lead in drops:
            y = base + rails.index(str(lead.other)) * _RAIL
            self.items.append(Line(lead.x, bottom - _BOX + _G_BAR, lead.x, y, _GROUND))
            self.items += junction(lead.x, y)
            self.items.append(Text(lead.x - 10, base - 20, lead.labels[0], TALL, upward=True))
        for n, tie in enumerate(ties):
            high, low = sorted(base + rails.index(name) * _RAIL for name in (tie.one, tie.other))
            self._tie(tie, high, low, n)
        return base + len(rails) * _RAIL

    def _tie(self, tie: Tie, high: int, low: int, number: int) -> None:
        """From rail to rail at their end, its words between the two."""
        x = max(x + wide for x, wide in self.at.values()) + 55 - 22 * number
        self.items.append(Line(x, high, x, low, _GROUND))
        self.items += [*junction(x, high), *junction(x, low)]
        told = fitted(self.words.tie(tie), x + 12, high + 58, RAIL_NAME - 60, TALL, least=TALL)
        self.items.append(told)

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

    def _rail(self, name: str, y: int) -> None:
        end = max(x + wide for x, wide in self.at.values())
        self.items.append(Line(5, y, end + 60, y, Pen(width=BROAD)))
        room = RAIL_NAME - 110
        name_of = fitted(self.words.end(name), end + 90, y + 12, room, TALL, bold=True, least=TALL)
        self.items.append(name_of)
        self.items += (earth if name == "earth" else frame)(end + 20, y + 12, 40)
        self.items.append(Line(end + 20, y, end + 20, y + 12))

    def _box(self, part: str, top: int) -> None:
        x, wide = self.at[part]
        self.items.append(Rect(x, top, wide, _BOX, 0, _EDGE, Ink.TINT))
        for bar in self.grounds.of(part):
            self._bar(bar, top)
        for way in self._inner(part):
            self._contact(way, top + _N_BAR)
        straps = [s for s in self.grounds.straps if s.part == part]
        for strap in straps:
            self._strap(strap, top)
        name, lines = self.words.box(part)
        at = sorted(x for strap in straps for x in self._ends(strap))
        left = at[0] + 30 if at else x + 20
        room = next((other - 25 for other in at if other > left), x + wide - 12) - left
        self.items.append(fitted(name, left, top + 128, room, 30, bold=True, least=TALL))
        told = [row for line in lines for row in wrapped(line, room, TALL)][:3]
        for n, row in enumerate(told):
            self.items.append(fitted(row, left, top + 170 + 40 * n, room, TALL, least=TALL))

    def _bar(self, bar: Bar, top: int) -> None:
        left, right = self.span[bar]
        y = top + (_N_BAR if bar.pole == "N" else _G_BAR)
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
        high, low = (top + (_N_BAR if bar.pole == "N" else _G_BAR) for bar in bars)
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
            y = top + (_N_BAR if bar.pole == "N" else _G_BAR)
            self.items.append(Circle(end, y, 13, pen=None, fill=Ink.INK))
